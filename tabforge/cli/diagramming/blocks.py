"""A block of a study on the neck."""

from __future__ import annotations

from pathlib import Path

from tabforge.cli.choosing import chosen
from tabforge.cli.diagramming.asked import Asked
from tabforge.cli.diagramming.ground import frets_of, ground_of, scale_name, told, worth_drawing
from tabforge.cli.exits import Exits
from tabforge.cli.screen import fail, reason
from tabforge.cli.studies import STDIN, Study, read_bytes, read_stdin, shown
from tabforge.diagrams.model import Diagram
from tabforge.diagrams.shapes import played_in, shape
from tabforge.pipeline import study_from


def of_block(asked: Asked) -> list[Diagram]:
    """Every place that a block plays."""
    first, *words = asked.what
    if first == STDIN:
        name, data = Study.stdin().name, read_stdin()
    else:
        try:
            name, data = first, read_bytes(Path(first))
        except OSError as error:
            fail(f"{shown(Path(first))} cannot be read: {reason(error)}.", Exits.FILES)
    outcome = study_from(name, data)
    told(outcome, asked.quiet)
    if outcome.score is None:
        fail("Nothing is drawn of a study with errors.", Exits.ERRORS)
    section = chosen(outcome.score, " ".join(" ".join(words).split()))
    ground = ground_of(outcome, section)
    scale = section.scale
    labels = asked.labels or ("degree" if scale else "note")
    if labels == "degree" and scale is None:
        fail("Degrees need a scale to be counted in, and this block has none: choose --label note.", Exits.USAGE)
    subtitle = [f"{scale_name(scale)}: {' '.join(map(str, scale.tones))}"] if scale else []
    title = section.title or outcome.score.title
    left = outcome.score.left_handed if asked.left is None else asked.left
    frets = frets_of(asked.frets, ground.neck)
    subtitle += ground.about
    made = shape(
        played_in(section), ground.neck, title=title, subtitle="; ".join(subtitle), labels=labels, scale=scale, frets=frets,
        left_handed=left,
    )  # fmt: skip
    return worth_drawing([made], labels)
