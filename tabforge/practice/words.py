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

WARM_UP: Final = "Warm up"
BREAK: Final = "Break"
LOOK_BACK: Final = "Look back"

EVERY_DAY: Final = (
    (
        WARM_UP,
        "loosen shoulders, wrists and fingers; then the notes of the day's first step in order, slowly and quietly, one a beat, "
        "with as little pressure as it takes.",
    ),
    (BREAK, "put the instrument down, let the arms hang, walk a little."),
    (
        LOOK_BACK,
        "play all of the day's steps through once, without stopping, at the slowest tempo you reached; write down the highest clean rung "
        "of each.",
    ),
)
"""What is done besides the steps."""


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


NO_SCALE: Final = "{blocks}: no scale is named, so this stays where it is written."

UNWRITTEN: Final = (
    "Keys that the study does not write out are found by ear and hand: say the notes of the scale, then move the line along the neck. "
    "The setting keys in a study writes them out."
)

LESS: Final = "There is not the time for every block in every key. More minutes, more days or one block at a time make room for all."

GOING_ON: Final = "These ladders go on after the last day, each one rung below where you stopped: {blocks}."


TRACKS: Final = "Something to play along with, on the same ladder:"


def resting(seconds: int) -> str:
    """When to rest."""
    return f"After each rung let the hands hang for {seconds} seconds, and longer if they feel tired."
