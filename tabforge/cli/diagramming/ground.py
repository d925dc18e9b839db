"""What a diagram is drawn on: a section of a study, or of one that words of the command line make."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Final, NamedTuple

import typer

from tabforge.cli.diagramming.asked import Asked
from tabforge.cli.exits import Exits
from tabforge.cli.reporting import findings
from tabforge.cli.screen import fail, tell
from tabforge.diagrams.model import Diagram
from tabforge.diagrams.naming import Labels
from tabforge.diagrams.shapes import Frets
from tabforge.fretboard.instruments import neck_of
from tabforge.fretboard.neck import Neck
from tabforge.model.score import Scale, Score, Section
from tabforge.pipeline import Outcome, study_from

COMMAND_LINE: Final = "<command line>"
_FRETS: Final = re.compile(r"([0-9]{1,2})(?:-([0-9]{1,2}))?")


class Ground(NamedTuple):
    """What a diagram is drawn on."""

    score: Score
    section: Section
    neck: Neck

    @property
    def about(self) -> list[str]:
        """The instrument and its tuning, where they are not a guitar's own, and the capo."""
        own = self.score.instrument
        tuning = self.section.tuning
        said = [own.label] if own.name != "guitar" else []
        if tuning != own.tuning:
            said.append(f"{tuning.name} ({tuning})" if tuning.name else str(tuning))
        return [*said, *([f"capo at fret {self.section.capo}"] if self.section.capo else [])]


def ground_of(outcome: Outcome, section: Section) -> Ground:
    """A section of a study without errors, and its neck."""
    assert outcome.score is not None
    neck = neck_of(outcome.score.instrument, section.tuning, section.capo, section.fretting)
    return Ground(outcome.score, section, neck)


def told(outcome: Outcome, quiet: bool) -> None:
    """Tell what was found in a study."""
    report = findings(outcome, quiet)
    if report:
        tell(report)


def scale_name(scale: Scale) -> str:
    """A scale on its root, in a title."""
    return f"{scale.root.pitch_class} {scale.name}"


def frets_of(text: str | None, neck: Neck) -> Frets | None:
    """The frets that ``--frets`` names on a neck; None if it is not given."""
    if text is None:
        return None
    found = _FRETS.fullmatch("".join(text.split()))
    if found is None:
        fail(f"{text!r} are no frets: say 5-9, or 0-4 for the first ones with the open strings.", Exits.USAGE)
    first, last = int(found[1]), int(found[2] or found[1])
    if first > last or last > neck.last:
        fail(f"There are no frets {text} here: from the lower to the higher, and the neck ends at fret {neck.last}.", Exits.USAGE)
    return Frets(first, last)


def _header(asked: Asked) -> list[str]:
    said = {"instrument": asked.instrument, "tuning": asked.tuning, "capo": asked.capo}
    return [line(word, value) for word, value in said.items() if value is not None]


def line(word: str, value: str) -> str:
    """A line of the riff language; line breaks within a value do not begin another."""
    return f"{word} {' '.join(value.split())}"


def compiled(asked: Asked, lines: Iterable[str]) -> Ground:
    """The ground that words of the command line make: they are a study of one block, and its errors are theirs."""
    outcome = study_from(COMMAND_LINE, "\n".join([*_header(asked), *lines, ""]).encode(errors="replace"))
    told(outcome, asked.quiet)
    if outcome.score is None:
        raise typer.Exit(Exits.USAGE)
    return ground_of(outcome, outcome.score.sections[0])


def worth_drawing(diagrams: list[Diagram], labels: Labels) -> list[Diagram]:
    """The diagrams, if there is something in them to see."""
    dots = [dot for diagram in diagrams for dot in diagram.dots]
    if not dots:
        fail("There is nothing to draw: no note lies here.", Exits.USAGE)
    if labels == "finger" and not any(dot.label for dot in dots):
        fail("No fingers are given here: name them with --fingers, or in the study's row of fingers.", Exits.USAGE)
    return diagrams
