"""Tempo ladders as they are written: percents of a tempo, a rung each."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from tabforge.limits import MAX_RUNGS, MAX_SPEED, MIN_SPEED

_NUMBER: Final = r"[0-9]{1,4}(?:\.[0-9]{1,3})?"
_RUNG: Final = re.compile(rf"({_NUMBER})(?:\s*\.\.\s*({_NUMBER})\s*/\s*({_NUMBER}))?")

LADDER_FORM: Final = (
    "A ladder is percents of the tempo: 60..120/5 goes from 60 to 120 in steps of 5, 100..60/10 goes down, 70,85,100 are three rungs."
)


class Misread(NamedTuple):
    """Why a text is no ladder, in a sentence."""

    why: str


def read_ladder(text: str) -> tuple[float, ...] | Misread:
    """The rungs of a ladder such as ``60..120/5`` or ``70,85,100``: percents of the tempo. The end is always a rung."""
    rungs: list[float] = []
    for piece in text.split(","):
        found = _RUNG.fullmatch(piece.strip().removesuffix("%").strip())
        if found is None:
            return Misread(f"{piece.strip()!r} is no rung. {LADDER_FORM}")
        first, last, step = (float(each) if each else None for each in found.groups())
        assert first is not None  # the pattern has it
        if last is None or step is None:
            rungs.append(first)
            continue
        if not step:
            return Misread(f"{piece.strip()!r} takes no step. {LADDER_FORM}")
        count = int(abs(last - first) / step + 1e-9)
        if count >= MAX_RUNGS:
            return _too_many()
        way = step if last >= first else -step
        steps = [round(first + way * number, 3) for number in range(count + 1)]
        rungs += steps if steps[-1] == last else [*steps, last]
    if len(rungs) > MAX_RUNGS:
        return _too_many()
    wrong = next((rung for rung in rungs if not MIN_SPEED <= rung <= MAX_SPEED), None)
    if wrong is not None:
        return Misread(f"A rung of {wrong:g} % cannot be played: rungs are {MIN_SPEED} to {MAX_SPEED} % of the tempo.")
    return tuple(rungs)


def _too_many() -> Misread:
    return Misread(f"A ladder has {MAX_RUNGS} rungs at most: take larger steps.")
