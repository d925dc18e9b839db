"""Diagrams: what ``tabforge diagram`` does with its arguments.

``asked`` is what they say, ``ground`` what a diagram is drawn on; ``blocks``, ``scales`` and ``chords`` draw each kind.
"""

from __future__ import annotations

from pathlib import Path
from typing import Final

from tabforge.cli import disk
from tabforge.cli.diagramming.asked import CHORD, Asked
from tabforge.cli.exits import Exits
from tabforge.cli.screen import fail, pour, reason
from tabforge.cli.studies import STDIN, shown
from tabforge.diagrams.model import Diagram
from tabforge.readers import SUFFIXES

_ONLY: Final[dict[str, tuple[str, ...]]] = {
    "layout": ("scale",),
    "tones": ("scale",),
    "shape": (CHORD,),
    "grips": (CHORD,),
    "voicing": (CHORD,),
    "strings": (CHORD,),
    "inversion": (CHORD,),
    "fingers": ("scale", CHORD),
    "instrument": ("scale", CHORD),
    "tuning": ("scale", CHORD),
    "capo": ("scale", CHORD),
}
"""Options that are not for everything, and what they are for."""


def draw(asked: Asked) -> Exits:
    """Draw what is asked for, to standard output or into a file."""
    form = asked.form or ("svg" if asked.into is not None and asked.into.suffix.lower() == ".svg" else "text")
    if asked.bare and form != "svg":
        fail("--bare is for pictures: it goes with --as svg.", Exits.USAGE)
    if asked.width is not None and form != "text":
        fail("--width is for text.", Exits.USAGE)
    kind = _kind(asked.what)
    for option, kinds in _ONLY.items():
        if getattr(asked, option) is not None and kind not in kinds:
            own = "; a study says that itself" if kind == "study" else ""
            fail(f"--{option} goes with a {' or a '.join(kinds)}{own}.", Exits.USAGE)
    diagrams = _drawn(kind, asked)
    if form == "svg":
        from tabforge.diagrams.svg import svg  # noqa: PLC0415

        data = svg(diagrams, asked.bare).encode()
    else:
        from tabforge.diagrams.plain import WIDTH, text  # noqa: PLC0415

        data = text(diagrams, asked.width or WIDTH).encode()
    if asked.into is None:
        pour(data)
        return Exits.FINE
    try:
        disk.write(asked.into, data)
    except OSError as error:
        fail(f"{shown(asked.into)} cannot be written: {reason(error)}.", Exits.FILES)
    return Exits.FINE


def _kind(what: tuple[str, ...]) -> str:
    first = what[0]
    if first == CHORD:
        return CHORD
    if first == STDIN or Path(first).suffix.lower() in SUFFIXES or "/" in first or Path(first).is_file():
        return "study"
    return "scale"


def _drawn(kind: str, asked: Asked) -> list[Diagram]:
    if kind == "study":
        from tabforge.cli.diagramming.blocks import of_block  # noqa: PLC0415

        return of_block(asked)
    if kind == CHORD:
        from tabforge.cli.diagramming.chords import of_chord  # noqa: PLC0415

        return of_chord(asked)
    from tabforge.cli.diagramming.scales import of_scale  # noqa: PLC0415

    return of_scale(asked)
