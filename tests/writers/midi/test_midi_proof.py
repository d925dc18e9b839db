"""Pitches, onsets and durations of our MIDI files, read by mido and by music21, against music21's own reading of our MusicXML.

What is played otherwise than it is written (techniques, swing, spread chords, grace notes) is taken out of the scores first; the rest must
be equal to the tick. The rules of the file as such hold for scores with everything in them.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from io import BytesIO
from itertools import pairwise
from pathlib import Path
from typing import Any

import mido
import pytest
from hypothesis import HealthCheck, given, settings

from tabforge.model.events import NOTHING_ATTACHED, Event
from tabforge.model.score import BACKINGS, Backing, Bar, BarLine, Score, Section
from tabforge.performance import perform
from tabforge.pipeline import study_from
from tabforge.writers.midi import write
from tabforge.writers.musicxml import write as write_musicxml
from tabforge.writers.options import WriteOptions
from tests.proof.readsigns import parse
from tests.proof.scores import bar, note, one_bar, pitches, rest, score, section, tuplet, voice
from tests.proof.strategies import scores
from tests.writers.midi.reading import read

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.riff"))

Heard = list[tuple[Fraction, Fraction, int]]
"""Onset and length in quarter notes, and key, in order."""


def plain(given: Score) -> Score:
    """The score's first voice without all that is not played as it is written.

    A repeat without a beginning goes back to the beginning of its section here, and of the piece in music21: each section gets the sign.
    """

    def event(each: Event) -> Event:
        notes = tuple(replace(note, marks=(), pluck=None) for note in each.notes)
        return replace(each, notes=notes, marks=(), attached=NOTHING_ATTACHED)

    def of(each: Bar) -> Bar:
        events = tuple(event(one) for one in each.voices[0] if one.grace is None)
        return replace(each, voices=(events,), signs=(), tempo=None, tempo_change=None)

    bare = {"swing": None, "backing": (), "click": False, "count_in": 0}
    sections = []
    for each in given.sections:
        bars = [of(one) for one in each.bars]
        if any(one.right.repeat for one in bars) and not any(one.left.repeat for one in bars):
            bars[0] = replace(bars[0], left=replace(bars[0].left, repeat="forward"))
        sections.append(replace(each, bars=tuple(bars), **bare))
    return replace(given, sections=tuple(sections))


def by_mido(data: bytes) -> Heard:
    return sorted((key.start, key.length, key.key) for key in read(data).keys)


def of_stream(stream: Any) -> Heard:
    """The notes of a stream, tied ones joined by their ties: music21's own joining compares rounded times and misses some."""
    found: Heard = []
    going_on: dict[int, int] = {}
    for element in stream.flatten().notes:
        if type(element).__name__ not in {"Note", "Chord"}:
            continue  # a chord symbol
        start = Fraction(element.offset).limit_denominator(100_000)
        length = Fraction(element.duration.quarterLength).limit_denominator(100_000)
        for each in element.notes if element.isChord else [element]:
            key, tie = each.pitch.midi, each.tie.type if each.tie is not None else ""
            if tie in {"continue", "stop"} and key in going_on:
                place = going_on[key]
                found[place] = (found[place][0], found[place][1] + length, key)
            else:
                going_on[key] = len(found)
                found.append((start, length, key))
            if tie not in {"start", "continue"}:
                going_on.pop(key)
    return sorted(found)


def written(given: Score) -> Heard:
    """What music21 reads in the notation of the same score, repeats played out and ties joined."""
    document: Any = parse(write_musicxml(given, WriteOptions(staves="notation"))[0])
    part = document.parts[0]
    if any(each.right.repeat for section in given.sections for each in section.bars):
        part = part.expandRepeats()
    return of_stream(part)


def by_music21(data: bytes) -> Heard:
    from music21 import converter

    stream: Any = converter.parseData(data, format="midi", quantizePost=False)
    return sorted(each for part in stream.parts for each in of_stream(part))


