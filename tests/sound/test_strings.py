"""A string sounds like a string: how it is plucked, how it dies, what damps it."""

from __future__ import annotations

import numpy as np
import pytest

from tabforge.sound.drone import with_drone
from tabforge.sound.options import TrackOptions
from tabforge.sound.strings import noise, pluck, ring_of
from tabforge.sound.timbre import BANJO, BASS, NYLON, STEEL, Timbre, loudness, timbre_of, voiced
from tabforge.sound.tracks import tracks
from tests.sound.ears import BAR, DIVISIONS, RATE, onsets, performance, piece, pitch, read_wav, sound

PLAIN = Timbre(ring=5.0, high=1.0, bright=4000.0, pick=0.2)


def partial(wave: np.ndarray, hz: float) -> float:
    """How strong a signal is at a frequency."""
    time = np.arange(len(wave)) / RATE
    return float(abs(np.sum(wave * np.hanning(len(wave)) * np.exp(-2j * np.pi * hz * time))))


def centre(wave: np.ndarray) -> float:
    """The middle of its spectrum in hertz."""
    power = np.abs(np.fft.rfft(wave.astype(float))) ** 2
    return float(np.sum(np.fft.rfftfreq(len(wave), 1 / RATE) * power) / np.sum(power))


def above(wave: np.ndarray, hz: float) -> float:
    """The part of its energy that lies above a frequency."""
    power = np.abs(np.fft.rfft(wave * np.hanning(len(wave)))) ** 2
    return float(power[np.fft.rfftfreq(len(wave), 1 / RATE) > hz].sum() / power.sum())


@pytest.mark.parametrize(("place", "missing"), [(1 / 2, 2), (1 / 3, 3), (1 / 4, 4), (1 / 5, 5)])
def test_a_partial_with_a_node_where_it_is_plucked_is_missing(place: float, missing: int) -> None:
    """An ideal string plucked at 1/n of its length lacks every nth partial (acoustics, textbook; from memory)."""
    wave = pluck(110.0, 0.5, Timbre(ring=5.0, high=2.0, bright=4000.0, pick=place), 3)
    for number in (missing, 2 * missing):
        assert partial(wave, 110 * number) < 0.03 * min(partial(wave, 110 * (number - 1)), partial(wave, 110 * (number + 1)))


@pytest.mark.parametrize("hz", [55.0, 110.0, 246.9, 659.3])
def test_the_fundamental_dies_in_the_time_it_is_given(hz: float) -> None:
    wave = pluck(hz, 3.0, PLAIN, 3).astype(float)
    early, late = (partial(piece(wave, start, 0.4), hz) for start in (0.2, 1.2))
    assert 20 * np.log10(early / late) == pytest.approx(60 / ring_of(hz, PLAIN), rel=0.05)


@pytest.mark.parametrize("hz", [82.4, 110.0, 246.9])
def test_what_lies_high_dies_sooner_in_the_time_it_is_given(hz: float) -> None:
    near = round(3000 / hz) * hz
    wave = pluck(hz, 1.5, Timbre(ring=5.0, high=1.0, bright=6000.0, pick=0.07), 3).astype(float)
    early, late = (partial(piece(wave, start, 0.2), near) for start in (0.1, 0.6))
    assert 20 * np.log10(early / late) == pytest.approx(0.5 * 60 / 1.0, rel=0.15)


def test_strings_of_nylon_are_darker_than_steel_and_basses_darkest() -> None:
    colours = [centre(pluck(110.0, 1.0, timbre, 3)) for timbre in (BASS, NYLON, STEEL, BANJO)]
    assert colours == sorted(colours)
    assert colours[3] > 1.5 * colours[1]


def test_thick_strings_ring_longer_than_thin_ones() -> None:
    assert ring_of(82.4, STEEL) > 1.3 * ring_of(329.6, STEEL) > 1.6 * ring_of(1318.5, STEEL)


def rest(kind: str, attack: str = "pick", velocity: int = 100) -> np.ndarray:
    return pluck(110.0, 1.0, voiced(timbre_of(26, "line"), sound(45, 0, kind=kind, attack=attack, velocity=velocity)), 3).astype(float)


def test_palm_mutes_and_dead_notes_are_damped() -> None:
    loud = {kind: np.abs(rest(kind)) for kind in ("note", "muted", "dead")}
    left = {kind: float(piece(wave, 0.35, 0.1).max(initial=0.0) / wave.max()) for kind, wave in loud.items()}
    assert left["note"] > 0.3
    assert left["muted"] < 0.15
    assert left["dead"] < 0.001
    assert np.abs(piece(rest("dead"), 0.08, 0.1)).max(initial=0.0) < 0.05


def test_a_hammered_note_is_softer_to_the_ear_than_a_picked_one() -> None:
    picked, hammered, gentle = (piece(wave, 0.01, 0.1) for wave in (rest("note"), rest("note", "slur"), rest("note", velocity=20)))
    assert above(hammered, 1500) < 0.4 * above(picked, 1500)
    assert above(gentle, 1500) < 0.5 * above(picked, 1500)
    assert loudness(1) < loudness(64) < loudness(127) == 1


def test_sounds_too_high_for_the_loop_are_still_sounds() -> None:
    for hz in (5600.0, 9000.0, 13000.0):
        wave = pluck(hz, 0.5, STEEL, 3).astype(float)
        assert pitch(wave[100:], hz) == pytest.approx(hz, rel=2e-4)
        assert np.isfinite(wave).all()


def test_chance_is_the_generator_it_says_it_is() -> None:
    """The first outputs of SplitMix64 from state 0, as its authors' program prints them (from memory)."""
    first = [0xE220A8397B1DCDAF, 0x6E789E6AA1B965F4, 0x06C45D188009454F]
    assert noise(0, 3).tolist() == pytest.approx([(each >> 11) * 2.0**-52 - 1 for each in first], abs=1e-15)
    assert abs(noise(7, 10_000).mean()) < 0.03
    assert noise(7, 5).tolist() != noise(8, 5).tolist()


def test_a_drone_is_struck_in_every_bar_deep_on_the_root() -> None:
    given = performance([sound(60, quarter, 1) for quarter in range(8)], bars=2, tempo=120)
    droned = with_drone(given, {0: 58}, [0, BAR])
    drones = [each for each in droned.sounds if each.part == "drone"]
    assert [(each.start, each.ticks, each.midi) for each in drones] == [(0, BAR, 46), (BAR, BAR, 46)]
    signal = read_wav(next(tracks(droned, TrackOptions(parts=("drone",)))).data)
    assert onsets(signal)[0] == pytest.approx(0.25, abs=0.015)  # it begins softly
    assert pitch(piece(signal, 0.5, 1.2), 116.54) == pytest.approx(116.54, rel=3e-4)  # Bb2, equal temperament, from memory
    assert with_drone(droned, {0: 58}, [0, BAR]) is droned  # it has its drone
    assert with_drone(given, {1: 58}, [0, BAR]) is given  # its section has no root


def test_a_vamp_is_softer_and_darker_than_the_line() -> None:
    loud, soft = (read_wav(next(tracks(performance([sound(57, 0, 4, part=part)]), TrackOptions())).data) for part in ("line", "vamp"))
    assert np.abs(soft).max() < 0.85 * np.abs(loud).max()
    assert centre(soft) < 0.95 * centre(loud)
    assert DIVISIONS == 480
