"""A practice plan as data: days of steps, each a block in a key, so many rungs of its tempo ladder, and something to listen for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

USUAL_LADDER: Final = (60.0, 70.0, 80.0, 90.0, 100.0, 110.0)

KeyOrder = Literal["as written", "fifths", "fourths", "chromatic", "random"]
KEY_ORDERS: Final[tuple[KeyOrder, ...]] = ("as written", "fifths", "fourths", "chromatic", "random")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanOptions:
    """What a plan is asked for.

    ``minutes`` a day, ``days`` and ``times`` (without a slip, before the next rung) are within the limits on plans in ``limits``.
    ``ladder``: percents of the written tempo.
    ``keys``: in what order the keys come, one of KEY_ORDERS; ``seed`` decides a random order. ``blocks``: numbers of the blocks that play,
    counted from 0, or None for all. ``file`` is what the study is called on a command line.
    """

    minutes: int = 30
    days: int = 5
    ladder: tuple[float, ...] = USUAL_LADDER
    times: int = 3
    keys: KeyOrder = "as written"
    seed: int = 1
    blocks: tuple[int, ...] | None = None
    file: str = "STUDY"


@dataclass(frozen=True, slots=True)
class Rung:
    """A rung of a ladder: percent of the written tempo, and the metronome's figure in the block's own beat; None without a tempo."""

    percent: float
    figure: int | None

    def __str__(self) -> str:
        return f"{self.percent:g} %" if self.figure is None else str(self.figure)


@dataclass(frozen=True, slots=True)
class Listening:
    """Something to listen for: a word for it, and a sentence. What is to stay on one line has hard spaces in it."""

    about: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockPlan:
    """A block of the study as it is practised.

    ``beat`` is what its figures count ("quarter notes a minute"), None without a tempo. ``seconds`` is how long it lasts at its written
    tempo, repeats played. ``piece``: how many bars are learnt at a time, None where it is short enough to be learnt whole.
    """

    name: str
    bars: int
    scale: str | None
    beat: str | None
    rungs: tuple[Rung, ...]
    seconds: float
    piece: int | None
    listen: tuple[Listening, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A block in a key (None: the block names no scale), some rungs of its ladder, each ``times`` times, and one thing to listen for.

    ``minutes`` include the rests of ``rest`` seconds after each rung; ``pause`` are the minutes of the longer break after the step, 0 for
    none.
    """

    block: int
    key: str | None
    rungs: tuple[Rung, ...]
    times: int
    rest: int
    minutes: int
    focus: Listening
    pause: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """A day: minutes of warming up, steps, and minutes to look back."""

    warm_up: int
    steps: tuple[Step, ...]
    closing: int

    @property
    def minutes(self) -> int:
        """All of it, breaks included."""
        return self.warm_up + sum(step.minutes + step.pause for step in self.steps) + self.closing


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A plan. ``keys`` are those it goes through, in order; ``remarks`` what it leaves out or leaves open; ``tracks`` a command that makes
    practice tracks of the same ladder.
    """

    title: str
    instrument: str
    tuning: str
    options: PlanOptions
    keys: tuple[str, ...]
    blocks: tuple[BlockPlan, ...]
    days: tuple[Day, ...]
    remarks: tuple[str, ...]
    tracks: str
