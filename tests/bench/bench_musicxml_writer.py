"""What the MusicXML writer costs, in microseconds a played note (two ``note`` elements, notation and TAB).

Three figures in the same run: a bare string template that only fills in pitch, string and fret (the floor), the writer, and music21
building and writing the same notes. Run it: ``python -m tests.bench.bench_musicxml_writer``, with sizes as arguments if you like.
"""

from __future__ import annotations

import random
import sys
import time
import tracemalloc
from collections.abc import Callable

from tabforge.model.events import Event
from tabforge.model.pitch import spell_plainly
from tabforge.model.score import Bar, Score
from tabforge.writers.musicxml import write
from tabforge.writers.options import DEFAULTS
from tests.proof.scores import BB_LYDIAN, DIVISIONS, STANDARD, Item, bar, note, score, section, tuplet, value, voice

_BAR = 8


def study(notes: int, *, marked: bool, seed: int = 7) -> Score:
    """A score of about that many notes in bars of eight or more: eighths, sixteenths and triplets in Bb lydian's signature.

    ``marked``: as a riff is written, with ties over bar lines, and palm mutes, hammer-ons, accents, bends, tuplets and chords on about a
    third of the notes.
    """
    draw = random.Random(seed)
    bars: list[Bar] = []
    count = 0
    tied = False
    while count < notes:
        items: list[Item | list[Item]] = []
        for _ in range(4):
            items += _beat(draw, marked)
        flat = [each for item in items for each in (item if isinstance(item, list) else [item])]
        if tied:
            flat[:1] = [note("s", "4:5", tie="in"), note("s", "4:5")] if _is_eighth(flat[0]) else flat[:1]
        tied = marked and _is_eighth(flat[-1]) and draw.random() < 0.5
        if tied:
            flat[-1] = note("e", "4:5", tie="out")
        events = voice(*flat)
        count += sum(len(event.notes) for event in events)
        bars.append(bar(events))
    return score(section(*bars, title="Bench", scale=BB_LYDIAN))


def _is_eighth(item: Item) -> bool:
    return item.written == value("e")


_IN_SCALE = [
    (f"{string}:{fret}", spelled)
    for string in range(1, 7)
    for fret in range(16)
    for spelled in (spell_plainly(STANDARD.open(string).midi + fret, flats=True),)
    if spelled.pitch_class in BB_LYDIAN.tones
]


def _note(draw: random.Random, length: str, marks: str = "") -> Item:
    """A note of the scale; one in twenty is chromatic."""
    if draw.random() < 0.05:
        return note(length, f"{draw.randint(1, 6)}:{draw.randint(0, 15)}", marks=marks)
    place, spelled = draw.choice(_IN_SCALE)
    return note(length, place, marks=marks, spell=str(spelled))


def _beat(draw: random.Random, marked: bool) -> list[Item | list[Item]]:
    kind = draw.random()
    if not marked:
        return [_note(draw, "e"), _note(draw, "e")]
    if kind < 0.5:
        return [_note(draw, "e", "pm:start"), _note(draw, "e", "pm:stop")] if kind < 0.1 else [
            _note(draw, "e"), _note(draw, "e", "ac" if kind < 0.2 else "")]
    if kind < 0.6:
        string = draw.randint(1, 6)
        return [note("e", f"{string}:5", marks="h:start"), note("e", f"{string}:7", marks="h:stop")]
    if kind < 0.7:
        return [note("e", "6:3 5:5 4:5"), _note(draw, "e", "b1" if kind < 0.65 else "v")]
    if kind < 0.85:
        return [_note(draw, "s") for _ in range(4)]
    return [tuplet("3:2", "e", *[_note(draw, "e") for _ in range(3)])]


def floor(events: list[Event]) -> bytes:
    """The least a writer could do: one template with what a plain note of ours has on both staves, whatever the rhythm and the marks."""
    out = []
    for event in events:
        for each in event.notes:
            pitch = each.pitch
            out.append(
                f"<note><pitch><step>{pitch.step}</step><alter>{pitch.alter}</alter><octave>{pitch.octave}</octave></pitch><duration>"
                f"{event.ticks}</duration><voice>1</voice><type>{event.written.value.name}</type><staff>1</staff>"
                f'<beam number="1">begin</beam></note>\n<note dynamics="0">'
                f"<pitch><step>{pitch.step}</step><alter>{pitch.alter}</alter><octave>{pitch.octave}</octave></pitch><duration>"
                f"{event.ticks}</duration><voice>5</voice><type>{event.written.value.name}</type><stem>none</stem><staff>2</staff>"
                f"<notations><technical><string>{each.string}</string><fret>{each.fret}</fret></technical></notations></note>\n"
            )
    return "".join(out).encode()


def reference(given: Score) -> bytes:
    """music21 building and writing the same notes, twice for two staves, without working out notation."""
    from music21 import articulations, chord, meter, stream
    from music21 import note as notes21
    from music21.musicxml.m21ToXml import GeneralObjectExporter

    whole = stream.Score()
    for tab in (False, True):
        part = stream.Part()
        for section_ in given.sections:
            for index, each in enumerate(section_.bars, 1):
                measure = stream.Measure(number=index)
                if index == 1:
                    measure.append(meter.TimeSignature("4/4"))
                for event in each.voices[0]:
                    names = [str(tone.pitch).replace("b", "-") for tone in event.notes]
                    made = chord.Chord(names) if len(names) > 1 else notes21.Note(names[0])
                    made.duration.quarterLength = event.ticks / given.divisions
                    if tab:
                        for tone in event.notes:
                            made.articulations += [articulations.StringIndication(tone.string), articulations.FretIndication(tone.fret)]
                    measure.append(made)
                part.append(measure)
        whole.insert(0, part)
    exporter = GeneralObjectExporter(whole)
    exporter.makeNotation = False
    return bytes(exporter.parse())


def best(run: Callable[[], object], times: int) -> float:
    """The shortest of some runs, in seconds."""
    found = []
    for _ in range(times):
        start = time.process_time()
        run()
        found.append(time.process_time() - start)
    return min(found)


def measure(notes: int, *, marked: bool, with_reference: bool) -> dict[str, float]:
    """Microseconds a played note of each way, the writer's ratio to the floor, and its peak memory in bytes a note."""
    given = study(notes, marked=marked)
    events = [event for each in given.sections for one in each.bars for event in one.voices[0]]
    played = sum(len(event.notes) for event in events)
    times = 5 if notes <= 20_000 else 2
    bare = best(lambda: floor(events), times)
    ours = best(lambda: write(given, DEFAULTS), times)
    tracemalloc.start()
    write(given, DEFAULTS)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    figures = {
        "notes": played,
        "floor": bare / played * 1e6,
        "writer": ours / played * 1e6,
        "ratio": ours / bare,
        "bytes a note at peak": peak / played,
    }
    if with_reference:
        figures["music21"] = best(lambda: reference(given), 1) / played * 1e6
        figures["music21 : writer"] = figures["music21"] / figures["writer"]
    return figures


def main() -> None:
    sizes = [int(each) for each in sys.argv[1:]] or [1_000, 10_000, 100_000]
    for marked in (False, True):
        for size in sizes:
            figures = measure(size, marked=marked, with_reference=size <= 1_000)
            told = "  ".join(f"{name} {number:,.4g}" if number < 1000 else f"{name} {number:,.0f}" for name, number in figures.items())
            print("marked" if marked else "plain ", told)


if __name__ == "__main__":
    assert DIVISIONS % 480 == 0
    main()
