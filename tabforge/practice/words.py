"""The sentences that stand in every plan. All are common practice in teaching, no source."""

from __future__ import annotations

from typing import Final

_COUNTS: Final = {1: "once", 2: "twice", 3: "three times", 4: "four times", 5: "five times"}

CAUTIONS: Final = (
    "Warm up first, and rest whenever your hands ask for it, not only where the plan does.",
    "Stop at once at pain, tingling or numbness. If it comes back, ask your teacher or a clinician before you go on.",
    "Play and listen at a low volume, most of all in headphones.",
)

NO_TEMPO: Final = "choose a tempo at which every note is clear, and call it 100 %"

CLOSING: Final = (
    "Play it all through once, without stopping, at the slowest tempo you reached today. Write down the highest clean rung of each step."
)

PAUSE: Final = "Put the instrument down, let the arms hang, walk a little."


def counted_times(times: int) -> str:
    """How often: ``once``, ``three times``, ``12 times``."""
    return _COUNTS.get(times, f"{times} times")


def climbing(times: int) -> tuple[str, ...]:
    """How a ladder is climbed."""
    row = " in a row" if times > 1 else ""
    return (
        f"Play a rung {counted_times(times)}{row} without a slip, then take the next. After two slips go one rung back.",
        "When the minutes of a step are over, stop and write down your rung; the next time begin one rung below it.",
    )


def in_pieces(piece: int) -> str:
    """How a long block is learnt."""
    return f"Learn it {piece} bars at a time, each with the first beat of the bar after it; then join them, and then play it whole."
