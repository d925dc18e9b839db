"""Bars held against their meter: what is too long, too short, or rightly incomplete."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tabforge.compile.barlines import Boundary
from tabforge.compile.metric import spoken
from tabforge.compile.report import Report
from tabforge.compile.rows import VoiceBar
from tabforge.diagnostics.catalogue import music
from tabforge.model.meter import Meter


@dataclass(frozen=True, slots=True)
class BarLength:
    """A bar's real length and where its first column stands in the meter, in quarter notes."""

    quarters: Fraction
    offset: Fraction
    partial: bool


def bar_lengths(
    voices: Sequence[Sequence[VoiceBar]], meters: Sequence[Meter], boundaries: dict[int, Boundary], pickup: Fraction, report: Report
) -> list[BarLength]:
    """The length of every bar; a bar that does not add up is reported with how much is missing or too much."""
    count = len(meters)
    whole = [meter.quarters for meter in meters]
    main = voices[0]
    lengths: list[BarLength] = []
    carried = Fraction(0)
    for index in range(count):
        full, have = whole[index], main[index].rhythm.quarters
        repeat_after = index + 1 in boundaries and (boundaries[index + 1].backward or boundaries[index + 1].forward)
        complete = have == full
        if carried:
            # The second part of a bar that a repeat sign cuts begins where the first part ended.
            length = BarLength(have, carried, True)
            carried = Fraction(0)
        elif index == 0 and pickup:
            length = BarLength(pickup, full - pickup, True)
        elif complete or main[index].poisoned:
            length = BarLength(full, Fraction(0), False)
        elif pickup and have == full - pickup and (repeat_after or index == count - 1):
            length = BarLength(have, Fraction(0), True)
        elif repeat_after and 0 < have < full and index + 1 < count and have + main[index + 1].rhythm.quarters == whole[index + 1]:
            length = BarLength(have, Fraction(0), True)
            carried = have
        else:
            length = BarLength(full, Fraction(0), False)
        lengths.append(length)
        for number, bars in enumerate(voices):
            if index < len(bars):
                _check(bars[index], length.quarters, meters[index], index, number, len(voices), pickup, report)
    return lengths


def _check(
    bar: VoiceBar, wanted: Fraction, meter: Meter, index: int, voice: int, voices: int, pickup: Fraction, report: Report
) -> None:
    have = bar.rhythm.quarters
    if have == wanted or bar.poisoned:
        return
    bar.poisoned = True
    name = f"bar {index + 1}" + (f" of voice {voice + 1}" if voices > 1 else "")
    what = f"the pickup of {spoken(pickup)}" if pickup and index == 0 else f"{meter}"
    long = have > wanted
    report.add(
        music.BAR_TOO_LONG if long else music.BAR_TOO_SHORT,
        f"{name} is {spoken(have - wanted)} too {'long' if long else 'short'} for {what}",
        bar.rhythm_at,
        label=f"adds up to {spoken(have)}" if have else "is empty",
        expected=spoken(wanted),
        help=None if long or index or pickup else "a first bar that is meant to be incomplete is declared with: pickup",
    )
