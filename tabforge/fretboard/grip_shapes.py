"""Looking for grips in one part of the neck: every way to let strings sound, be open or be silent that has a chord's notes.

A grip has every note that makes the chord what it is and no note besides. What it suffers for what it lacks is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from tabforge.fretboard.chord_needs import TRIAD, Needs
from tabforge.fretboard.gripped import Frets
from tabforge.fretboard.neck import Neck

INVERTED: Final = 20
"""Another note than the root in the bass, where no bass was asked for."""

INVERTED_HIGH: Final = 1
"""The same where the lowest note is no bass: someone else plays that, or nobody misses it."""

DEEP: Final = 50
"""The pitch (D3) below which a lowest note is heard as the bass."""

UNPLAYED: Final = 3
"""Each string that is not played."""

INNER: Final = 4
"""Each of those that lies between strings that are."""

MOST_INNER: Final = 1
"""How many of those there may be: a finger that stops a string beside it keeps it silent."""

LACKING: Final = 2
"""Each note of the chord that is left out."""

MOST_TRIES: Final = 20000
"""Steps of looking in one part of the neck. Twelve strings alone come near it; then the best of what was found is taken."""


class Part(NamedTuple):
    """A part of the neck: no stopped fret of a grip is below ``base`` or above ``high``; ``opened``: open strings are used.

    ``strings``: exactly these sound; empty for any. ``exact``: the lowest stopped fret is ``base``, or, where that is 1, none is stopped.
    """

    base: int
    high: int
    opened: bool = True
    strings: tuple[int, ...] = ()
    exact: bool = False


def shapes_in(part: Part, needs: Needs, neck: Neck, most: int) -> list[tuple[int, Frets]]:
    """The grips of a chord in a part of the neck and what each suffers for what it lacks, at most ``most``, those that suffer least first.
    """
    found = [(_lack(frets, sounding, lowest, needs), frets) for frets, sounding, lowest in _within(part, needs, neck)]
    found.sort(key=lambda each: (each[0], order(each[1])))
    return found[:most]


def order(frets: Frets) -> tuple[int, ...]:
    """Ties are broken from the string of the highest number: low frets before high ones, strings that are not played last."""
    return tuple(999 if fret is None else fret for fret in reversed(frets))


def _within(part: Part, needs: Needs, neck: Neck) -> Iterator[tuple[Frets, int, int]]:
    """Frets, the pitch classes that sound and the lowest pitch, of each grip."""
    count = len(neck.tuning)
    base, asked = part.base, part.strings
    choices: list[list[tuple[int | None, int]]] = []  # from the last string to string 1
    for string in range(count, 0, -1):
        here: list[tuple[int | None, int]] = [
            (fret, neck.midi_at(string, fret))
            for fret in [*([0] if part.opened else []), *range(base, part.high + 1)]
            if (not asked or string in asked) and neck.has(string, fret) and needs.tones >> neck.midi_at(string, fret) % 12 & 1
        ]
        choices.append([*here, *([] if asked and string in asked else [(None, 0)])])
    ahead = [0] * (count + 1)  # what strings farther on can sound
    for place in range(count - 1, -1, -1):
        ahead[place] = ahead[place + 1]
        for fret, midi in choices[place]:
            if fret is not None:
                ahead[place] |= 1 << midi % 12
    needed, least, bass = needs.needed, min(TRIAD, needs.tones.bit_count()), needs.bass
    most_inner = count if asked else MOST_INNER
    frets: list[int | None] = [None] * count
    tries = 0

    def fit(place: int, sounding: int, played: int, gap: int, inner: int, lowest: int) -> Iterator[tuple[Frets, int, int]]:
        nonlocal tries
        if place == count:
            based = not part.exact or base in frets or (base == 1 and not any(frets))
            if based and played >= least and (bass is None or lowest % 12 == bass):
                yield tuple(frets), sounding, lowest
            return
        if needed & ~(sounding | ahead[place]) or played + count - place < least:
            return
        for fret, midi in choices[place]:
            tries += 1
            if tries > MOST_TRIES:
                return
            at = count - 1 - place
            frets[at] = fret
            if fret is None:
                yield from fit(place + 1, sounding, played, gap + 1 if played else 0, inner, lowest)
            elif inner + gap <= most_inner:
                yield from fit(place + 1, sounding | 1 << midi % 12, played + 1, 0, inner + gap, min(lowest, midi))
        frets[count - 1 - place] = None

    yield from fit(0, 0, 0, 0, 0, 999)


def _lack(frets: Frets, sounding: int, lowest: int, needs: Needs) -> int:
    """What a grip suffers from what it lacks."""
    played = [at for at, fret in enumerate(frets) if fret is not None]
    inner = played[-1] - played[0] + 1 - len(played)
    cost = UNPLAYED * (len(frets) - len(played)) + INNER * inner + LACKING * (needs.tones & ~sounding).bit_count()
    if needs.bass is None and lowest % 12 != needs.root:
        cost += INVERTED if lowest < DEEP else INVERTED_HIGH
    return cost
