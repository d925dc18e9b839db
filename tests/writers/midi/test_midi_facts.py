"""Facts of the standards: MIDI 1.0 (message formats, pitch bend, registered parameters), Standard MIDI Files 1.0 (chunks, quantities, meta
events) and General MIDI level 1 (programs, percussion), all of the MIDI Association; values from memory unless mido reads them.
"""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import mido
import pytest

from tabforge.fretboard.instruments import INSTRUMENTS
from tabforge.model.events import Attached, Word
from tabforge.model.meter import Tempo
from tabforge.model.score import Backing, BarLine, Score
from tabforge.model.values import BY_LETTER
from tabforge.performance.model import BendPoint, Sound
from tabforge.source import Span
from tabforge.writers.midi import write
from tabforge.writers.midi.channels import assigned
from tabforge.writers.midi.chunks import varied
from tabforge.writers.midi.wheels import position, positions, range_for
from tests.proof.scores import A_MINOR, BASS, E_MAJOR, UKULELE, Item, bar, note, one_bar, rest, score, section, voice
from tests.writers.midi.reading import Read, read


def written(*items: Item | list[Item]) -> Read:
    return read(write(one_bar(*items))[0])


@pytest.mark.parametrize(
    ("number", "data"),
    [
        (0x00, "00"), (0x40, "40"), (0x7F, "7F"), (0x80, "81 00"), (0x2000, "C0 00"), (0x3FFF, "FF 7F"), (0x4000, "81 80 00"),
        (0x100000, "C0 80 00"), (0x1FFFFF, "FF FF 7F"), (0x200000, "81 80 80 00"), (0x8000000, "C0 80 80 00"), (0xFFFFFFF, "FF FF FF 7F"),
    ],
)  # fmt: skip
def test_quantities_are_those_of_the_standards_table(number: int, data: str) -> None:
    """Standard MIDI Files 1.0 prints this table as its examples of variable-length quantities (from memory)."""
    assert varied(number) == bytes.fromhex(data)


@pytest.mark.parametrize(("place", "key"), [("6:0", 40), ("5:0", 45), ("4:0", 50), ("3:0", 55), ("2:0", 59), ("1:0", 64), ("2:1", 60)])
def test_middle_c_is_key_60(place: str, key: int) -> None:
    """MIDI 1.0: key 60 is middle C. The guitar's open strings are E2 A2 D3 G3 B3 E4 (common practice)."""
    assert [each.key for each in written(note("w", place)).keys] == [key]


@pytest.mark.parametrize(("cents", "half_steps", "value"), [
    (0, 2, 8192), (200, 2, 16383), (-200, 2, 0), (100, 2, 12288), (-100, 2, 4096), (50, 2, 10240), (1200, 12, 16383), (600, 12, 12288),
    (100, 12, 8875), (9000, 2, 16383),
])  # fmt: skip
def test_wheel_positions(cents: float, half_steps: int, value: int) -> None:
    """MIDI 1.0: fourteen bits, 8192 at rest; the range in half steps either way is registered parameter 0."""
    assert position(cents, half_steps) == value


@pytest.mark.parametrize(("way", "half_steps"), [((0, 200), 2), ((0, 201), 12), ((-1200,), 12), ((0, 1300), 24), ((0, 2500), 48)])
def test_the_smallest_range_that_does_is_asked_for(way: tuple[float, ...], half_steps: int) -> None:
    bend = tuple(BendPoint(tick, cents) for tick, cents in enumerate(way))
    assert range_for([Sound(part="line", start=0, ticks=100, midi=60, velocity=80, string=1, bend=bend)]) == half_steps


def test_a_pitch_between_the_keys_is_wheeled_from_the_start() -> None:
    sound = Sound(part="line", start=0, ticks=100, midi=60, velocity=80, string=1, cents=50)
    assert list(positions(sound, 2)) == [(0, 10240)]
    (key,) = written(note("w", "1:0", spell="E4-40")).keys
    assert key.key == 64
    assert key.wheel[0][1] == pytest.approx(-40, abs=0.02)


def test_the_range_is_told_to_every_channel_before_anything_sounds() -> None:
    """Controllers 101 and 100 choose parameter 0, 6 and 38 are its half steps and cents, 127 and 127 close it (MIDI 1.0)."""
    found = written(note("h", "1:3", marks="ss:start"), note("h", "1:8", marks="ss:stop"))
    controls = [(m.channel, m.control, m.value) for at, m in found.of_type("control_change") if at == 0]
    for channel in range(6):
        assert [each[1:] for each in controls if each[0] == channel] == [(101, 0), (100, 0), (6, 12), (38, 0), (101, 127), (100, 127)]
    assert {m.channel: m.pitch for at, m in found.of_type("pitchwheel")[:6] if at == 0} == dict.fromkeys(range(6), 0)


