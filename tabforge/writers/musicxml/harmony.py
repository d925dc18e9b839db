"""Chord symbols as ``harmony`` elements."""

from __future__ import annotations

from functools import cache

from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import PitchClass
from tabforge.writers.musicxml.grips import frame
from tabforge.writers.musicxml.text import escape


@cache
def harmony(symbol: ChordSymbol, staff: str) -> str:
    """A chord symbol, with its diagram if it has a grip. ``staff`` is the staff element or nothing.

    The kind's ``text`` is the suffix as it was written, so the degrees that explain it are not printed again.
    """
    if symbol.root is None:
        # The standard's way to write N.C.: a root that is not shown, and the kind "none".
        root = '<root><root-step text="">C</root-step></root>'
        kind = f'<kind text="{escape(symbol.text)}">none</kind>'
    else:
        root = _part("root", symbol.root)
        kind = f'<kind text="{escape(symbol.suffix)}">{symbol.kind}</kind>'
    bass = _part("bass", symbol.bass) if symbol.bass is not None else ""
    degrees = "".join(
        f'<degree print-object="no"><degree-value>{degree.value}</degree-value><degree-alter>{degree.alter}</degree-alter>'
        f"<degree-type>{degree.type}</degree-type></degree>"
        for degree in symbol.degrees
    )
    diagram = frame(symbol.shape) if symbol.shape is not None else ""
    return f"<harmony>{root}{kind}{bass}{degrees}{diagram}{staff}</harmony>\n"


def _part(name: str, pitch: PitchClass) -> str:
    alter = f"<{name}-alter>{pitch.alter}</{name}-alter>" if pitch.alter else ""
    return f"<{name}><{name}-step>{pitch.step}</{name}-step>{alter}</{name}>"
