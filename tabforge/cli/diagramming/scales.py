"""A scale on the neck, or in a layout."""

from __future__ import annotations

from typing import Final

from tabforge.cli.diagramming.asked import CHORD, Asked
from tabforge.cli.diagramming.ground import compiled, frets_of, line, scale_name, worth_drawing
from tabforge.cli.exits import Exits
from tabforge.cli.screen import fail
from tabforge.diagnostics.core import nearest
from tabforge.diagrams.model import Diagram
from tabforge.diagrams.shapes import on_whole_neck, played_in, shape
from tabforge.model.pitch import parse_pitch, parse_pitch_class
from tabforge.model.score import Scale

WAYS: Final = "What can be drawn: a study and a block's name, a scale on its root (Bb2 lydian), or a chord (chord C/E)."

_SILENCE: Final = ("riff", "  rhythm w", "  notes r")
"""A block that plays nothing: it has the scale, the tuning and the capo in force."""


def of_scale(asked: Asked) -> list[Diagram]:
    """A scale as it lies on the neck."""
    if asked.fingers is not None and asked.layout is None:
        fail("--fingers goes with --layout: a pattern of fingers follows a line.", Exits.USAGE)
    if parse_pitch(asked.what[0]) is None and parse_pitch_class(asked.what[0]) is None and " " not in asked.what[0]:
        near = nearest(asked.what[0], [CHORD])
        hint = f"Did you mean {near!r}? " if near else ""
        fail(f"{asked.what[0]!r} is neither a study nor a root. {hint}{WAYS}", Exits.USAGE)
    said = line("scale", " ".join(asked.what))
    block = list(_SILENCE)
    if asked.layout is not None:
        more = {"layout": asked.layout, "tones": asked.tones, "fingers": asked.fingers}
        block = ["run", *("  " + line(word, value) for word, value in more.items() if value is not None)]
    ground = compiled(asked, [said, *block])
    scale, neck = ground.section.scale, ground.neck
    assert scale is not None
    labels = asked.labels or ("finger" if asked.fingers is not None else "degree")
    layout = [" ".join(asked.layout.split())] if asked.layout is not None else []
    tones = [f"tones {' '.join(asked.tones.split())}"] if asked.tones is not None else []
    subtitle = "; ".join([" ".join(map(str, scale.tones)), *layout, *tones, *ground.about])
    places = played_in(ground.section) if asked.layout is not None else on_whole_neck(scale, neck, _tones(asked, scale))
    frets = frets_of(asked.frets, neck)
    made = shape(
        places, neck, title=scale_name(scale), subtitle=subtitle, labels=labels, scale=scale, frets=frets, whole=asked.layout is None,
        left_handed=bool(asked.left),
    )  # fmt: skip
    return worth_drawing([made], labels)


def _tones(asked: Asked, scale: Scale) -> list[int] | None:
    if asked.tones is None:
        return None
    from tabforge.theory.degrees import DegreeProblem, resolve_degree  # noqa: PLC0415

    found = []
    for text in asked.tones.split():
        pitch = resolve_degree(scale, text)
        if isinstance(pitch, DegreeProblem):
            fail(f"{text} is no degree of {scale_name(scale)}, which has {' '.join(scale.labels)}.", Exits.USAGE)
        found.append(pitch.midi)
    if not found:
        fail("--tones names no degree: say which, such as 1 3 5.", Exits.USAGE)
    return found
