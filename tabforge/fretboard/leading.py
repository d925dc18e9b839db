"""Leading: of each chord's grips the one that goes best from grip to grip, over the whole of a progression.

The best chain is found exactly, by dynamic programming over all grips of all chords. Going from one grip to the next costs the way of
the voices and the way of the hand, 1 for each 10 mm begun (``cost.hand_ways``); the weights are common practice, no source. Voices are
matched in the order of their pitches, which is never farther than any other matching of as many voices (they do not cross).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from tabforge.fretboard.cost import hand_ways
from tabforge.fretboard.gripped import Grip
from tabforge.fretboard.neck import Neck

VOICE: Final = 2
"""Each half step that a voice moves."""

ENTERING: Final = 3
"""A voice that begins or ends, in half steps: a moved voice is dearer only beyond a whole step and a half."""


@lru_cache(maxsize=65536)
def voice_steps(before: tuple[int, ...], after: tuple[int, ...]) -> int:
    """Half steps that voices move from one chord to another, both as rising pitches: the least over all ways to match as many voices as
    both have, in order; ENTERING for each voice that is left over.
    """
    if len(before) > len(after):
        before, after = after, before
    if len(before) == len(after):
        return sum(map(abs, map(int.__sub__, before, after)))
    free = len(after) - len(before)
    best = [0] * (free + 1)  # what the voices matched so far cost, with so many of ``after`` left over below the last of them
    for at, midi in enumerate(before):
        least, row = best[0], []
        for over in range(free + 1):
            least = min(least, best[over])
            row.append(least + abs(midi - after[at + over]))
        best = row
    return min(best) + ENTERING * free


def step_cost(before: Grip, after: Grip, neck: Neck) -> int:
    """What it costs to go from one grip to the next."""
    ways = hand_ways(neck, max(before.hand, after.hand))
    way = ways[before.hand][after.hand] if before.hand and after.hand else 0
    return VOICE * voice_steps(before.pitches, after.pitches) + way


def lead_through(choices: Sequence[Sequence[Grip]], neck: Neck) -> list[Grip]:
    """One grip of each chord's, so that the grips' own costs and the steps between them cost least in all. Each chord has one or more.

    Of chains that cost the same it is the one whose first grip stands first among its chord's, then its second, and so on.
    """
    ways = hand_ways(neck, max((grip.hand for grips in choices for grip in grips), default=0))
    ways[0] = [0] * len(ways)  # a grip that needs no hand
    for way in ways:
        way[0] = 0
    ahead: list[list[int]] = []  # for each chord but the last and each of its grips, which grip comes next; the last chord first
    after: list[tuple[int, tuple[int, ...], int]] = []  # what each grip costs to the end, its pitches and its hand
    for grips in reversed(choices):
        here, links = [], []
        for grip in grips:
            pitches, from_hand = grip.pitches, ways[grip.hand]
            steps = [cost + VOICE * voice_steps(pitches, next_pitches) + from_hand[there] for cost, next_pitches, there in after]
            least = min(steps, default=0)
            links.append(steps.index(least) if steps else 0)
            here.append((grip.cost + least, pitches, grip.hand))
        after = here
        ahead.append(links)
    if not choices:
        return []
    costs = [cost for cost, _, _ in after]
    at = costs.index(min(costs))
    chain = []
    for grips, links in zip(choices, reversed(ahead), strict=True):
        chain.append(grips[at])
        at = links[at]
    return chain