STUDIES = {
    "a scale": one_bar(pitches("e", "C4 D4 E4 F4 G4 A4 B4 C5")),
    "tuplets": one_bar(
        tuplet("3:2", "e", pitches("e", "C4 D4 E4")), tuplet("5:4", "s", pitches("s", "C4 D4 E4 F4 G4")), rest("q"), note("q", "1:3")
    ),
    "chords and ties": score(
        section(
            bar(voice(note("h", "6:3 5:2 4:0"), note("h", "6:3 5:2 4:0", tie="out"))),
            bar(voice(note("q", "6:3 5:2 4:0", tie="in"), rest("q"), note("h", "2:1", tie="out")), right=BarLine(repeat="backward")),
            bar(voice(note("w", "2:1", tie="in"))),
        )
    ),
    "endings": score(
        section(
            bar(voice(note("w", "1:0"))),
            bar(voice(note("w", "1:1")), left=BarLine(endings=(1,)), right=BarLine(endings=(1,), repeat="backward")),
            bar(voice(note("h", "1:2"), rest("h")), left=BarLine(endings=(2,)), right=BarLine(endings=(2,))),
        )
    ),
    "a pickup": score(section(bar(voice(note("q", "1:0")), partial=True), bar(voice(note("h", "1:1"), note("h", "1:3"))))),
}  # fmt: skip


@pytest.mark.parametrize("name", STUDIES)
def test_two_readers_hear_what_a_third_sees(name: str) -> None:
    data = write(STUDIES[name])[0]
    assert by_mido(data) == written(STUDIES[name])
    assert by_music21(data) == written(STUDIES[name])


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_examples_are_heard_as_they_are_written(path: Path) -> None:
    found = study_from(path.name, path.read_bytes()).score
    assert found is not None
    assert len(read(write(found)[0]).keys) >= sum(1 for sound in perform(found).sounds if sound.part == "line")
    bare = plain(found)
    assert by_mido(write(bare)[0]) == written(bare)


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(scores())
def test_any_score_is_heard_as_it_is_written(given_score: Score) -> None:
    bare = plain(given_score)
    data = write(bare)[0]
    assert by_mido(data) == written(bare)


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(scores())
def test_the_rules_of_the_file_hold_for_any_score(given_score: Score) -> None:
    """``read`` holds it to pairs and to one sound of a key at a time; mido refuses what is out of a message's range."""
    data, losses = write(given_score)
    found = read(data)
    assert data == write(given_score)[0]
    assert all(key.length > 0 for key in found.keys)
    assert all(1 <= key.velocity <= 127 and key.channel != 9 for key in found.keys)
    assert all(0 <= loss.span.start <= loss.span.end for loss in losses)
    # The wheel is at rest wherever nothing sounds on its channel.
    last = {message.channel: message.pitch for _, message in found.of_type("pitchwheel")}
    assert set(last.values()) <= {0}
    for track in range(6):
        mine = sorted((key for key in found.keys if key.channel == track), key=lambda key: key.start)
        one_voice = all(len(each.voices) == 1 for section in given_score.sections for each in section.bars)
        assert not one_voice or all(one.end <= two.start for one, two in pairwise(mine))


@settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck))
@given(scores())
def test_second_parts_keep_the_rules_too(given_score: Score) -> None:
    """Every voice once more as a drone and as a vamp, with all its marks, and clicks; with seven strings the channels do not suffice."""

    def accompanied(each: Section) -> Section:
        bars = tuple(one.voices[-1] for one in each.bars)
        return replace(each, backing=tuple(Backing(kind=kind, bars=bars) for kind in BACKINGS), click=True, count_in=1)

    found = read(write(replace(given_score, sections=tuple(map(accompanied, given_score.sections))))[0])
    assert found.names[1:] in (["Guitar", "Drone", "Vamp", "Click"], ["Guitar", "Click"])  # all may be silent
    channels = {name: {key.channel for key in found.keys if key.track == name} for name in found.names[1:]}
    assert channels["Click"] == {9}
    assert sum(map(len, channels.values())) == len(set().union(*channels.values()))


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(scores())
def test_a_performance_is_in_order_for_any_score(given_score: Score) -> None:
    played = perform(given_score)
    for row in (played.sounds, played.clicks, played.tempos, played.meters, played.texts):
        ticks = [each.start if hasattr(each, "start") else each.tick for each in row]
        assert ticks == sorted(ticks)
        assert not ticks or 0 <= ticks[0] <= ticks[-1] <= played.ticks
    for sound in played.sounds:
        points = [point.tick for point in sound.bend]
        assert sound.ticks > 0
        assert points == sorted(set(points))
        assert not points or (points[0] == 0 and points[-1] <= sound.ticks)
    assert all(point.quarters > 0 for point in played.tempos)
    assert played.tempos[0].tick == played.meters[0].tick == 0


def test_mido_takes_as_long_as_the_tempo_says() -> None:
    """Four quarters at 120 a minute, where no tempo is said (SMF 1.0's default), are two seconds."""
    assert mido.MidiFile(file=BytesIO(write(one_bar(note("w", "1:3")))[0])).length == pytest.approx(2)
