"""Making diagrams for the tests, by the pipeline's own text."""

from __future__ import annotations

from tabforge.diagrams.model import Diagram
from tabforge.diagrams.naming import Labels
from tabforge.diagrams.shapes import Frets, on_whole_neck, played_in, shape
from tabforge.fretboard.instruments import neck_of
from tabforge.fretboard.neck import Neck
from tabforge.model.pitch import parse_pitch
from tabforge.model.score import Scale, Section
from tabforge.pipeline import study_from
from tabforge.theory.scales import named_scale


def compiled(text: str) -> tuple[Section, Neck]:
    """The first section of a study without errors, and its neck."""
    outcome = study_from("study.riff", text.encode())
    assert outcome.score is not None, outcome.diagnostics
    section = outcome.score.sections[0]
    return section, neck_of(outcome.score.instrument, section.tuning, section.capo, section.fretting)


def block(text: str, labels: Labels = "degree", left_handed: bool = False) -> Diagram:
    """The diagram of a study's first block."""
    section, neck = compiled(text)
    return shape(played_in(section), neck, title="Lantern Bay", labels=labels, scale=section.scale, left_handed=left_handed)


def run(scale: str, layout: str, header: str = "") -> Diagram:
    """The diagram of a scale in a layout."""
    return block(f"{header}\nscale {scale}\n\nrun\n  layout {layout}\n")


def scale_of(text: str) -> Scale:
    """A scale from its root and name."""
    root, _, name = text.partition(" ")
    pitch = parse_pitch(root)
    assert pitch is not None
    found = named_scale(pitch, name)
    assert found is not None
    return found


def whole(text: str, neck: Neck, frets: Frets | None = None, labels: Labels = "degree", left_handed: bool = False) -> Diagram:
    """A scale on the whole neck or on some of its frets."""
    scale = scale_of(text)
    return shape(
        on_whole_neck(scale, neck), neck, title=text, labels=labels, scale=scale, frets=frets, whole=True, left_handed=left_handed
    )


def frets(diagram: Diagram) -> str:
    """The frets of each string, from the lowest string: ``6 8 10 | 7 8 10``; ``-`` for a string without."""
    strings = range(len(diagram.strings), 0, -1)
    return " | ".join(" ".join(str(dot.fret) for dot in diagram.dots if dot.string == string) or "-" for string in strings)
