"""One voice as it is played: written events become sounds, tied ones joined, grace notes in their time."""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.model.events import NOTHING_ATTACHED, Event, Note
from tabforge.model.score import Section
from tabforge.performance.loudness import Loudness
from tabforge.performance.making import Making, Piece
from tabforge.performance.practice import GRACE_LARGEST, GRACE_SHARE, RAKE_MS, RAKE_SHARE, RAKE_STRINGS
from tabforge.performance.spread import spread


class Voice:
    """Plays the bars of one voice in order; ``sounds`` are what has come of them."""

    def __init__(self, part: str, divisions: int, loudness: Loudness) -> None:
        self.sounds: list[Making] = []
        self._part = part
        self._divisions = divisions
        self._loudness = loudness
        self._open: dict[int, Making] = {}
        self._last: list[Making] = []
        self._last_start: int | None = None
        self._graces: list[Event] = []

    def rest(self) -> None:
        """No tie goes on from here: the next bar belongs to another section, or has no such voice."""
        self._open = {}
        self._graces = []

    def bar(self, events: Sequence[Event], times: Sequence[tuple[int, int]], at: int, millisecond: float, section: Section) -> None:
        """A bar that begins at tick ``at``; ``times`` say when each event begins and ends in it; a millisecond takes so many ticks."""
        for event, (begins, ends) in zip(events, times, strict=True):
            if event.grace is not None:
                self._graces.append(event)
                continue
            if event.notes or self._graces:
                self._event(event, at + begins, at + ends, millisecond, section)
            else:
                self._open = {}
                self._last = []
            self._last_start = at + begins

    def _event(self, event: Event, start: int, end: int, millisecond: float, section: Section) -> None:
        if self._graces:
            start = self._grace_notes(start, end, millisecond, section)
        struck = self._strike(event, start, end, start, millisecond, section)
        if len(struck) > 1 and (event.marks or event.attached is not NOTHING_ATTACHED):
            spread(event, struck)
        if event.marks and struck and any(mark.technique.name == "rake" for mark in event.marks):
            self._rake(event, struck, section)

    def _strike(self, event: Event, start: int, end: int, loud_at: int, millisecond: float, section: Section) -> list[Making]:
        """The sounds of an event; those that go on from the one before are made longer. Returns those that are struck."""
        still_open: dict[int, Making] = {}
        struck: list[Making] = []
        level = -1.0
        self._last = []
        for note in event.notes:
            sound = self._open.get(note.string) if note.tied_in else None
            if sound is None or sound.midi != note.pitch.midi:
                if level < 0:
                    level = self._loudness.at(loud_at)
                attack = "finger" if note.pluck is not None else "pick"
                place = (note.pitch, note.string, note.fret)
                sound = Making(self._part, start, end, *place, level, attack, millisecond, section, event.span)
                self.sounds.append(sound)
                struck.append(sound)
            else:
                sound.end = end
            if event.marks or note.marks:
                self._mark(sound, event, note, start, end)
            if note.tied_out:
                still_open[note.string] = sound
            self._last.append(sound)
        self._open = still_open
        return struck

    def _mark(self, sound: Making, event: Event, note: Note, start: int, end: int) -> None:
        flags = event.written.value.flags
        sound.marks += [Piece(mark, start, end, flags) for mark in (*note.marks, *event.marks)]

    def _grace_notes(self, start: int, end: int, millisecond: float, section: Section) -> int:
        """Play the grace notes that wait for an event; returns when the event itself begins.

        Those before the beat take their time from what sounds before it, unless nothing can: then they are on it, as the others are.
        """
        waiting, self._graces = self._graces, []
        going_on = self._open
        room = end - start
        before = [event for event in waiting if event.grace == "before"]
        room_before = start - self._last_start if self._last_start is not None else room
        room_before = min((sound.end - sound.start for sound in self._last if sound.end >= start), default=room_before)
        each = self._share(room_before, len(before))
        if start - each * len(before) < 0:
            before = []
        on = [event for event in waiting if event not in before] if before else waiting
        for sound in self._last if before else ():
            sound.end = max(sound.start + 1, min(sound.end, start - each * len(before)))
        for place, event in enumerate(before):
            begins = start - each * (len(before) - place)
            self._strike(event, begins, begins + each, start, millisecond, section)
        each = self._share(room, len(on))
        for place, event in enumerate(on):
            self._strike(event, start + each * place, start + each * (place + 1), start, millisecond, section)
        self._open = {**going_on, **self._open}
        return start + each * len(on)

    def _share(self, room: int, count: int) -> int:
        return max(1, min(int(room * GRACE_SHARE) // count, self._divisions // GRACE_LARGEST)) if count else 0

    def _rake(self, event: Event, struck: Sequence[Making], section: Section) -> None:
        """Damped strings below the lowest that is struck, each a little before the next."""
        lowest = max(struck, key=lambda sound: sound.string)
        strings = range(min(len(section.tuning), lowest.string + RAKE_STRINGS), lowest.string, -1)
        gap = max(1, int(RAKE_MS * lowest.millisecond))
        for number, string in enumerate(strings):
            start = lowest.start - gap * (len(strings) - number)
            if start >= 0:
                place = (section.tuning.open(string), string, 0)
                level = lowest.level * RAKE_SHARE
                sound = Making(self._part, start, start + gap, *place, level, "pick", lowest.millisecond, section, event.span)
                sound.kind = "dead"
                self.sounds.append(sound)
