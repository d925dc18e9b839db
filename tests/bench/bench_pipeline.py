"""Text to MusicXML from end to end, beside music21 and a bare string template, in one run.

    python -m tests.bench.bench_pipeline [--long]

Prints microseconds a played note (which is two <note> elements, notation and TAB), ratios to the baselines, the growth exponent from
size to size and the peak memory a note by tracemalloc. ``--long`` adds 100,000 notes; music21's default build is measured at 1,000
and 10,000.

"again" is the best of three runs of one text, whose fingering steps are then remembered; "fresh" is a text that was never seen.
"""

from __future__ import annotations

import gc
import math
import sys
import time
import tracemalloc
from collections.abc import Callable

from tabforge.compile import compile_study
from tabforge.model.score import Score
from tabforge.pipeline import export, study_from
from tabforge.readers import READERS
from tabforge.schema import guard
from tabforge.source import Source
from tests.bench.studies import study_text


def timed(work: Callable[[], object], times: int = 3) -> float:
    """The best of some runs, in seconds."""
    best = math.inf
    for _ in range(times):
        gc.collect()
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    return best


def scored(data: bytes) -> Score:
    score = study_from("bench.riff", data).score
    assert score is not None
    return score


def whole(data: bytes) -> bytes:
    return export(scored(data), "musicxml")[0]


def stages(text: str) -> dict[str, float]:
    """Seconds of each stage on its own."""
    source = Source("bench.riff", text)
    reading = READERS["riff"](source)
    score, _ = compile_study(reading.document, reading.origins)  # type: ignore[arg-type]
    assert score is not None
    return {
        "read": timed(lambda: READERS["riff"](source)),
        "guard": timed(lambda: guard(reading.document, reading.origins)),
        "compile": timed(lambda: compile_study(reading.document, reading.origins)),  # type: ignore[arg-type]
        "write": timed(lambda: export(score, "musicxml")),
    }


def template_floor(score: Score) -> bytes:
    """Two <note> elements for each played note from string templates that only fill in pitch, duration and place."""
    one = (
        "<note><pitch><step>{}</step><alter>{}</alter><octave>{}</octave></pitch><duration>{}</duration>"
        "<voice>1</voice><type>{}</type></note>\n"
    )
    two = (
        "<note><pitch><step>{}</step><alter>{}</alter><octave>{}</octave></pitch><duration>{}</duration><voice>5</voice><type>{}</type>"
        "<notations><technical><string>{}</string><fret>{}</fret></technical></notations></note>\n"
    )
    pieces = []
    for section in score.sections:
        for bar in section.bars:
            for event in bar.voices[0]:
                name = event.written.value.name
                for note in event.notes:
                    pitch = note.pitch
                    pieces.append(one.format(pitch.step, pitch.alter, pitch.octave, event.ticks, name))
                    pieces.append(two.format(pitch.step, pitch.alter, pitch.octave, event.ticks, name, note.string, note.fret))
    return "".join(pieces).encode()


def music21_build(score: Score, notation: bool) -> bytes:
    """The same notes built and written by music21: two parts, the second with strings and frets."""
    from music21 import articulations, meter, note, stream
    from music21.musicxml.m21ToXml import GeneralObjectExporter

    parts = [stream.Part(), stream.Part()]
    for section in score.sections:
        for number, bar in enumerate(section.bars, start=1):
            for which, part in enumerate(parts):
                measure = stream.Measure(number=number)
                if number == 1:
                    measure.append(meter.TimeSignature(str(bar.meter)))
                for event in bar.voices[0]:
                    made: note.GeneralNote = note.Rest()
                    if event.notes:
                        made = note.Note(event.notes[0].pitch.midi)
                        if which:
                            made.articulations = [
                                articulations.StringIndication(event.notes[0].string),
                                articulations.FretIndication(event.notes[0].fret),
                            ]
                    made.duration.quarterLength = event.ticks / score.divisions
                    measure.append(made)
                part.append(measure)
    exporter = GeneralObjectExporter(stream.Score(parts))
    exporter.makeNotation = notation
    return exporter.parse()


def fresh_one(size: int) -> float:
    """Seconds for a text that was never seen, and is not seen again."""
    text, columns = study_text(size, seed=2)
    data = text.encode()
    return timed(lambda: whole(data), 1) / columns


def main(long: bool) -> None:
    before: tuple[int, float] | None = None
    for size in (1_000, 10_000, 100_000) if long else (1_000, 10_000):
        text, columns = study_text(size)
        data = text.encode()
        score = scored(data)
        notes = sum(len(e.notes) for s in score.sections for b in s.bars for v in b.voices for e in v)
        ours = timed(lambda data=data: whole(data)) / notes * 1e6
        fresh = fresh_one(size) * 1e6
        floor = timed(lambda score=score: template_floor(score)) / notes * 1e6
        parts = {name: seconds / notes * 1e6 for name, seconds in stages(text).items()}
        tracemalloc.start()
        whole(data)
        peak = tracemalloc.get_traced_memory()[1] / notes
        tracemalloc.stop()
        print(f"{notes:>7} notes ({columns} columns): again {ours:.1f}, fresh {fresh:.1f} µs a note; peak {peak:5.0f} bytes a note")
        print("        " + ", ".join(f"{name} {value:.1f}" for name, value in parts.items()))
        print(f"        template floor {floor:.2f} µs; writer {parts['write'] / floor:.1f} times the floor (goal 7)")
        if before:
            exponent = math.log(fresh * notes / (before[1] * before[0])) / math.log(notes / before[0])
            print(f"        growth exponent of fresh texts {exponent:.3f} (goal 1.05)")
        before = (notes, fresh)
        if size <= 10_000:
            for notation, goal in ((False, 15), (True, 40)):
                theirs = timed(lambda score=score, notation=notation: music21_build(score, notation), 1) / notes * 1e6
                print(f"        music21 makeNotation={notation}: {theirs:.0f} µs a note, {theirs / ours:.1f} times again, "
                      f"{theirs / fresh:.1f} times fresh (goal {goal})")


if __name__ == "__main__":
    main("--long" in sys.argv)
