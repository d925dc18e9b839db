"""What the checks look at: a score's lines, and the words of the source that a finding is about.

One view is made for each look over a study; it remembers what it has said, since a cell that is repeated, or written again in another
key, is one mistake and not many.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import cached_property
from typing import Final, NamedTuple

from tabforge.check.listening import Stretch, stretches
from tabforge.check.places import Places
from tabforge.diagnostics.core import Code, Diagnostic, Label
from tabforge.fretboard.instruments import neck_of
from tabforge.fretboard.neck import Neck
from tabforge.model.events import Event, Note
from tabforge.model.score import Score, Section
from tabforge.model.techniques import Mark, Role
from tabforge.model.tuning import Tuning
from tabforge.source import Span
from tabforge.syntax.document import Study
from tabforge.syntax.origins import Origins, Pointer, written


class Line(NamedTuple):
    """One voice of a section as a player reads it: its events through all bars."""

    section: Section
    events: tuple[Event, ...]


class Marked(NamedTuple):
    """An event that carries marks, with its place in its line. ``number`` counts the marked events of the score."""

    number: int
    line: Line
    at: int
    event: Event

    @property
    def begins(self) -> bool:
        """Whether anything is struck here."""
        return not all(note.tied_in for note in self.event.notes)

    @property
    def next(self) -> Event | None:
        """The event after it in its voice."""
        events = self.line.events
        return events[self.at + 1] if self.at + 1 < len(events) else None


def has(note: Note, names: Collection[str]) -> bool:
    """Whether a note carries one of these techniques."""
    for mark in note.marks:  # noqa: SIM110  # a generator would cost more than what it looks for
        if mark.technique.name in names:
            return True
    return False


_DEAD: Final = ("dead note",)


def is_dead(note: Note) -> bool:
    """Whether a note is a muffled stroke: its fret then says nothing."""
    return has(note, _DEAD)


def begun(marks: Collection[Mark]) -> list[Mark]:
    """The marks that stand on a note or event itself, not those that reach it from the one before."""
    return [mark for mark in marks if mark.role is Role.SINGLE or mark.role is Role.START]


class View:
    """A score with the document it was compiled from and the places of both."""

    def __init__(self, score: Score, document: Study, origins: Origins) -> None:
        """Looks at nothing yet: everything is made when it is first asked for."""
        self.score = score
        self.document = document
        self.origins = origins
        self._told: set[tuple[str, Span]] = set()
        self._necks: dict[tuple[Tuning, int, tuple[float, ...]], Neck] = {}

    def neck(self, section: Section) -> Neck:
        """The neck a section is played on."""
        key = (section.tuning, section.capo, section.fretting)
        if key not in self._necks:
            self._necks[key] = neck_of(self.score.instrument, *key)
        return self._necks[key]

    @cached_property
    def heard(self) -> tuple[tuple[Section, Pointer, tuple[Stretch, ...]], ...]:
        """The sections that play, each with its block and what is heard in it; one that is written in several keys in the first alone."""
        blocks = {self.origins.span(("blocks", index)): ("blocks", index) for index in range(len(self.document.get("blocks", ())))}
        first: dict[Span, Section] = {}
        for section in self.score.sections:
            if section.bars:
                first.setdefault(section.span, section)
        return tuple(
            (section, blocks[span], stretches(section, self.score.divisions)) for span, section in first.items() if span in blocks
        )

    def kind_of(self, block: Pointer) -> str:
        """What kind of block this is: a word of the grammar."""
        return self.document.get("blocks", [])[int(block[1])]["kind"]

    def scale_of(self, block: Pointer) -> Pointer:
        """Where the scale of a block is said: there, or in the header."""
        return (*block, "scale") if "scale" in self.document.get("blocks", [])[int(block[1])] else ("scale",)

    @cached_property
    def places(self) -> Places:
        """Where cells are written."""
        return Places(self.document, self.origins)

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        """The voices of all sections, in order."""
        found = []
        for section in self.score.sections:
            for number in range(max((len(bar.voices) for bar in section.bars), default=0)):
                bars = (bar.voices[number] for bar in section.bars if number < len(bar.voices))
                found.append(Line(section, tuple([event for voice in bars for event in voice])))
        return tuple(found)

    @cached_property
    def _marked(self) -> tuple[dict[str, list[Marked]], list[Marked]]:
        """The marked events by the names of their techniques, and those with more than one mark on a note."""
        named: dict[str, list[Marked]] = {}
        crowded: list[Marked] = []
        number = 0
        for line in self.lines:
            for index, event in enumerate(line.events):
                marks, most = event.marks, 0
                for note in event.notes:
                    if note.marks:
                        most = max(most, len(note.marks))
                        marks += note.marks
                if not marks:
                    continue
                found = Marked(number, line, index, event)
                number += 1
                if len(event.marks) + most > 1:
                    crowded.append(found)
                for mark in marks:
                    under = named.setdefault(mark.technique.name, [])
                    if not under or under[-1] is not found:
                        under.append(found)
        return named, crowded

    def carrying(self, names: Collection[str]) -> list[Marked]:
        """The events that carry one of these techniques themselves or on a note, in order."""
        lists = [self._marked[0][name] for name in names if name in self._marked[0]]
        if len(lists) < 2:
            return lists[0] if lists else []
        found = {each.number: each for marked in lists for each in marked}
        return [found[number] for number in sorted(found)]

    @property
    def crowded(self) -> list[Marked]:
        """The events with more than one mark on a note, those of the whole event counted too."""
        return self._marked[1]

    @cached_property
    def chords(self) -> tuple[Event, ...]:
        """The events of more than one note."""
        return tuple([event for line in self.lines for event in line.events if len(event.notes) > 1])

    def tell(
        self,
        code: Code,
        headline: str,
        event: Event,
        row: str,
        wanted: Collection[str] = (),
        *,
        label: str = "",
        expected: str | None = None,
        suggestion: str | None = None,
        help: str | None = None,  # the diagnostic's own word
        others: tuple[Label, ...] = (),
    ) -> Iterator[Diagnostic]:
        """A finding about a cell of a row under an event, once for each cell. ``wanted``: techniques or texts that tell its part."""
        span, pointer = self.places.cell(event.span, row, wanted)
        if (code.id, span) not in self._told:
            self._told.add((code.id, span))
            yield Diagnostic(
                code=code,
                headline=headline,
                span=span,
                label=label,
                expected=expected,
                suggestion=suggestion,
                help=help,
                others=others,
                pointer=written(pointer) if pointer is not None else None,
            )