def test_a_bend_of_a_whole_step_bends_one_string() -> None:
    (bent,), (still,) = note("w", "3:7", marks="b1").notes, note("w", "2:8").notes
    plain, moved = written(replace(note("w", "2:8"), notes=(still, bent))).keys
    assert (plain.channel, moved.channel) == (1, 2)
    assert {cents for _, cents in plain.wheel} == {0}
    assert max(cents for _, cents in moved.wheel) == pytest.approx(200, abs=0.03)  # one position short of the range


def test_the_wheel_is_set_before_the_stroke_and_put_back_after_the_note() -> None:
    data = write(one_bar(note("h", "2:8", marks="pb1"), note("h", "2:8")))[0]
    kinds = [
        (message.type, getattr(message, "pitch", None))
        for message in mido.MidiFile(file=BytesIO(data)).tracks[1]
        if not message.is_meta and message.channel == 1 and message.type in {"note_on", "note_off", "pitchwheel"}
    ]
    on, off = ("note_on", None), ("note_off", None)
    assert kinds == [("pitchwheel", 0), ("pitchwheel", 8191), on, off, ("pitchwheel", 0), on, off]


def test_each_string_has_a_channel_and_none_is_percussion() -> None:
    for strings in range(1, 13):
        channels = assigned(("line",), strings)["line"]
        numbers = [channels.of(string) for string in range(1, strings + 1)]
        assert len(set(numbers)) == strings
        assert 9 not in numbers  # channel 10 as musicians count: General MIDI's percussion
        assert max(numbers) < 16


@pytest.mark.parametrize(
    ("strings", "shared"),
    [(5, [False] * 3), (6, [False, False, True]), (7, [False, False, True]), (8, [False, True, True]), (12, [False, True, True])],
)
def test_second_parts_share_where_room_is_short(strings: int, shared: list[bool]) -> None:
    """Fifteen channels are not percussion."""
    found = list(assigned(("line", "drone", "vamp"), strings).values())
    assert [each.shared for each in found] == shared
    numbers = [number for each in found for number in each.numbers]
    assert len(numbers) == len(set(numbers)) <= 15
    assert 9 not in numbers


@pytest.mark.parametrize(("instrument", "program"), [(UKULELE, 24), (BASS, 33)])
def test_programs_are_counted_from_nought_in_the_file(instrument: object, program: int) -> None:
    """General MIDI level 1: 25 acoustic guitar (nylon), 34 electric bass (finger), as the list counts from 1."""
    given = score(section(bar(voice(note("w", "1:3"))), strings=instrument.tuning), instrument=instrument)  # type: ignore[attr-defined, arg-type]
    assert {message.program for _, message in read(write(given)[0]).of_type("program_change")} == {program}


def test_every_instrument_has_a_plucked_program() -> None:
    """General MIDI level 1's families: 25-32 guitars, 33-40 basses, 105-108 plucked ones of the "ethnic" family, 16 the dulcimer."""
    programs = {each.program for each in INSTRUMENTS.values()}
    assert programs <= {*range(25, 41), *range(105, 109), 16}


def test_tempo_meter_and_key() -> None:
    """SMF 1.0: microseconds a quarter note; numerator, power of two, clocks a click (24 a quarter), 8; sharps or flats, 0 major 1 minor."""
    tempo = Tempo(bpm=60, beat=BY_LETTER["q"], dots=1)
    first = section(bar(voice(note("h.", "1:3")), meter="6/8", tempo=tempo), scale=E_MAJOR)
    given = score(first, section(bar(voice(note("w", "1:3"))), scale=A_MINOR))
    data = write(given)[0]
    assert bytes.fromhex("FF 51 03 0A 2C 2B") in data  # 666 667 microseconds: 90 a minute
    assert bytes.fromhex("FF 58 04 06 03 24 08") in data
    assert bytes.fromhex("FF 59 02 04 00") in data  # E major has four sharps
    assert bytes.fromhex("FF 58 04 04 02 18 08") in data
    assert bytes.fromhex("FF 59 02 00 01") in data  # A minor
    assert [message.key for _, message in read(data).of_type("key_signature")] == ["E", "Am"]


def test_words_markers_and_names() -> None:
    items = [note("h", "1:3", attached=Attached(word=word)) for word in (Word(text="sal", hyphen=True), Word(text="è"))]
    found = read(write(score(section(bar(voice(*items)), title="Möwen"), title="Hafen – früh"))[0])
    assert found.names == ["Hafen – früh", "Guitar"]
    assert [(at, message.text) for at, message in found.of_type("lyrics")] == [(0, "sal-"), (2, "è")]
    assert [message.text for _, message in found.of_type("marker")] == ["Möwen"]


