"""From the text of a study to its track: every technique there is can be heard."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tabforge.performance import PlayOptions, perform
from tabforge.pipeline import study_from
from tabforge.sound.options import TrackOptions
from tabforge.sound.rungs import REST, TAIL
from tabforge.sound.tracks import tracks
from tests.sound.ears import RATE, onsets, piece, pitch, read_wav

CASES = Path(__file__).parents[1] / "cases"
STUDIES = sorted(CASES.glob("techniques/*.riff")) + sorted(CASES.glob("instruments/*.riff"))

# Bb lydian from Bb2: Bb C D E F G A Bb (common practice); equal temperament from A4 = 440 Hz, from memory.
LYDIAN = (116.54, 130.81, 146.83, 164.81, 174.61, 196.00, 220.00, 233.08)
TEXT = b"scale Bb2 lydian\ntempo 120\n\nriff\n  rhythm q q q q | q q q q\n  degrees 1 2 3 4 | 5 6 7 8\n  marks st st st st | st st st st\n"


def heard(name: str, text: bytes, **play: object) -> np.ndarray:
    outcome = study_from(name, text)
    assert outcome.score is not None, outcome.diagnostics
    return read_wav(next(tracks(perform(outcome.score, PlayOptions(**play)), TrackOptions())).data)  # type: ignore[arg-type]


@pytest.mark.parametrize("path", STUDIES, ids=lambda path: path.stem)
def test_every_technique_and_instrument_is_heard(path: Path) -> None:
    signal = heard(path.name, path.read_bytes())
    assert np.abs(signal).max() < 10 ** (-1 / 20)
    assert np.sqrt(np.mean(signal**2)) > 1e-3
    assert len(signal) > (REST + TAIL) * RATE


def test_a_scale_is_played_in_tune_and_in_time() -> None:
    signal = heard("lantern.riff", TEXT)
    found = onsets(signal)
    wanted = [REST + number / 2 for number in range(8)]
    assert all(min(abs(each - start) for each in found) < 0.002 for start in wanted)
    for start, hz in zip(wanted, LYDIAN, strict=True):
        assert pitch(piece(signal, start + 0.02, 0.22), hz) == pytest.approx(hz, rel=3e-4)  # half a cent
