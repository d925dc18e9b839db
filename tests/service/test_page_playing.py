"""What the page hands to the browser's audio clock, against the performance worked out here, and what it sounds like."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from tabforge.performance import perform
from tabforge.pipeline import study_from
from tests.service.stand import CLIMB, Stand, serving_fixture, stand_fixture, until  # noqa: F401  # fixtures

FAST = CLIMB.replace("120", "240")
"""A bar lasts 1 second."""


def expected(text: str) -> list[tuple[float, int]]:
    """Seconds and note numbers of a study of one tempo. A tick is 60 / (tempo × divisions) seconds (Standard MIDI Files 1.0)."""
    score = study_from("x.riff", text.encode()).score
    assert score is not None
    heard = perform(score)
    (tempo,) = {point.quarters for point in heard.tempos}
    return [(sound.start * 60 / (tempo * heard.divisions), sound.midi) for sound in heard.sounds]


def handed(page: Any, part: str = "line") -> list[dict[str, Any]]:
    told: list[dict[str, Any]] = page.evaluate("tabforge.scheduled")
    return [each for each in told if each["part"] == part]


def finished(page: Any) -> None:
    until(page, lambda: not page.evaluate("tabforge.player.playing"), 25)


def ready(stand: Stand, text: str = FAST) -> Any:
    page = stand.show("play.riff", text).page
    page.wait_for_selector(".system svg")
    page.wait_for_selector("#play:enabled")
    return page


def test_a_study_is_played_as_it_is_performed(stand: Stand) -> None:
    page = ready(stand)
    page.click("#play")
    finished(page)
    notes, wanted = handed(page), expected(FAST)
    assert [each["midi"] for each in notes] == [midi for _, midi in wanted]
    begins = notes[0]["when"]
    assert [each["when"] - begins for each in notes] == pytest.approx([when for when, _ in wanted], abs=1e-4)
    clicks = handed(page, "click")
    assert [each["accent"] for each in clicks] == [True, False, False, False], "one bar of 4/4 is counted, and nothing clicks after it"
    assert [begins - each["when"] for each in clicks] == pytest.approx([1.0, 0.75, 0.5, 0.25], abs=1e-4)


def test_chosen_bars_are_looped_without_a_gap(stand: Stand) -> None:
    page = ready(stand)
    page.locator(".bars").first.focus()
    page.keyboard.press("End")
    page.keyboard.press("Shift+End")
    assert page.locator("[role=option][aria-selected=true]").count() == 1
    page.select_option("#count-in", "0", force=True)
    page.keyboard.press("Space")
    until(page, lambda: len(handed(page)) >= 12)
    page.keyboard.press("Space")
    assert page.evaluate("tabforge.player.playing") is False
    bar = [(when - 1, midi) for when, midi in expected(FAST) if 1 <= when < 2]
    notes = handed(page)[:12]
    begins = notes[0]["when"]
    assert [each["midi"] for each in notes] == [midi for _, midi in bar] * 4
    assert [each["when"] - begins for each in notes] == pytest.approx([turn + when for turn in range(4) for when, _ in bar], abs=1e-4)


def test_a_ladder_climbs_and_ends(stand: Stand) -> None:
    page = ready(stand)
    page.locator(".bars").first.focus()
    page.keyboard.press("Shift+Home")
    page.click("#more")
    for name, value in {"from": "100", "to": "150", "step": "25", "times": "1"}.items():
        page.fill(f"#ladder-{name}", value)
    page.click("#ladder")
    page.click("#loop")  # choosing bars has pressed it: without it the last rung is the end
    page.click("#play")
    finished(page)
    notes = handed(page)
    firsts = [next(each["when"] for each in notes if each["pass"] == turn) for turn in range(3)]
    assert [each["speed"] for each in notes[::6]] == [1, 1.25, 1.5]
    assert np.diff(firsts).tolist() == pytest.approx([1.0, 1 / 1.25], abs=1e-4)
    assert len(notes) == 18


def test_drone_and_click_come_and_go(stand: Stand) -> None:
    page = ready(stand)
    page.click("#more")
    page.click("#drone")
    page.click("#click")
    page.click("#play")
    finished(page)
    begins = handed(page)[0]["when"]
    drone = handed(page, "drone")
    assert [each["midi"] for each in drone] == [45] * 4, "the root, A2, in every bar"
    assert [each["when"] - begins for each in drone] == pytest.approx([0, 1, 2, 3], abs=1e-4)
    assert len(handed(page, "click")) == 4 + 16
    page.click("#drone")
    page.click("#play")
    finished(page)
    assert handed(page, "drone") == []


def test_what_sounds_is_lit(stand: Stand) -> None:
    page = ready(stand, CLIMB)
    page.click("#more")
    page.select_option("#count-in", "0")
    page.click("#play")
    heard = "tabforge.player.band.now - (tabforge.player.band.context.outputLatency || 0)"
    look = f"[{heard}, document.querySelector('.tab.sounding')?.dataset.tick]"
    # Looked at right after a frame was drawn: between two frames, on a busy machine, the light may be behind the sound.
    script = f"() => new Promise((told) => requestAnimationFrame(() => setTimeout(() => told({look}), 0)))"
    seen = []
    for _ in range(24):
        page.wait_for_timeout(90)
        seen.append(page.evaluate(script))
    notes = handed(page)
    ticks = [0, 240, 480, 720, 960, 1440, 1920, 2400, 2880]  # of the written eighths, quarters and halves, 480 to a quarter
    right = 0
    for now, tick in seen:
        begun = [number for number, each in enumerate(notes) if each["when"] <= now]
        if begun and tick is not None and begun[-1] < len(ticks):
            near = {begun[-1]} | {number for number, each in enumerate(notes) if abs(each["when"] - now) < 0.06}
            assert int(tick) in {ticks[number] for number in near if number < len(ticks)}
            right += 1
    assert right >= 8


def test_nothing_sounds_before_the_caution_is_read(stand: Stand) -> None:
    stand.write("play.riff", FAST)
    page = stand.open(stand.service.address).page
    page.wait_for_selector("#play:enabled")
    page.click("#play")
    assert "headphones" in page.inner_text("#care")
    assert page.evaluate("tabforge.scheduled.length") == 0
    assert int(page.input_value("#volume")) <= 30
    page.click("#care-play")
    until(page, lambda: bool(page.evaluate("tabforge.scheduled.length > 0")))


RENDER = """async ([midi, cents, bend]) => {
  const { Band } = await import("./player/band.js");
  const { Strings } = await import("./player/strings.js");
  const context = new OfflineAudioContext(1, 44100, 44100);
  const band = Object.assign(new Band(), { context, strings: new Strings(context), gain: context.createGain() });
  band.gain.connect(context.destination);
  band.string({ midi, cents, bend, part: "line", kind: "note", attack: "pick", velocity: 100, seconds: 0.9 }, 0, 1, false);
  return [...(await context.startRendering()).getChannelData(0)];
}"""


def frequency(wave: Any, low: float) -> float:
    """The fundamental by autocorrelation over whole periods, its peak refined by a parabola; searched from ``low`` to an octave above."""
    span = np.array(range(int(44100 / (2 * low)), int(44100 / low) + 2))
    wave = np.asarray(wave) - np.mean(wave)
    size = len(wave) - span[-1]
    found = np.array([np.dot(wave[:size], wave[lag : lag + size]) for lag in span])
    best = int(np.argmax(found[1:-1])) + 1
    left, middle, right = found[best - 1 : best + 2]
    return float(44100 / (span[best] + (left - right) / (2 * (left - 2 * middle + right))))


@pytest.mark.parametrize(
    ("midi", "cents", "bend", "sounds"),
    [(40, 0, [], 40), (57, 25, [], 57.25), (76, 0, [], 76), (64, 0, [[0, 0], [0.2, 200], [0.9, 200]], 66)],
)
def test_strings_are_in_tune(stand: Stand, midi: int, cents: int, bend: list[list[float]], sounds: float) -> None:
    """Equal temperament on A4 = 440 Hz (ISO 16): within 3 cents, less than most ears can tell (common practice, no source)."""
    stand.write("play.riff", FAST)
    page = stand.open(stand.service.address).page
    wave = np.array(page.evaluate(RENDER, [midi, cents, bend]))
    assert 0.05 < np.max(np.abs(wave)) < 1
    wanted = 440 * 2 ** ((sounds - 69) / 12)
    found = frequency(wave[int(0.4 * 44100) : int(0.8 * 44100)], wanted / 1.4)
    assert abs(1200 * np.log2(found / wanted)) < 3


def test_the_ledge_begins_as_the_study_says(stand: Stand) -> None:
    page = ready(stand, FAST.replace("tempo", "click on\ncount-in 3\ntempo"))
    assert (page.input_value("#count-in"), page.get_attribute("#click", "aria-pressed")) == ("3", "true")
    page.click("#play")
    until(page, lambda: len(handed(page, "click")) > 12)
    assert [each["counting"] for each in handed(page, "click")[:13]] == [True] * 12 + [False]
    page.click("#play")
    page.click("#more")
    page.click("#click")
    stand.write("play.riff", FAST.replace("tempo", "click on\ncount-in 3\ntempo").replace("Little", "Other"))
    page.wait_for_selector("h1:text-is('Other climb')")
    assert page.get_attribute("#click", "aria-pressed") == "false", "what was chosen by hand stays as long as the study says the same"
    stand.write("play.riff", FAST)
    page.wait_for_selector("h1:text-is('Little climb')")
    assert (page.input_value("#count-in"), page.get_attribute("#click", "aria-pressed")) == ("1", "false")
