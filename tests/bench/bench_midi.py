"""What MIDI costs, in microseconds a played note: performing a score, writing the file, and mido writing the very same messages.

Run it: ``python -m tests.bench.bench_midi``, with sizes as arguments if you like.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from io import BytesIO
from math import log

import mido

from tabforge.performance import perform
from tabforge.pipeline import uncollected
from tabforge.writers.midi import write
from tests.bench.bench_musicxml_writer import best, study


def figures(notes: int, *, marked: bool) -> dict[str, float]:
    """Microseconds a sounding note of each way, and mido's as a multiple of the whole writer and of its writing alone."""
    given = study(notes, marked=marked)
    times = 5 if notes <= 20_000 else 2

    def quietly(run: Callable[[], object]) -> float:
        with uncollected():
            return best(run, times)

    sounds = len(perform(given).sounds)
    performed = quietly(lambda: perform(given))
    both = quietly(lambda: write(given))
    data = write(given)[0]
    read = mido.MidiFile(file=BytesIO(data))
    messages = [[(message, message.dict()) for message in track] for track in read.tracks]

    def by_mido() -> bytes:
        file = mido.MidiFile(type=1, ticks_per_beat=read.ticks_per_beat)
        for track in messages:
            made = mido.MidiTrack()
            for message, values in track:
                made.append(type(message)(**values) if not message.is_meta else message)
            file.tracks.append(made)
        out = BytesIO()
        file.save(file=out)
        return out.getvalue()

    assert mido.MidiFile(file=BytesIO(by_mido())).tracks == read.tracks
    theirs = quietly(by_mido)
    each = 1e6 / sounds
    return {
        "notes": sounds,
        "perform": performed * each,
        "write": (both - performed) * each,
        "all": both * each,
        "mido": theirs * each,
        "mido : write": theirs / (both - performed),
        "bytes a note": len(data) / sounds,
    }


def main() -> None:
    sizes = [int(each) for each in sys.argv[1:]] or [1_000, 10_000, 100_000]
    for marked in (False, True):
        rows = [figures(size, marked=marked) for size in sizes]
        for row in rows:
            print("marked" if marked else "plain ", "  ".join(f"{name} {number:,.4g}" for name, number in row.items()))
        if len(rows) > 1:
            first, last = rows[0], rows[-1]
            exponent = 1 + log(last["all"] / first["all"]) / log(last["notes"] / first["notes"])
            print(f"growth exponent from {first['notes']:,.0f} to {last['notes']:,.0f}: {exponent:.2f}")


if __name__ == "__main__":
    main()
