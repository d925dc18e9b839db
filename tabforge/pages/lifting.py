"""What the engraver has put onto something else, moved until it is clear: words over the staff upward, dynamics downward."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from tabforge.pages.cleaning import Scribe
from tabforge.pages.engraver import SPACE
from tabforge.pages.shapes import Box, around

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_UNDER: Final = 0.225 * SPACE
"""Room over a dynamic that is moved."""

WORDS: Final = frozenset({"dir", "repeatMark", "tempo"})
"""Classes of words that may stand over the staff."""

_HAIR: Final = 6.0
"""What two boxes may share in height before their ink does."""

_BEFORE: Final = 35.0
_AFTER: Final = 260.0
"""Room before and after words that are not lifted: a figure right after a metronome's would be read with it."""

_BETWEEN: Final = 0.2 * SPACE
"""Room below words that are lifted."""


def write_clear(scribe: Scribe, element: Element, loud: list[Box]) -> None:
    """Write an element; a dynamic of the lower voice, which the engraver puts onto that of the upper one, below it."""
    begun = len(scribe.out), len(scribe.boxes)
    scribe.write(element)
    if element.get("class") != "dynam" or len(scribe.boxes) == begun[1]:
        return
    box = around(scribe.boxes[begun[1] :])
    under = [each.bottom for each in loud if each.meets(box)]
    if under:
        lower = max(under) - box.top + _UNDER
        del scribe.out[begun[0] :], scribe.boxes[begun[1] :]
        moved = scribe.mapped(lambda y: y + lower)
        moved.write(element)
        scribe.take(moved)
        box = Box(box.left, box.top + lower, box.right, box.bottom + lower)
    loud.append(box)


def words_over(scribe: Scribe, elements: Sequence[Element], more: Sequence[Box], top: float) -> None:
    """Words over the staff, the lowest first; those that the engraver has put onto something, above it.

    It does so where the words are set in a type that is wider than the one it measures, or are bold.
    """
    drawn = []
    for order, element in enumerate(elements):
        alone = scribe.mapped(None)
        alone.write(element)
        if alone.boxes:
            drawn.append((-around(alone.boxes).bottom, order, element, alone))
    for _, _, element, alone in sorted(drawn, key=lambda each: each[:2]):
        lift, boxes = 0.0, alone.boxes
        cover = around(boxes)
        if cover.top + cover.bottom < 2 * top:
            lift = _lift(boxes, [each for each in (*scribe.boxes, *more) if each.bottom > each.top])  # staff lines are no hindrance
        if lift:
            raised = scribe.mapped(lambda y, lift=lift: y - lift)  # type: ignore[misc]  # bound now, not when it is called
            raised.write(element)
            scribe.take(raised)
        else:
            scribe.take(alone)


def _lift(boxes: Sequence[Box], others: Sequence[Box]) -> float:
    """How far boxes must go up to be clear of others."""
    lift = 0.0
    while True:
        up = [(box, Box(box.left - _BEFORE, box.top - lift + _HAIR, box.right + _AFTER, box.bottom - lift - _HAIR)) for box in boxes]
        below = [box.bottom - each.top for box, own in up for each in others if own.meets(each)]
        if not below:
            return lift
        lift = max(below) + _BETWEEN
