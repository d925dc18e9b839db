"""Looking for grips in one part of the neck: every way to let strings sound, be open or be silent that has a chord's notes.

A grip has every note that makes the chord what it is and no note besides. What it suffers for what it lacks is common practice, no source.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from tabforge.fretboard.chord_needs import TRIAD, Needs
from tabforge.fretboard.gripped import Frets
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import FINGERS

INVERTED: Final = 20
"""Another note than the root in the bass, where no bass was asked for."""

INVERTED_HIGH: Final = 1
"""The same where the lowest note is no bass: someone else plays that, or nobody misses it."""

DEEP: Final = 50
"""The pitch (D3) below which a lowest note is heard as the bass."""

UNPLAYED: Final = 20
"""Strings that are not played: this by their share of the neck's, but each at least ..."""

UNPLAYED_LEAST: Final = 3
"""... that much."""

INNER: Final = 4
"""Each of those that lies between strings that are."""

MOST_INNER: Final = 1
"""How many of those there may be: a finger that stops a string beside it keeps it silent."""

LACKING: Final = 2
"""Each note of the chord that is left out."""

MOST_TRIES: Final = 6000
"""Steps of looking in one part of the neck. Chords of six or seven notes come to it, and necks of twelve strings; then the best is taken of
what was found, low frets on the low strings first.
"""


class Part(NamedTuple):
    """A part of the neck: the lowest stopped fret of a grip is ``base``, and none is above ``high``; ``opened``: open strings are used.
    Where ``base`` is 1, grips that stop no string belong to it too.

    ``strings``: exactly these sound; empty for any. ``fingers``: those of the hand. ``inner``: how many strings between those that sound
    may be left out, where none are asked for.
    """

    base: int
    high: int
    opened: bool = True
    strings: tuple[int, ...] = ()
    fingers: int = FINGERS
    inner: int = MOST_INNER


def shapes_in(part: Part, needs: Needs, neck: Neck, worst: int = 999) -> list[tuple[int, Frets]]:
    """The grips of a chord in a part of the neck and what each suffers for what it lacks, no more than ``worst``, the least first."""
    found = _Looking(part, needs, neck, worst).found
    found.sort(key=lambda each: (each[0], order(each[1])))
    return found


def order(frets: Frets) -> tuple[int, ...]:
    """Ties are broken from the string of the highest number: low frets before high ones, strings that are not played last."""
    return tuple([999 if fret is None else fret for fret in frets[::-1]])


class _Looking:
    """A search from the last string to string 1 that goes no way on which needed notes are out of reach or too much is lacking."""

    def __init__(self, part: Part, needs: Needs, neck: Neck, worst: int) -> None:
        self.found: list[tuple[int, Frets]] = []
        self._part, self._needs, self._worst = part, needs, worst
        count = self._count = len(neck.tuning)
        self._choices = [_choices(string, part, needs, neck) for string in range(count, 0, -1)]
        self._ahead = [0] * (count + 1)  # what strings farther on can sound
        self._based = [False] * (count + 1)  # whether one of them has the lowest fret
        for place in range(count - 1, -1, -1):
            sounds = {bit for _, _, bit in self._choices[place]}
            self._ahead[place] = self._ahead[place + 1] | sum(sounds)
            self._based[place] = self._based[place + 1] or any(fret == part.base for fret, _, _ in self._choices[place])
        self._silent = [not part.strings or string not in part.strings for string in range(count, 0, -1)]
        self._unplayed = max(UNPLAYED_LEAST, UNPLAYED // count)
        self._least = min(TRIAD, needs.tones.bit_count())
        self._most_inner = count if part.strings else part.inner
        self._most_above = part.fingers - 1
        self._frets: list[int | None] = [None] * count
        self._tries = 0
        self._fit(0, 0, 0, 0, 0, 999, 0, 0, part.base == 1)

    def _fit(
        self, place: int, sounding: int, played: int, gap: int, lack: int, lowest: int, above: int, before: int, based: bool
    ) -> None:
        """``gap``: strings not played since the last that is. ``lack`` has what is known of unplayed strings. ``above``: fingers that the
        grip takes above its lowest fret, if each stops neighbouring strings; ``before``: the fret on the string before; ``based``: whether
        it may do without its lowest fret from here on.
        """
        count = self._count
        if place == count:
            if played >= self._least:
                self._finished(sounding, lack, lowest)
            return
        if played + count - place < self._least or self._tries > MOST_TRIES or not (based or self._based[place]):
            return
        base, at = self._part.base, count - 1 - place
        missing = self._needs.needed & ~(sounding | self._ahead[place + 1])  # this string has to sound it
        inner = lack + INNER * gap
        if gap <= self._most_inner and inner <= self._worst:
            for fret, midi, bit in self._choices[place]:
                fingers = above + (fret > base and (fret != before or gap > 0))
                if fingers > self._most_above or missing & ~bit:
                    continue
                self._tries += 1
                self._frets[at] = fret
                low = midi if midi < lowest else lowest
                self._fit(place + 1, sounding | bit, played + 1, 0, inner, low, fingers, fret, based or fret == base)
        if not missing and self._silent[place] and lack + self._unplayed <= self._worst:
            self._frets[at] = None
            self._fit(place + 1, sounding, played, gap + 1 if played else 0, lack + self._unplayed, lowest, above, 0, based)

    def _finished(self, sounding: int, lack: int, lowest: int) -> None:
        needs, base, frets = self._needs, self._part.base, self._frets
        if needs.bass is not None and lowest % 12 != needs.bass:
            return
        lack += LACKING * (needs.tones & ~sounding).bit_count()
        if needs.bass is None and lowest % 12 != needs.root:
            lack += INVERTED if lowest < DEEP else INVERTED_HIGH
        if lack <= self._worst and (base in frets or (base == 1 and not any(frets))):
            self.found.append((lack, tuple(frets)))


def _choices(string: int, part: Part, needs: Needs, neck: Neck) -> list[tuple[int, int, int]]:
    """The frets of a chord's notes on a string, what sounds there, and its pitch class as a bit. A fret between two notes is none."""
    if part.strings and string not in part.strings:
        return []
    frets = [*([0] if part.opened else []), *range(part.base, part.high + 1)]
    at = neck.note_at if neck.tempered else neck.midi_at
    sounding = [(fret, midi) for fret in frets if neck.has(string, fret) for midi in [at(string, fret)] if midi is not None]
    return [(fret, midi, 1 << midi % 12) for fret, midi in sounding if needs.tones >> midi % 12 & 1]
