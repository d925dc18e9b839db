"""Not too loud, and no jump where sounds, repeats and rungs meet."""

from __future__ import annotations

import io

import numpy as np
import pytest
import soundfile

from tabforge.performance.model import Performance
from tabforge.sound.level import level
from tabforge.sound.options import TrackOptions
from tabforge.sound.rungs import REST
from tabforge.sound.timbre import ATTACKS, KINDS
from tabforge.sound.tracks import tracks
from tests.sound.ears import RATE, Wave, performance, piece, read_wav, sound

UNDER_ONE = 10 ** (-1 / 20)
"""-1 dBFS as a part of full scale."""


def chords() -> Performance:
    """Six strings at once, as loud as can be, every sixteenth."""
    grip = (40, 47, 52, 56, 59, 64)
    struck = [sound(midi, step / 4, 1, velocity=127, string=6 - number) for step in range(16) for number, midi in enumerate(grip)]
    return performance(struck, click=True)


@pytest.mark.parametrize("program", [25, 26, 28, 31, 34, 106])
def test_the_loudest_stays_under_one_decibel_below_full_scale(program: int) -> None:
    loud = Performance(**{name: getattr(chords(), name) for name in Performance.__dataclass_fields__} | {"program": program})
    for track in tracks(loud, TrackOptions(stems=True, ladder=(100.0, 200.0))):
        peak = np.abs(read_wav(track.data)).max()
        assert peak < UNDER_ONE
        assert 20 * np.log10(peak) == pytest.approx(track.peak, abs=0.01)


def test_nor_does_it_when_mp3_is_decoded() -> None:
    signal, rate = soundfile.read(io.BytesIO(next(tracks(chords(), TrackOptions(form="mp3"))).data))
    assert rate == RATE
    assert 0.5 < np.abs(signal).max() < UNDER_ONE


@pytest.mark.parametrize("seed", range(5))
def test_no_sample_passes_the_limit_whatever_comes(seed: int) -> None:
    chance = np.random.default_rng(seed)
    length = int(chance.integers(1, 40_000))
    wave = (chance.standard_normal(length) * 10 ** chance.uniform(-3, 1, length)).astype(np.float32)
    wave[chance.integers(0, length, 20)] *= 50
    level(wave)
    assert np.abs(wave).max() < UNDER_ONE


def test_what_is_soft_is_only_raised() -> None:
    wave = np.float32(0.004) * np.sin(np.arange(RATE, dtype=np.float32) / 20)
    raised = wave.copy()
    level(raised)
    assert np.abs(raised / wave.max() - raised.max() / wave.max() * wave / wave.max()).max() < 1e-3


def test_loud_and_soft_come_nearer_but_stay_in_order() -> None:
    made = [next(tracks(performance([sound(57, 0, 4, velocity=velocity)]), TrackOptions())) for velocity in (20, 64, 127)]
    peaks = [np.abs(read_wav(track.data)).max() for track in made]
    assert peaks == sorted(peaks)
    assert peaks[2] / peaks[0] > 4


def steepest(signal: Wave) -> float:
    """The largest bend between three samples: a click has a large one."""
    return float(np.abs(np.diff(signal, 2)).max(initial=0.0))


def test_a_long_sound_goes_over_the_join_without_a_jump() -> None:
    held = performance([sound(45, 0, 4)], tempo=120)
    signal = read_wav(next(tracks(held, TrackOptions(times=4))).data)
    within = max(steepest(piece(signal, REST + 2 * time + 0.1, 1.7)) for time in range(4))
    for time in range(1, 5):  # the release of the last one alone, before the next begins to sound
        assert steepest(piece(signal, REST + 2 * time - 0.05, 0.0499)) < 1.5 * within
    assert steepest(piece(signal, REST + 8, 1.5)) < 1.5 * within


def test_a_sound_that_rings_on_is_not_cut() -> None:
    ringing = performance([sound(45, 0, 64)], tempo=120)
    signal = read_wav(next(tracks(ringing, TrackOptions())).data)
    assert np.abs(piece(signal, REST + 2.5, 0.1)).max() > 0.01  # 60 dB in six seconds are 25 in two and a half
    assert steepest(piece(signal, REST + 1.9, 2)) < 2 * steepest(piece(signal, REST + 0.1, 1.5))


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("attack", ATTACKS)
def test_every_sound_begins_and_ends_at_rest(kind: str, attack: str) -> None:
    for quarters in (0.01, 0.1, 1):
        signal = read_wav(next(tracks(performance([sound(45, 0, quarters, kind=kind, attack=attack)]), TrackOptions())).data)
        assert not signal[: round(REST * RATE)].any()
        assert np.abs(signal[-10:]).max() < 1e-3
        begins = round(REST * RATE)
        assert np.abs(signal[begins : begins + 3]).max() < 0.06
        ends = begins + round((quarters / 2 + 0.06) * RATE)
        assert np.abs(signal[ends - 3 : ends + 10]).max() < 2e-3


def test_rungs_meet_in_silence() -> None:
    made = list(tracks(chords(), TrackOptions(ladder=(80.0, 100.0), split=True)))
    for track in made:
        signal = read_wav(track.data)
        assert not signal[:100].any()
        assert np.abs(signal[-100:]).max() < 1e-3
