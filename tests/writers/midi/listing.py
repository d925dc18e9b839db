"""A MIDI file as lines of text, for what is told of it in words."""

from __future__ import annotations

from fractions import Fraction

from tests.writers.midi.reading import Key, read

_AT_ONCE = Fraction(1, 8)
"""Notes that begin closer together than this are a spread chord."""


def listing(data: bytes) -> str:
    """A line for each tempo, note, spread chord and way of the expression pedal."""
    found = read(data)
    lines = [f"tempo {round(60_000_000 / message.tempo)}" for _, message in found.of_type("set_tempo")]
    for key in found.keys:
        lines.append(f"note {key.key} velocity {key.velocity} quarters {key.length} wheel {' to '.join(_turns(key))}")
    lines += _spreads(sorted(found.keys, key=lambda key: key.start))
    expression = [str(message.value) for _, message in found.of_type("control_change") if message.control == 11]
    return "\n".join([*lines, f"controller 11 to {' to '.join(expression)}" if expression else ""])


def _turns(key: Key) -> list[str]:
    """Where the wheel stands at first, wherever it turns back or waits, and at last."""
    heights = [round(cents) for at, cents in key.wheel if at < key.end]
    kept: list[int] = []
    for height in heights:
        if len(kept) > 1 and (kept[-1] - kept[-2]) * (height - kept[-1]) > 0:
            kept[-1] = height
        elif not kept or height != kept[-1]:
            kept.append(height)
    return [str(height) for height in kept]


def _spreads(keys: list[Key]) -> list[str]:
    lines, run = [], keys[:1]
    for key in [*keys[1:], None]:
        if key is not None and 0 < key.start - run[-1].start < _AT_ONCE and key.channel != run[-1].channel:
            run.append(key)
            continue
        if len(run) > 2:
            lines.append(f"spread {'up' if run[-1].key > run[0].key else 'down'}")
        run = [key] if key is not None else []
    return lines
