"""What a practice track is to be: how fast, how often, tuned to what, and which parts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from tabforge.model.score import BACKINGS

LINE: Final = "line"
CLICK: Final = "click"
STEMS: Final = (LINE, *BACKINGS, CLICK)
"""The parts of a track that can be heard alone, in the order in which they are written."""

LOWEST_A4: Final = 400.0
HIGHEST_A4: Final = 480.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TrackOptions:
    """What is to be made of a performance.

    ``ladder``: percents of its tempo, a rung each. ``times``: how often each rung is played, its count-in once. ``a4``: the pitch of the A
    above middle C in hertz, 400 to 480. ``parts``: those of STEMS that are heard. ``stems``: each of them in a file of its own too.
    ``split``: a file for each rung instead of one for all.
    """

    ladder: tuple[float, ...] = (100.0,)
    times: int = 1
    a4: float = 440.0
    parts: tuple[str, ...] = STEMS
    stems: bool = False
    split: bool = False
    form: Literal["wav", "mp3"] = "wav"
