"""A study's drone, vamp, click and count-in, from its text to practice tracks and MIDI.

Sources: mido, an independent reader of MIDI files; General MIDI level 1 and MIDI 1.0 (channel 10 is percussion, C4 is key 60); music21's
roman numerals for the chords of the vamp.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from music21 import key, roman
from typer.testing import Result

from tabforge.performance import PlayOptions, perform
from tabforge.pipeline import study_from
from tabforge.writers.midi import write
from tests.cli.test_tracks import BAR, REST, TAIL, names, seconds
from tests.writers.midi.reading import read

Run = Callable[..., Result]

STUDY = """\
title     Harbour lamps
scale     C3 major
tempo     120
drone     1+5 every h
vamp      I | V
backing   hide
click     on
count-in  2

riff "Lamps"
  rhythm   q q q q
  degrees  |: 1 2 3 4 | 5 4 3 2 :|

riff "Dark"
  drone     off
  vamp      off
  click     off
  count-in  0
  rhythm    h h
  degrees   1 5
"""


@pytest.fixture
def study(tmp_path: Path) -> str:
    (tmp_path / "lamps.riff").write_text(STUDY)
    return "lamps.riff"


def test_tracks_have_the_parts_that_the_study_says(tabforge: Run, study: str, tmp_path: Path) -> None:
    def stems(*options: str) -> list[str]:
        result = tabforge("tracks", study, "--stems", "--into", "out", *options)
        assert result.exit_code == 0, result.stderr
        found = [name.split(".")[1] for name in names(tmp_path / "out") if name.count(".") == 2]
        long = seconds(tmp_path / "out" / "lamps.wav")
        for path in (tmp_path / "out").iterdir():
            path.unlink()
        assert long == pytest.approx(REST + bars * BAR + TAIL, abs=1e-3)
        return found

    bars = 2 + 4 + 1  # counted twice before the first block, and not again at its repeat
    assert stems() == ["click", "drone", "line", "vamp"]
    assert stems("--no-vamp") == ["click", "drone", "line"]
    assert stems("--no-drone", "--no-line") == ["click", "vamp"]
    bars = 1 + 4 + 1 + 1
    assert stems("--count-in", "1") == ["click", "drone", "line", "vamp"]


def test_midi_has_each_part_on_a_track_of_its_own() -> None:
    given = study_from("lamps.riff", STUDY.encode()).score
    assert given is not None
    data, losses = write(given)
    assert losses == ()
    found = read(data)
    heard = {name: [each for each in found.keys if each.track == name] for name in {each.track for each in found.keys}}
    by_part = {name.split()[-1].lower(): notes for name, notes in heard.items()}
    drone = sorted((each.start, each.key) for each in by_part["drone"])
    assert drone == sorted((Fraction(8 + onset), midi) for onset in range(0, 16, 2) for midi in (48, 55))  # C3 and G3
    home = key.Key("C")
    for bar, numeral in enumerate(("I", "V", "I", "V")):
        classes = {each.key % 12 for each in by_part["vamp"] if each.start == 8 + 4 * bar}
        assert classes == set(roman.RomanNumeral(numeral, home).pitchClasses)
    assert all(each.start < 24 for each in (*by_part["drone"], *by_part["vamp"]))
    clicks = [each.start for each in found.keys if each.channel == 9]
    assert clicks == list(range(24))  # two bars counted, four played; none in the second block


def test_what_is_played_may_be_chosen() -> None:
    given = study_from("lamps.riff", STUDY.encode()).score
    assert given is not None
    bare = perform(given, PlayOptions(backing=False, click=False, count_in=0))
    assert {sound.part for sound in bare.sounds} == {"line"}
    assert (bare.clicks, bare.sounds[0].start) == ((), 0)