def test_two_strings_at_one_pitch_on_one_channel_are_one_key() -> None:
    """MIDI 1.0 has no two of a key on a channel; ``read`` refuses them."""
    drone = Backing(kind="drone", bars=(voice(note("w", "6:0")),))
    vamp = Backing(kind="vamp", bars=(voice(note("h", "2:5 1:0"), note("q", "1:0", marks="lr"), note("q", "2:5")),))
    keys = read(write(score(section(bar(voice(note("w", "1:3"))), backing=(drone, vamp))))[0]).keys
    assert [(each.start, each.length, each.key) for each in keys if each.track == "Vamp"] == [(0, 2, 64), (2, 1, 64), (3, 1, 64)]


def test_clicks_are_percussion() -> None:
    """General MIDI level 1 percussion: 76 high wood block, 77 low wood block, on channel 10."""
    found = read(write(score(section(bar(voice(rest("w"))), click=True, count_in=1)))[0])
    clicks = [(each.start, each.key) for each in found.keys if each.channel == 9]
    assert clicks == [(0, 76), (1, 77), (2, 77), (3, 77), (4, 76), (5, 77), (6, 77), (7, 77)]
    assert found.names[-1] == "Click"


def test_a_swell_is_expression() -> None:
    found = written(note("w", "1:7", marks="sw"))
    values = [message.value for _, message in found.of_type("control_change") if message.control == 11 and message.channel == 0]
    assert values[0] == 127
    assert values[1] == 0
    assert values[-1] == 127
    assert values[1:] == sorted(values[1:])


def fine(divisions: int) -> Score:
    return score(section(bar(voice(note("q", "1:3"), note("q", "1:5"), note("h", "1:7"), divisions=divisions))), divisions=divisions)


@pytest.mark.parametrize("divisions", [480, 30240, 32640, 33120, 49_999_680])
def test_ticks_a_quarter_fit_fifteen_bits(divisions: int) -> None:
    found = read(write(fine(divisions))[0])
    assert found.division <= 32767
    assert [(each.start, each.length) for each in found.keys] == [(0, 1), (1, 1), (2, 2)]


def test_what_no_key_has_is_told_and_left_out() -> None:
    """MIDI 1.0 has keys 0 to 127; with middle C as C4 the last is G9."""
    data, losses = write(one_bar(note("h", "1:0", spell="G9"), note("h", "1:1", spell="G#9")))
    assert [each.key for each in read(data).keys] == [127]
    assert [(each.what, each.span) for each in losses] == [("a pitch beyond the keys of MIDI", Span(1, 2))]


def test_a_silence_longer_than_a_quantity_is_passed_in_steps() -> None:
    """SMF 1.0: the largest variable-length quantity is 0x0FFFFFFF."""
    finest = 480 * 68
    far = 0x0FFFFFFF * 2 // (finest * 4) + 3
    rests = [bar(voice(rest("w"), divisions=finest))] * far
    given = score(section(*rests, bar(voice(note("w", "1:0"), divisions=finest)), *rests), divisions=finest)
    found = read(write(given)[0])
    assert [each.start for each in found.keys] == [4 * far]
    assert found.ends == [4 * (2 * far + 1)] * 2


def test_a_study_without_music_is_a_file_too() -> None:
    assert read(write(score())[0]).keys == []


def test_repeats_that_are_too_many_are_told() -> None:
    long = score(section(bar(voice(note("w", "1:0")), right=BarLine(repeat="backward", times=999_999))))
    data, losses = write(long)
    assert len(read(data).keys) == 1
    assert [each.what for each in losses] == ["repeats and jumps"]


@pytest.mark.parametrize("form", ["x", "ph", "rk", "sc"])
def test_what_midi_has_no_message_for_is_told_in_its_place(form: str) -> None:
    _, losses = write(one_bar(rest("h"), note("h", "1:7", marks=form)))
    assert [each.span for each in losses] == [Span(1, 2)]


def test_a_bend_in_a_part_whose_strings_share_a_channel_is_told() -> None:
    vamp = Backing(kind="vamp", bars=(voice(note("w", "3:7", marks="b1")),))
    drone = Backing(kind="drone", bars=(voice(note("w", "6:0")),))
    data, losses = write(score(section(bar(voice(note("w", "1:0"))), backing=(drone, vamp))))
    assert [each.what for each in losses] == ["a bent note in the vamp"]
    found = read(data)
    assert found.names == ["Lantern Bay", "Guitar", "Drone", "Vamp"]
    assert {each.track: each.channel for each in found.keys} == {"Guitar": 0, "Drone": 12, "Vamp": 13}
    assert all(cents == 0 for each in found.keys for _, cents in each.wheel)
