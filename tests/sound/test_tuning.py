"""In tune: what is heard is measured in the spectrum and compared with frequencies from outside the project."""

from __future__ import annotations

import numpy as np
import pytest
from music21.pitch import Pitch

from tabforge.performance.model import BendPoint
from tabforge.sound.options import TrackOptions
from tabforge.sound.strings import pluck
from tabforge.sound.timbre import ATTACKS, KINDS, PROGRAMS, timbre_of, voiced
from tabforge.sound.tracks import tracks
from tests.sound.ears import RATE, cents, performance, piece, pitch, read_wav, sound

# Equal temperament from A4 = 440 Hz (ISO 16:1975 for that A). The others as tables of the trade print them, to two places, from memory.
PUBLISHED = {
    "E1": 41.20, "A1": 55.00, "D2": 73.42, "E2": 82.41, "A2": 110.00, "D3": 146.83, "G3": 196.00, "B3": 246.94, "C4": 261.63, "E4": 329.63,
    "A4": 440.00, "C5": 523.25, "E5": 659.26, "A5": 880.00, "C6": 1046.50, "E6": 1318.51,
}  # fmt: skip


def rendered(midi: int, *, a4: float = 440.0, program: int = 26, **more: object) -> np.ndarray:
    made = next(tracks(performance([sound(midi, 0, 4, **more)], program=program), TrackOptions(a4=a4)))
    return read_wav(made.data)


@pytest.mark.parametrize("name", PUBLISHED)
def test_a_whole_track_is_in_tune_with_the_published_frequencies(name: str) -> None:
    heard = pitch(piece(rendered(Pitch(name).midi), 0.5, 1.2), PUBLISHED[name])
    assert abs(cents(heard, PUBLISHED[name])) < 0.5  # 0.15 of it are the table's two places at E1


@pytest.mark.parametrize("midi", range(23, 101, 3))
@pytest.mark.parametrize("program", [programs.start for programs in PROGRAMS])
def test_every_timbre_is_in_tune_over_the_range(program: int, midi: int) -> None:
    wanted = Pitch(midi=midi).frequency  # music21's
    wave = pluck(wanted, 1.2, timbre_of(program, "line"), midi).astype(float)
    assert abs(cents(pitch(wave[200:], wanted), wanted)) < 0.5


@pytest.mark.parametrize("kind", ["muted", "harmonic"])
@pytest.mark.parametrize("attack", ATTACKS)
def test_every_kind_and_attack_is_in_tune(kind: str, attack: str) -> None:
    for midi in (40, 55, 64, 76):
        wanted = Pitch(midi=midi).frequency
        timbre = voiced(timbre_of(26, "line"), sound(midi, 0, kind=kind, attack=attack))
        assert abs(cents(pitch(pluck(wanted, 1.0, timbre, 5).astype(float), wanted), wanted)) < 1


@pytest.mark.parametrize("a4", [400.0, 415.0, 432.0, 442.0, 480.0])
def test_the_concert_a_is_what_is_asked_for(a4: float) -> None:
    assert abs(cents(pitch(piece(rendered(69, a4=a4), 0.5, 1.2), a4), a4)) < 0.5
    assert abs(cents(pitch(piece(rendered(45, a4=a4), 0.5, 1.2), a4 / 4), a4 / 4)) < 0.5


@pytest.mark.parametrize("off", [-50.0, -14.0, 31.0, 50.0])
def test_cents_beside_the_note(off: float) -> None:
    wanted = 220 * 2 ** (off / 1200)
    assert abs(cents(pitch(piece(rendered(57, cents=off), 0.5, 1.2), wanted), wanted)) < 0.5


@pytest.mark.parametrize("height", [50.0, 100.0, 200.0, 300.0, -100.0, -1200.0])
def test_a_bend_arrives_at_its_height(height: float) -> None:
    way = (BendPoint(0, 0.0), BendPoint(480, height), BendPoint(1920, height))
    wanted = 220 * 2 ** (height / 1200)
    assert abs(cents(pitch(piece(rendered(57, bend=way), 0.95, 1.2), wanted), wanted)) < 1


def test_a_bend_is_released() -> None:
    way = (BendPoint(0, 200.0), BendPoint(480, 200.0), BendPoint(600, 0.0))
    signal = rendered(57, bend=way)
    assert abs(cents(pitch(piece(signal, 0.3, 0.4), 246.94), 246.94)) < 1
    assert abs(cents(pitch(piece(signal, 0.95, 1.2), 220), 220)) < 1


def test_vibrato_swings_around_its_middle() -> None:
    way = tuple(BendPoint(tick, 30.0 * (-1) ** (tick // 80)) for tick in range(0, 1920, 80))
    signal = rendered(57, bend=way)
    heard = [cents(pitch(piece(signal, start, 0.04), 220), 220) for start in np.arange(0.5, 1.5, 0.01)]
    assert max(heard) > 12
    assert min(heard) < -12


@pytest.mark.parametrize("off", [-1.5, 1.5])
def test_the_measure_hears_what_is_out_of_tune(off: float) -> None:
    for wanted in (41.2, 440.0, 1318.5):
        time = np.arange(RATE) / RATE
        wrong = np.sin(2 * np.pi * wanted * 2 ** (off / 1200) * time) * np.exp(-3 * time)
        assert cents(pitch(wrong, wanted), wanted) == pytest.approx(off, abs=0.1)


def test_kinds_have_what_a_sound_may_be() -> None:
    assert KINDS.keys() == {"note", "dead", "muted", "harmonic"}  # as the model of what is heard has them
    assert ATTACKS.keys() == {"pick", "finger", "slur", "tap", "slide", "swell"}
