"""One system put together: what the engraver drew, TAB moved to where it has room, numbers and marks, cut to what is there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Final, NamedTuple

from tabforge.pages.cleaning import Scribe
from tabforge.pages.engraver import SPACE
from tabforge.pages.overhead import Overhead
from tabforge.pages.reading import System
from tabforge.pages.shapes import Box, Shape, around
from tabforge.pages.stage import Spot, Stage
from tabforge.pages.tabstaff import numeral, strings

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_GAP: Final = 0.45 * SPACE
"""Room between what hangs below the staff and what stands over TAB."""

_LEAST: Final = 3.4 * SPACE
"""Distance of the staff and TAB where nothing is between them."""

_EDGE: Final = 0.35 * SPACE
"""Paper left around a system."""


_WORDS: Final = frozenset({"dir", "repeatMark", "tempo"})
"""Classes of words that may stand over the staff."""

_HAIR: Final = 6.0
"""What two boxes may share in height before their ink does."""

_ASIDE: Final = 35.0
"""Room beside words that are not lifted."""

_BETWEEN: Final = 0.2 * SPACE
"""Room below words that are lifted."""


class Composed(NamedTuple):
    """A system's elements, the signs they use, and what they cover; ``marks`` with their places, TAB's move included."""

    svg: str
    glyphs: frozenset[str]
    box: Box
    marks: tuple[tuple[str, Box], ...]
    staff: tuple[Box, ...]


def compose(stage: Stage, number: int, system: System, spots: Sequence[Spot], notes: Mapping[str, str], overhead: Overhead) -> Composed:
    """One system. ``notes`` has the attributes by which notes are found again, by id."""
    fonts = stage.fonts
    board = stage.boards[number]
    upper = Scribe(fonts, notes)
    spanning = [each for each in system.others if each.get("class") in {None, "grpSym"}]
    for element in system.others:  # endings of repeats
        if element not in spanning and element.get("class") != "label" and not overhead.takes(element):
            upper.write(element)
    loud: list[Box] = []
    over: list[Element] = []
    for measure in system.measures:
        upper.write(measure.staff)
        for element in measure.others:
            if element.get("class") == "barLine":
                spanning.append(element)
            elif not overhead.takes(element):
                if element.get("class", "").partition(" ")[0] in _WORDS:
                    over.append(element)
                else:
                    _clear(upper, element, loud)
    above = overhead.write(fonts, notes, number)
    _words_over(upper, over, above.boxes, system.staff[0])
    drawn = board.settled()
    move = _move(system, upper.boxes, [shape.box for _, shape in drawn])
    between = (system.staff[-1] + system.strings[0]) / 2
    across = Scribe(fonts, notes, lambda y: y + move if y > between else y)
    for element in spanning:
        if element.get("class") == "grpSym":
            _brace(across, element, system, move)
        else:
            across.write(element)
    lower = Scribe(fonts, notes)
    for measure in system.measures:
        _rest_of_tab(lower, measure.tab)
    tab = [shape.svg for shape in strings(spots, system.strings, system.measures[0].left, system.measures[-1].right)]
    numbers = [shape for spot in spots for shape in _numbers(stage, spot, notes)]
    tab += [shape.svg for shape in numbers]
    tab += [f'<g class="mark {name.replace(" ", "-")}">{shape.svg}</g>' for name, shape in drawn]
    marks = tuple((name, _moved(shape.box, move)) for name, shape in drawn)
    svg = "".join([*across.out, *upper.out, *above.out, f'<g transform="translate(0 {move:.0f})">', *lower.out, *tab, "</g>"])
    boxes = [*across.boxes, *upper.boxes, *above.boxes, *(_moved(each, move) for each in lower.boxes), *(box for _, box in marks)]
    boxes += [_moved(shape.box, move) for shape in numbers]
    whole = around(boxes)
    box = Box(whole.left - _EDGE, whole.top - _EDGE, whole.right + _EDGE, whole.bottom + _EDGE)
    glyphs = frozenset(across.glyphs | upper.glyphs | above.glyphs | lower.glyphs)
    return Composed(svg, glyphs, box, marks, (*upper.boxes, *above.boxes))


def _clear(scribe: Scribe, element: Element, loud: list[Box]) -> None:
    """Write an element; a dynamic of the lower voice, which the engraver puts onto that of the upper one, below it."""
    begun = len(scribe.out), len(scribe.boxes)
    scribe.write(element)
    if element.get("class") != "dynam" or len(scribe.boxes) == begun[1]:
        return
    box = around(scribe.boxes[begun[1] :])
    under = [each.bottom for each in loud if each.meets(box)]
    if under:
        lower = max(under) - box.top + _GAP / 2
        del scribe.out[begun[0] :], scribe.boxes[begun[1] :]
        moved = scribe.mapped(lambda y: y + lower)
        moved.write(element)
        scribe.take(moved)
        box = _moved(box, lower)
    loud.append(box)


def _words_over(scribe: Scribe, elements: Sequence[Element], more: Sequence[Box], top: float) -> None:
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
        up = [(box, Box(box.left - _ASIDE, box.top - lift + _HAIR, box.right + _ASIDE, box.bottom - lift - _HAIR)) for box in boxes]
        below = [box.bottom - each.top for box, own in up for each in others if own.meets(each)]
        if not below:
            return lift
        lift = max(below) + _BETWEEN


def _numbers(stage: Stage, spot: Spot, notes: Mapping[str, str]) -> list[Shape]:
    shapes = []
    for head in spot.heads:
        if head.text:
            shape = numeral(stage, spot, head)
            known = notes[f"s{spot.placed.number}-{head.note}"]
            kind = " dead" * head.cross + {"()": " bracketed", "<>": " harmonic"}.get(head.around, "")
            shapes.append(Shape(f'<g class="tab{kind}"{known} data-string="{head.string}">{shape.svg}</g>', shape.box))
    return shapes


def _rest_of_tab(scribe: Scribe, staff: Element) -> None:
    """What TAB has besides strings and numbers: clef, rests of several bars."""
    for child in staff:
        name = child.get("class", "")
        if name == "layer":
            for inner in child:
                if inner.get("class", "").startswith(("multiRest", "clef")):
                    scribe.write(inner)
        elif name and name not in {"keySig", "meterSig"}:  # the staff has them
            scribe.write(child)


def _brace(scribe: Scribe, element: Element, system: System, move: float) -> None:
    """The brace, drawn longer or shorter than it was."""
    top, bottom = system.staff[0], system.strings[-1]
    stretch = (bottom + move - top) / (bottom - top)
    stretched = scribe.mapped(lambda y: top + (y - top) * stretch)
    stretched.write(element)
    scribe.take(stretched)


def _move(system: System, staff: Sequence[Box], marks: Sequence[Box]) -> float:
    """How far TAB must go down (or may go up) to be clear of the staff with all its marks."""
    foot, top = system.staff[-1], system.strings[0]
    hanging = [box for box in staff if box.bottom > foot]
    room = foot + _LEAST - top
    if hanging:
        room = max(room, max(box.bottom for box in hanging) + _GAP - top + 0.35 * system.gap)
    for mark in marks:
        if mark.top < top:
            low = max((box.bottom for box in hanging if box.left < mark.right + _GAP and mark.left < box.right + _GAP), default=foot)
            room = max(room, max(low, foot) + _GAP - mark.top)
    return room


def _moved(box: Box, move: float) -> Box:
    return Box(box.left, box.top + move, box.right, box.bottom + move)
