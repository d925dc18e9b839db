"""What stands over whole bars: rehearsal marks, the signs of the way, key, meter and tempo with its changes, repeat counts."""

from __future__ import annotations

from typing import Final

from tabforge.model.meter import TEMPO_CHANGES
from tabforge.model.score import SIGNS, Bar
from tabforge.source import Span
from tabforge.writers.ascii.context import Context
from tabforge.writers.ascii.headings import InForce, changes
from tabforge.writers.ascii.longrests import AT_START
from tabforge.writers.ascii.plain import cut, width_of
from tabforge.writers.ascii.rows import DIRECTIONS, WAY
from tabforge.writers.ascii.slots import Over
from tabforge.writers.loss import Loss

WORDS: Final = {sign: f"({word})" if sign in AT_START else word for sign, word in SIGNS.items()}
"""The segno and the coda are drawn in print; here their names stand in brackets."""


def over(bars: tuple[Bar, ...], count: str, known: InForce, widest: int, context: Context) -> dict[int, Over]:
    """The words over one bar, or over bars that are written as one. ``count`` is how often a repeat is played in all."""
    first, last = bars[0], bars[-1]
    found = {}
    if first.rehearsal or first.signs or last.signs:
        starts = [f"[{context.words(first.rehearsal, 'the rehearsal mark', first.span)}]"] if first.rehearsal else []
        starts += [WORDS[sign] for sign in first.signs if sign in AT_START]
        ends = " ".join(WORDS[sign] for sign in last.signs if sign not in AT_START)
        context.used.update(["rehearsal"] if first.rehearsal else [])
        context.used.update(f"sign {sign}" for sign in (*first.signs, *last.signs))
        found[WAY] = _fitted(" ".join(starts), ends, "rehearsal mark or sign", widest, last.span, context)
    meter, tempo = changes(first, known, context)
    change = ""
    if first.tempo_change:
        change = TEMPO_CHANGES[first.tempo_change]
        context.used.add(f"tempo {first.tempo_change}")
        known.tempo = None
    scale = first.scale
    key = context.words(f"{scale.root.pitch_class} {scale.name}", "the scale", first.span) if scale is not None else ""
    start = " ".join(filter(None, (key, meter, tempo, change)))
    if start or count:
        found[DIRECTIONS] = _fitted(start, count, "key or tempo" if key else "tempo", widest, first.span, context)
    return found


def _fitted(start: str, end: str, what: str, widest: int, span: Span, context: Context) -> Over:
    """Both texts, the longer one cut if a line could not hold them."""
    fits = Over(start, end)
    if width_of(start) + width_of(end) + 1 > widest:
        room = widest - 1
        if len(end) > room // 2:
            end = cut(end, max(room - width_of(start), room // 2))
        fits = Over(cut(start, room - len(end)), end)
        how = f"cut to the width of the line: “{' '.join(filter(None, (fits.start, fits.end)))}”"
        context.losses.append(Loss(span=span, what=f"the end of a long {what}", how=how))
    return fits
