"""What one run of the writer carries along: options, losses, the signs used so far, and texts worked out before."""

from __future__ import annotations

from tabforge.model.events import Event, Note
from tabforge.model.techniques import Amount, Mark, Role
from tabforge.model.values import NoteValue
from tabforge.source import NOWHERE, Span
from tabforge.writers.ascii import rhythm
from tabforge.writers.ascii.marks import STAFF_ONLY, Extent, Shape, joined, put_on
from tabforge.writers.ascii.plain import cut, spelled_in_ascii, tidy, width_of
from tabforge.writers.loss import Loss
from tabforge.writers.options import WriteOptions

NoteText = tuple[str, int, int, tuple[str, ...]]
"""Text on the string; characters left of the column; characters from the column on; signs above."""

EventText = tuple[tuple[str, ...], tuple[Extent, ...]]


class Context:
    """One run. The memos are keyed by identity: the score that is being written keeps its marks and written values alive."""

    def __init__(self, options: WriteOptions, divisions: int) -> None:
        self.options = options
        self.divisions = divisions
        self.losses: list[Loss] = []
        self.shifts: list[Span] = []
        """Where shift slides begin: only the legend tells them from legato slides, and only where there are none of those."""
        self.used: set[str] = set()
        """Features the legend must explain; a technique stands under its name."""
        self.values: set[NoteValue] = set()
        self.widest_label = options.width
        """Columns a label may take at most; a section narrows it by its margin and bar lines."""
        self.grips: frozenset[str] = frozenset()
        """Chord names that stand for more than one grip in this section."""
        self._notes: dict[tuple[int, ...], NoteText] = {}
        self._events: dict[tuple[int, ...], EventText] = {}
        self._labels: dict[tuple[int, int], tuple[str, int]] = {}
        self._rooms: dict[int, int] = {}

    def room(self, ticks: int) -> int:
        """Columns from the start of a note of so many ticks to the next."""
        found = self._rooms.get(ticks)
        if found is None:
            found = self._rooms[ticks] = rhythm.room(ticks / self.divisions)
        return found

    def words(self, text: str, what: str, span: Span = NOWHERE, symbol: bool = False) -> str:
        """Words on one line, in ASCII if that is asked for. ``what`` names them should letters be lost."""
        text = tidy(text)
        if not self.options.ascii_only or text.isascii():
            return text
        plain, changed = spelled_in_ascii(text, symbol)
        if changed:
            self.losses.append(Loss(span=span, what=f"{what} “{text}”", how=f"written in ASCII as “{plain}”"))
        return plain

    def label(self, text: str, what: str, span: Span, symbol: bool = False) -> tuple[str, int]:
        """Words over or under a column, cut if a whole line could not hold them, and their width."""
        text = self.words(text, what, span, symbol)
        width = width_of(text)
        if width > self.widest_label:
            text = cut(text, self.widest_label)
            self.losses.append(Loss(span=span, what=f"the end of a long {what}", how=f"cut to the width of the line: “{text}”"))
            width = width_of(text)
        return text, width

    def rhythm(self, event: Event) -> tuple[str, int]:
        """The label of an event in the rhythm line and its width."""
        notes = event.notes
        tied = bool(notes) and notes[0].tied_in and all(note.tied_in for note in notes)
        kind = 2 if not notes else 1 if tied else 0
        if event.grace:
            kind = 3 if event.grace == "before" else 4
        key = (id(event.written), kind)
        found = self._labels.get(key)
        if found is None:
            text = rhythm.label(event, tied)
            found = self._labels[key] = (text, len(text))
            self.used.add(("struck", "tie", "rest", "grace", "grace")[kind])
            if kind < 3:
                self.values.add(event.written.value)
                self.used.update(["dot"] if event.written.dots else [])
        return found

    def note(self, note: Note, slide: str) -> NoteText:
        """The text of a note that is tied or has marks."""
        marks = note.marks
        key = (note.fret, note.tied_in, slide == "\\", *map(id, marks))
        found = self._notes.get(key)
        if found is None:
            shape = put_on(Shape(note.fret, slide, note.tied_in), marks)
            text = shape.before + shape.core + shape.after + shape.lead
            # The last sign that leads on may touch the note it leads to: it takes the place of the dash between them.
            after = len(text) - len(shape.before) - bool(shape.lead)
            found = self._notes[key] = (text, len(shape.before), after, tuple(shape.above))
            self._use(marks, struck=not note.tied_in)
            if note.tied_in:
                self.used.add("held")
        return found

    def event(self, marks: tuple[Mark, ...]) -> EventText:
        """The signs and extents of an event's own marks."""
        key = tuple(map(id, marks))
        found = self._events.get(key)
        if found is None:
            shape = put_on(Shape(), marks)
            found = self._events[key] = (tuple(shape.above), tuple(shape.extents))
            self._use(marks)
        return found

    def _use(self, marks: tuple[Mark, ...], struck: bool = True) -> None:
        for mark in marks:
            technique = mark.technique
            if technique.name in STAFF_ONLY or (mark.role is Role.STOP and technique.leads):
                continue
            self.used.add(technique.name)
            if technique.amount is Amount.WHOLE_STEPS:
                self.used.add("bend amount")
                if struck and mark.role in (Role.INSIDE, Role.STOP):
                    self.used.add("bend kept")

    def above(self, event: Event, signs: list[str], strings: dict[str, list[int]]) -> tuple[str, int]:
        """The word in the row of signs: signs of the event, then those of single notes, with their strings unless all notes have them."""
        for sign, where in strings.items():
            if len(where) == len(event.notes):
                signs.append(sign)
            else:
                self.used.add("string number")
                signs.extend(f"{sign}@{string}" for string in where)
        return self.label(joined(signs), "row of signs", event.span)
