"""The files: read back by others, the same bytes again, and what is said where there are none."""

from __future__ import annotations

import hashlib
import io
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import soundfile

from tabforge import limits
from tabforge.performance.model import BendPoint, Performance
from tabforge.sound.encode import INSTALL, missing
from tabforge.sound.options import TrackOptions
from tabforge.sound.tracks import refusal, tracks
from tests.cli.conftest import environment
from tests.sound.ears import RATE, performance, read_wav, sound

ROOT = Path(__file__).parents[2]


def tune() -> Performance:
    line = [sound(45 + 2 * number, number / 2, 0.5, attack=("pick", "slur")[number % 2]) for number in range(7)]
    bent = sound(62, 3.5, 0.5, bend=(BendPoint(0, 0), BendPoint(100, 200)))
    vamp = [sound(midi, 0, 4, part="vamp") for midi in (57, 61, 64)]
    return performance(sorted([*line, bent, *vamp, sound(40, 0, 4, part="drone")], key=lambda each: each.start), count_in=1, click=True)


def test_wav_is_read_alike_by_the_standard_library_and_by_soundfile() -> None:
    track = next(tracks(tune(), TrackOptions()))
    signal, rate = soundfile.read(io.BytesIO(track.data))
    assert rate == RATE
    assert np.array_equal(signal, read_wav(track.data))
    assert soundfile.info(io.BytesIO(track.data)).subtype == "PCM_16"


def test_mp3_is_decoded_to_the_same_length_and_nearly_the_same_sound() -> None:
    exact = read_wav(next(tracks(tune(), TrackOptions())).data)
    track = next(tracks(tune(), TrackOptions(form="mp3")))
    signal, rate = soundfile.read(io.BytesIO(track.data))
    assert rate == RATE
    assert len(signal) == len(exact) == round(track.seconds * RATE)
    assert np.sqrt(np.mean((signal - exact) ** 2)) < 0.1 * np.sqrt(np.mean(exact**2))
    assert len(track.data) * 4 < 2 * len(exact)


@pytest.mark.parametrize("form", ["wav", "mp3"])
def test_the_same_bytes_again_and_in_another_process(form: str) -> None:
    options = TrackOptions(form=form, ladder=(80.0, 125.0), times=2, stems=True)  # type: ignore[arg-type]
    once = [hashlib.sha256(track.data).hexdigest() for track in tracks(tune(), options)]
    assert once == [hashlib.sha256(track.data).hexdigest() for track in tracks(tune(), options)]
    assert len(set(once)) == len(once)
    program = (
        "import hashlib\nfrom tests.sound.test_files import *\n"
        f"for track in tracks(tune(), {options!r}): print(hashlib.sha256(track.data).hexdigest())"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, env=environment(), check=True, capture_output=True, text=True, timeout=120
    )
    assert done.stdout.split() == once


def test_stems_are_the_parts_and_add_up() -> None:
    made = list(tracks(tune(), TrackOptions(stems=True)))
    assert [track.stem for track in made] == [None, "line", "drone", "vamp", "click"]
    assert len({track.seconds for track in made}) == 1
    whole, *parts = (read_wav(track.data) for track in made)
    # Each is levelled by itself, so they add up in shape and not to the sample.
    assert np.corrcoef(whole, sum(parts))[0, 1] > 0.97
    assert all(np.abs(part).max() > 0.02 for part in parts)


def test_a_part_that_is_not_wanted_is_not_heard() -> None:
    made = list(tracks(tune(), TrackOptions(parts=("line", "click"), stems=True)))
    assert [track.stem for track in made] == [None, "line", "click"]
    assert made[0].data != next(tracks(tune(), TrackOptions())).data
    assert made[1].data == list(tracks(tune(), TrackOptions(stems=True)))[1].data


def test_split_ladders_have_a_file_for_each_rung_and_part() -> None:
    made = list(tracks(tune(), TrackOptions(ladder=(70.0, 90.0), split=True, stems=True, parts=("line", "drone"))))
    each = [(percent, stem) for percent in (70.0, 90.0) for stem in (None, "line", "drone")]
    assert [(track.percent, track.stem) for track in made] == each


@pytest.mark.parametrize(("options", "said"), [
    (TrackOptions(a4=399.0), "400 to 480"),
    (TrackOptions(a4=float("nan")), "400 to 480"),
    (TrackOptions(times=0), "1 to 100 times"),
    (TrackOptions(times=limits.MAX_TIMES + 1), "1 to 100 times"),
    (TrackOptions(parts=("vamp",)), "nothing to hear"),
    (TrackOptions(ladder=(10.0,), times=100), "15:00 min"),
    (TrackOptions(ladder=(100.0,) * 100, times=20), "60:00 min"),
])
def test_what_cannot_be_made_is_refused_with_its_reason(options: TrackOptions, said: str) -> None:
    given = performance([sound(57, 0, 1)], bars=2, tempo=80)
    why = refusal(given, options)
    assert why is not None
    assert said in why
    with pytest.raises(ValueError, match=said):
        next(tracks(given, options))


def test_what_lasts_too_long_for_one_file_may_be_split() -> None:
    given = performance([sound(57, 0, 1)], bars=2, tempo=80)
    assert refusal(given, TrackOptions(ladder=(100.0,) * 100, times=20, split=True)) is None


def test_nothing_sounds_in_nothing() -> None:
    silent = replace(performance([], click=False), sounds=())
    assert refusal(silent, TrackOptions()) == "There is nothing to hear in it."


@pytest.mark.parametrize(("form", "absent", "lacking"), [
    ("wav", ["numpy"], "numpy"),
    ("mp3", ["numpy", "soundfile"], "numpy and soundfile"),
    ("mp3", ["soundfile"], "soundfile"),
    ("wav", ["soundfile"], None),
])
def test_what_is_not_installed_is_said_plainly(form: str, absent: list[str], lacking: str | None, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in absent:
        monkeypatch.setitem(sys.modules, name, None)  # type: ignore[arg-type]  # None makes its import fail
    assert missing(form) == (f"Practice tracks need {lacking}. Install with: {INSTALL}" if lacking else None)
