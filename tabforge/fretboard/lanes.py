"""Lanes: many small numbers side by side in one integer, so that one addition adds them all.

A number has a lane of 16 bits, of which the topmost stays 0: numbers up to 32,767. Lane n is worth ``2 ** (16 * n)``. It is the
technique known as SIMD within a register (R. J. Fisher and H. G. Dietz, "Compiling for SIMD within a register", Languages and Compilers for
Parallel Computing, 1998; cited from memory), with Python's long integers for registers.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from struct import unpack
from typing import Final

LANE: Final = 16


@cache
def ones(count: int) -> int:
    """1 in each of ``count`` lanes."""
    return sum(1 << LANE * number for number in range(count))


@cache
def guards(count: int) -> int:
    """The topmost bit of each of ``count`` lanes."""
    return ones(count) << LANE - 1


def lanes(numbers: Iterable[int]) -> int:
    """1 in each of the lanes with these numbers."""
    return sum(1 << LANE * number for number in numbers)


def lesser(first: int, second: int, guard: int) -> int:
    """In each lane the lesser of two numbers. ``guard``: the ``guards`` of as many lanes."""
    over = ((first | guard) - second) & guard  # where the first is no less
    return first ^ ((first ^ second) & (over - (over >> LANE - 1)))


def numbers(packed: int, count: int) -> tuple[int, ...]:
    """The numbers of all lanes."""
    return unpack(f"<{count}H", packed.to_bytes(2 * count, "little"))
