"""A practice plan in a few lines, as a printed book has it under an exercise."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.model.score import Score
from tabforge.practice.blocks import beat_of, blocks_of, rungs_of
from tabforge.practice.listening import listening_of
from tabforge.practice.model import PlanOptions, Rung
from tabforge.practice.words import NO_TEMPO, climbing, in_pieces

POINTS: Final = 2
"""Things to listen for that are named for each block; what has been said of one is not said of the next."""


def rungs_text(rungs: tuple[Rung, ...], beat: str | None) -> str:
    """Rungs with what they count: ``58, 67, 77 quarter notes a minute``; percents where there is no tempo."""
    said = ", ".join(map(str, rungs))
    return f"{said} {beat}" if beat else said


def plan_lines(score: Score) -> tuple[str, ...]:
    """A plan in a few lines without a layout: warming up, the ladder of each block and what to listen for in it, how to climb, resting.

    Blocks with the same ladder share a line. A study in which nothing is played has no lines.
    """
    return tuple(_lines(score))


def _lines(score: Score) -> Iterator[str]:
    options = PlanOptions()
    blocks = blocks_of(score)
    if not blocks:
        return
    yield "Warm up for a few minutes, slowly and quietly, and rest whenever the hands ask for it. Stop at pain, tingling or numbness."
    ladders: dict[str, list[str]] = {}
    for block in blocks:
        said = rungs_text(rungs_of(block.tempo, options.ladder), beat_of(block.tempo))
        ladders.setdefault(said if block.tempo else f"{NO_TEMPO}; then {said}", []).append(block.name)
    for ladder, names in ladders.items():
        yield f"Tempo ladder{'' if len(ladders) == 1 else ' of ' + ', '.join(names)}: {ladder}."
    yield " ".join(climbing(options.times)[:1])
    said_before: set[str] = set()
    for block in blocks:
        points = [point for point in listening_of(score, block.first) if point.text not in said_before][:POINTS]
        said_before.update(point.text for point in points)
        piece = [in_pieces(block.piece)] if block.piece else []
        if points or piece:
            yield " ".join([f"{block.name}.", *piece, *(f"{point.about.capitalize()}: {point.text}" for point in points)])
    yield "After twenty-five minutes at most take a longer break, and begin the next day one rung below where you stopped."
