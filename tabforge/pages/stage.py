"""The events of a section where they stand on paper: what the families of marks are drawn from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final, NamedTuple

from tabforge.model.events import Event
from tabforge.model.techniques import Role
from tabforge.pages.board import Board
from tabforge.pages.fonts import Fonts
from tabforge.pages.places import Placed, staff_id, tab_id

NUMERAL: Final = 305.0
"""Size of a TAB number: its figures are about as high as the distance of two strings."""

SMALL: Final = 0.72
"""A grace note's size against an ordinary one."""

_HARMONICS: Final = frozenset({"natural harmonic", "artificial harmonic", "pinch harmonic", "tapped harmonic"})
ARROW: Final = 150.0
"""Room for an arrow left of a chord's numbers."""

_ACROSS: Final = frozenset({"arpeggio upward", "arpeggio downward", "brush upward", "brush downward"})
_NONE: Final = frozenset[str]()
_BEGINS: Final = frozenset({Role.START, Role.SINGLE})


class Head(NamedTuple):
    """A note on its string. ``text`` is what is shown, empty for one that only goes on; ``half`` half its width with what is around it.

    ``around`` is "", "()" or "<>"; ``cross``: a dead note, whose number is not shown.
    """

    note: int
    string: int
    y: float
    text: str
    half: float
    size: float
    around: str
    cross: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """An event on paper: its system, its middle, and the bar it is in (from ``bar_left`` to ``bar_right``)."""

    placed: Placed
    system: int
    x: float
    heads: tuple[Head, ...]
    bar_left: float
    bar_right: float

    @property
    def event(self) -> Event:
        """The event itself."""
        return self.placed.event

    @property
    def half(self) -> float:
        """Half the width of its widest number; of a rest or a note that goes on, a little."""
        return max((head.half for head in self.heads), default=70.0)

    @property
    def left(self) -> float:
        """Where it begins: with its widest number, or with the arrow beside it."""
        return self.x - self.half - (ARROW if self.struck_across else 0.0)

    @property
    def struck_across(self) -> bool:
        """Whether an arrow stands beside it."""
        return any(mark.technique.name in _ACROSS for mark in self.placed.event.marks)

    def head(self, note: int) -> Head:
        """The head of one of its notes."""
        return self.heads[note]

    def on(self, string: int | None) -> Head | None:
        """Its note on a string."""
        return next((head for head in self.heads if head.string == string), None)


@dataclass(slots=True)
class Stage:
    """All spots of a section, voice by voice, and a board for each system."""

    fonts: Fonts
    boards: list[Board]
    voices: list[list[Spot]] = field(default_factory=list)
    _after: dict[int, Spot] = field(default_factory=dict)
    _before: dict[int, Spot] = field(default_factory=dict)

    def settle(self) -> None:
        """Remember what stands around each spot in its voice."""
        for voice in self.voices:
            for spot, after in pairwise(voice):
                self._after[spot.placed.number] = after
                self._before[after.placed.number] = spot

    def after(self, spot: Spot) -> Spot | None:
        """The next event of the voice."""
        return self._after.get(spot.placed.number)

    def before(self, spot: Spot) -> Spot | None:
        """The event before it in the voice."""
        return self._before.get(spot.placed.number)

    def end(self, spot: Spot) -> float:
        """Where a spot ends on paper: short of the next event of its voice, or of the bar line."""
        after = self.after(spot)
        if after is None or after.system != spot.system or after.placed.bar != spot.placed.bar:
            return max(spot.bar_right - 60, spot.x + spot.half)
        return max(after.left - 50, spot.x + spot.half)

    def last_of(self, spot: Spot, string: int | None) -> Spot:
        """The spot in which a sound ends that begins in this one: through ties. ``string`` None takes any of the event's notes."""
        while True:
            event, after = spot.event, self.after(spot)
            tied = any(note.tied_out and (string is None or note.string == string) for note in event.notes)
            if not tied or after is None:
                return spot
            spot = after

    def stretches(self, first: Spot, last: Spot) -> Iterator[tuple[Board, float, float, bool, bool]]:
        """The pieces of what reaches from one spot to the end of another, one for each system: its board, its ends, and whether it
        begins and ends there.
        """
        for number in range(first.system, last.system + 1):
            board = self.boards[number]
            begins, ends = number == first.system, number == last.system
            left = first.left if begins else board.left
            yield board, left, self.end(last) if ends else board.right, begins, ends


def spots(
    stage: Stage, events: Sequence[Placed], where: Mapping[str, float], bars: Sequence[tuple[int, float, float]], strings: list[list[float]]
) -> None:
    """Fill a stage. ``where`` has the middles by id; ``bars`` for each bar its system and ends; ``strings`` the heights by system."""
    voices: dict[int, list[Spot]] = {}
    for placed in events:
        system, left, right = bars[placed.bar]
        event = placed.event
        fresh = placed.voice not in voices or voices[placed.voice][-1].system != system
        names = [tab_id(placed.number, 0), staff_id(placed.number, 0)]
        x = next((where[name] for name in names if name in where), (left + right) / 2)
        heads = tuple(_head(stage.fonts, event, note, strings[system], fresh) for note in range(len(event.notes)))
        spot = Spot(placed=placed, system=system, x=x, heads=heads, bar_left=left, bar_right=right)
        voices.setdefault(placed.voice, []).append(spot)
    stage.voices = [voices[voice] for voice in sorted(voices)]
    stage.settle()


def _head(fonts: Fonts, event: Event, index: int, strings: list[float], fresh: bool) -> Head:
    note = event.notes[index]
    marks = note.marks
    names = {mark.technique.name for mark in marks} if marks else _NONE
    struck = bool(marks) and any(mark.role in _BEGINS and not mark.technique.stays for mark in marks)
    size = NUMERAL * (SMALL if event.grace else 1)
    hidden = note.tied_in and not (fresh or struck)
    text = "" if hidden else str(note.fret)
    around = "()" if "ghost note" in names or note.tied_in else "<>" if names & _HARMONICS else ""
    cross = "dead note" in names
    half = fonts.width(text) * size / 2 if not cross else 0.26 * size
    half += (0.32 * size if around else 0) if text else 0
    return Head(index, note.string, strings[note.string - 1], text, max(half, 20), size, around if text else "", cross and bool(text))
