"""What is drawn onto one system, and how it is stacked: marks above TAB and below it find their height here.

A mark that stands on the strings (an arc, a slide) has its place; one that stands over or under them is given a lane. Lanes are filled
family by family, the nearest to the strings first; all marks of one family in a system stand at one height where they can.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Final, NamedTuple

from tabforge.pages.shapes import Box, Shape

CLEAR: Final = 55.0
"""Room between two marks, one over the other."""

BESIDE: Final = 40.0
"""Room between two marks, side by side."""


class Lane(NamedTuple):
    """A mark that waits for its height. ``draw`` is given the height of its lower edge (above TAB) or upper edge (below)."""

    rank: int
    name: str
    below: bool
    left: float
    right: float
    height: float
    draw: Callable[[float], Shape]


@dataclass(slots=True)
class Board:
    """One system's marks. ``top`` and ``bottom`` are the outer strings, ``left`` and ``right`` where notes begin and end."""

    top: float
    bottom: float
    left: float
    right: float
    gap: float
    fixed: list[tuple[str, Shape]] = field(default_factory=list)
    lanes: list[Lane] = field(default_factory=list)

    def put(self, name: str, shape: Shape) -> None:
        """Draw a mark in its place. One that is there already (said of both pieces of a tied note, say) is not drawn twice."""
        if (name, shape) not in self.fixed:
            self.fixed.append((name, shape))

    def stack(self, rank: int, name: str, left: float, right: float, height: float, draw: Callable[[float], Shape], *, below: bool) -> None:
        """Give a mark a lane. ``rank`` says how near to the strings its family stands."""
        self.lanes.append(Lane(rank, name, below, left, right, height, draw))

    def settled(self) -> list[tuple[str, Shape]]:
        """All marks with their places: those of lanes have been given heights."""
        done = list(self.fixed)
        for below in (False, True):
            outline = [shape.box for _, shape in self.fixed]
            families: dict[int, list[Lane]] = {}
            for lane in self.lanes:
                if lane.below is below:
                    families.setdefault(lane.rank, []).append(lane)
            for _, members in sorted(families.items()):
                waiting = members
                while waiting:
                    chosen, waiting = _side_by_side(waiting)
                    level = self._level(outline, chosen, below)
                    for lane in chosen:
                        covered = (level, level + lane.height) if below else (level - lane.height, level)
                        outline.append(Box(lane.left, covered[0], lane.right, covered[1]))
                        shape = lane.draw(level)
                        done.append((lane.name, shape._replace(box=outline[-1])))
        return done

    def _level(self, outline: Iterable[Box], members: list[Lane], below: bool) -> float:
        """The height at which every member of a family is clear of all that is there."""
        levels = [self.bottom + 0.9 * self.gap if below else self.top - 0.75 * self.gap]
        for box in outline:
            if any(box.left < lane.right + BESIDE and lane.left < box.right + BESIDE for lane in members):
                levels.append(box.bottom + CLEAR if below else box.top - CLEAR)
        return max(levels) if below else min(levels)


def _side_by_side(lanes: list[Lane]) -> tuple[list[Lane], list[Lane]]:
    """Those of a family that can stand beside each other, and those that must wait for another height."""
    chosen: list[Lane] = []
    waiting: list[Lane] = []
    for lane in lanes:
        free = all(lane.left >= other.right + BESIDE / 4 or other.left >= lane.right + BESIDE / 4 for other in chosen)
        (chosen if free else waiting).append(lane)
    return chosen, waiting
