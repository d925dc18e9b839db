"""Bar lines of a block: repeats, endings and doubles gathered from its systems and put on its bars."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from tabforge.compile.report import Report
from tabforge.diagnostics.catalogue import music
from tabforge.model.score import PLAIN_LINE, BarLine
from tabforge.syntax.origins import Pointer

_SIGN: Final = re.compile(r"(:\|(?:\*(?P<times>[0-9]+))?(?P<both>:)?|\|\||\|:|\|)(?:\[(?P<ending>[0-9,]+))?")


@dataclass(slots=True)
class Boundary:
    """What stands between two bars of a block (or at its ends)."""

    at: Pointer
    backward: bool = False
    forward: bool = False
    double: bool = False
    times: int = 2
    ending: tuple[int, ...] = ()

    def take(self, sign: str) -> None:
        """Adds a sign as a system's ``barlines`` has it."""
        found = _SIGN.fullmatch(sign)
        assert found is not None, sign  # the guard has seen it
        kind = found[1]
        self.backward |= kind.startswith(":")
        self.forward |= kind == "|:" or bool(found["both"])
        self.double |= kind == "||"
        self.times = int(found["times"]) if found["times"] else self.times
        if found["ending"]:
            self.ending = tuple(int(number) for number in found["ending"].split(","))


def bar_lines(boundaries: dict[int, Boundary], count: int, report: Report) -> list[tuple[BarLine, BarLine]]:
    """Left and right line of each of ``count`` bars. The block's own end is a double line unless a repeat stands there."""
    lefts, rights = [PLAIN_LINE] * count, [PLAIN_LINE] * count
    open_ending: tuple[int, ...] = ()
    expected = 1
    for place in range(count + 1):
        here = boundaries.get(place)
        begins = here.ending if here else ()
        ends = open_ending if open_ending and (place == count or (here and (here.backward or here.double or begins))) else ()
        backward = bool(here and here.backward)
        if here and here.forward:
            expected = 1
        if begins and here is not None:
            if begins[0] != expected or (open_ending and not backward):
                report.add(
                    music.BAD_ENDING,
                    f"ending {begins[0]} follows ending {open_ending[-1]} without a repeat sign"
                    if open_ending and not backward
                    else f"ending {begins[0]} stands where ending {expected} is expected",
                    here.at,
                    expected=f":|[{begins[0]}" if open_ending and not backward else f"[{expected}",
                )
            expected = begins[-1] + 1
        if place > 0:
            style = "double" if place == count or (here and here.double) else "regular"
            rights[place - 1] = BarLine(
                style=style,
                repeat="backward" if backward else None,
                times=here.times if here else 2,
                endings=ends,
                hooked=not ends or backward or bool(here and here.double),
            )
        if place < count:
            forward = bool(here and here.forward)
            if forward or begins:
                lefts[place] = BarLine(repeat="forward" if forward else None, endings=begins)
        if begins:
            open_ending = begins
        elif ends:
            open_ending = ()
            expected = 1
    return list(zip(lefts, rights, strict=True))
