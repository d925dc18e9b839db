"""The rows of the picking and the fretting hand."""

from __future__ import annotations

from tabforge.model.events import Event
from tabforge.writers.ascii.context import Context
from tabforge.writers.ascii.rows import FRETTING_HAND, PICKING_HAND
from tabforge.writers.ascii.slots import Slot

NONE_GIVEN = "."


class Hands:
    """What the hands do in one bar, slot by slot; both voices share the two rows, for the hands are shared too."""

    __slots__ = ("_notes", "_strokes")

    def __init__(self) -> None:
        self._notes: dict[int, list[tuple[int, str | None, str | None]]] = {}
        self._strokes: dict[int, list[str]] = {}

    def add(self, at: int, event: Event) -> None:
        """The fingers of an event in the slot at index ``at``. Notes that only sound on are not counted unless they name a finger."""
        told = [(note.string, note.finger, note.pluck) for note in event.notes if note.finger or note.pluck or not note.tied_in]
        self._notes.setdefault(at, []).extend(told)

    def stroke(self, at: int, stroke: str) -> None:
        """A pick stroke; the same one in both voices is one."""
        strokes = self._strokes.setdefault(at, [])
        if stroke not in strokes:
            strokes.append(stroke)

    def write(self, slots: list[Slot], context: Context) -> None:
        """Label the slots. Fingers of a chord are written from the lowest string (the highest number) to the highest, as chords are
        spoken; ``.`` is a note without one."""
        for at in self._strokes.keys() | self._notes.keys():
            notes = sorted(self._notes.get(at, ()), key=lambda note: -note[0])
            strokes = "".join(self._strokes.get(at, ()))
            plucks = _word([pluck for _, _, pluck in notes])
            fingers = _word([finger for _, finger, _ in notes])
            if strokes or plucks:
                slots[at].labels.append((PICKING_HAND, strokes + plucks, len(strokes + plucks)))
                context.used.update(f"pick {letter}" for letter in strokes + plucks if letter != NONE_GIVEN)
            if fingers:
                slots[at].labels.append((FRETTING_HAND, fingers, len(fingers)))
                context.used.update(["fingers"] if "T" not in fingers else ["fingers", "thumb"])
            if max(len(plucks), len(fingers)) > 1:
                context.used.add("hand of a chord")


def _word(letters: list[str | None]) -> str:
    return "".join(letter or NONE_GIVEN for letter in letters) if any(letters) else ""
