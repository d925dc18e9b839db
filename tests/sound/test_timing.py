"""In time: onsets are found by their energy, lengths by counting samples."""

from __future__ import annotations

import numpy as np
import pytest

from tabforge.performance.model import Click, TempoPoint
from tabforge.sound.clock import Clock
from tabforge.sound.options import TrackOptions
from tabforge.sound.rungs import REST, TAIL
from tabforge.sound.tracks import tracks
from tests.sound.ears import RATE, Wave, onsets, performance, piece, pitch, read_wav, sound

SLACK = 0.002


def heard(given: object, **options: object) -> Wave:
    return read_wav(next(tracks(given, TrackOptions(**options))).data)  # type: ignore[arg-type]


def near(found: list[float], wanted: list[float]) -> None:
    assert len(found) == len(wanted), (found, wanted)
    assert max(abs(each - other) for each, other in zip(found, wanted, strict=True)) < SLACK


@pytest.mark.parametrize("percent", [60.0, 100.0, 133.0])
def test_notes_sound_when_they_should(percent: float) -> None:
    quarters = [0, 1, 1.75, 2, 3, 3.5]
    given = performance([sound(50 + number, quarter, 0.08) for number, quarter in enumerate(quarters)], tempo=90)
    near(onsets(heard(given, ladder=(percent,))), [REST + quarter * 60 / (90 * percent / 100) for quarter in quarters])


@pytest.mark.parametrize("kind", ["note", "muted", "dead", "harmonic"])
@pytest.mark.parametrize("attack", ["pick", "finger", "slur", "tap"])
def test_every_quick_beginning_is_in_time(kind: str, attack: str) -> None:
    given = performance([sound(57, quarter, 0.25, kind=kind, attack=attack) for quarter in range(4)])
    near(onsets(heard(given), least=0.004), [REST + quarter / 2 for quarter in range(4)])


def test_a_swell_comes_slowly() -> None:
    signal = heard(performance([sound(57, 0, 4, attack="swell")]))
    assert np.abs(piece(signal, REST, 0.02)).max() < 0.05 * np.abs(signal).max()


def test_the_tempo_may_change() -> None:
    given = performance([sound(57, quarter, 0.25) for quarter in range(4)], tempos=[TempoPoint(0, 120), TempoPoint(960, 60)])
    near(onsets(heard(given)), [REST, REST + 0.5, REST + 1, REST + 2])


def test_the_clock_against_reckoning_by_hand() -> None:
    clock = Clock([TempoPoint(480, 60), TempoPoint(0, 120), TempoPoint(960, 30)], 480, 2.0)
    assert [clock.at(tick) for tick in (0, 240, 480, 960, 1440)] == pytest.approx([0, 0.125, 0.25, 0.75, 1.75])
    assert Clock([], 480).at(480) == 0.5  # without a tempo a MIDI file has 120 quarters a minute (SMF 1.0)
    assert Clock([TempoPoint(960, 60)], 480).at(480) == 1.0


def test_the_count_in_is_heard_once_and_then_the_music() -> None:
    given = performance([sound(57, 0, 0.25), sound(57, 2, 0.25)], count_in=1, tempo=120)
    signal = heard(given, times=3)
    beats = [REST + beat / 2 for beat in range(4)]
    music = [REST + 2 + 2 * time + half for time in range(3) for half in (0, 1)]
    near(onsets(signal), beats + music)


def test_the_first_beat_clicks_higher_than_the_others() -> None:
    signal = heard(performance([sound(57, 0, 0.1)], bars=2, click=True), parts=("click",))
    found = onsets(signal)
    near(found, [REST + beat / 2 for beat in range(8)])
    strongest = []
    for start in found:
        spectrum = np.abs(np.fft.rfft(piece(signal, start, 0.03), 1 << 15))
        strongest.append(float(np.argmax(spectrum)) * RATE / (1 << 15))
    assert [round(hz, -2) for hz in strongest] == [round(strongest[0], -2), *[round(strongest[1], -2)] * 3] * 2
    assert strongest[0] > 1.2 * strongest[1]


def test_a_click_is_where_its_tick_is() -> None:
    given = performance([sound(57, 0, 0.1)], click=True)
    odd = type(given)(**{name: getattr(given, name) for name in given.__dataclass_fields__} | {"clicks": (Click(333, True, False),)})
    near(onsets(heard(odd, parts=("click",))), [REST + 333 / 960])


@pytest.mark.parametrize("times", [1, 2, 5])
def test_a_ladder_is_as_long_as_its_rungs(times: int) -> None:
    given = performance([sound(57, 0, 4)], bars=2, count_in=1, tempo=96)
    ladder = (60.0, 80.0, 100.0, 120.0)
    made = list(tracks(given, TrackOptions(ladder=ladder, times=times)))
    bars = [4 * 60 / (96 * percent / 100) for percent in ladder]
    wanted = sum(REST + bar + 2 * times * bar + TAIL for bar in bars)
    assert len(made) == 1
    assert made[0].seconds == pytest.approx(wanted, abs=0.001)
    assert len(read_wav(made[0].data)) == round(made[0].seconds * RATE)
    each = list(tracks(given, TrackOptions(ladder=ladder, times=times, split=True)))
    assert [track.percent for track in each] == list(ladder)
    assert sum(track.seconds for track in each) == pytest.approx(made[0].seconds, abs=1e-9)


def test_a_faster_rung_is_no_higher() -> None:
    given = performance([sound(57, 0, 4)], tempo=60)
    for percent in (50.0, 150.0):
        signal = heard(given, ladder=(percent,))
        assert pitch(piece(signal, 0.4, 1.0), 220) == pytest.approx(220, abs=0.1)


def test_what_has_ended_is_silent_soon() -> None:
    signal = heard(performance([sound(45, 0, 1)], tempo=120))
    assert np.abs(piece(signal, REST + 0.6, 0.5)).max() < 1e-4
    assert len(signal) / RATE == pytest.approx(REST + 2 + TAIL, abs=1e-3)
