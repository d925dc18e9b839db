"""What is heard, for a browser: sounds, clicks and bars in seconds."""

from __future__ import annotations

from dataclasses import replace
from itertools import accumulate
from typing import TYPE_CHECKING, Any

from tabforge.performance import PlayOptions, perform
from tabforge.performance.timeline import played
from tabforge.performance.way import way_through
from tabforge.service.tasks.job import Answer, Job
from tabforge.service.tasks.studies import chosen, score_of, written
from tabforge.sound.clock import Clock
from tabforge.sound.drone import with_drone

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tabforge.model.score import Score
    from tabforge.performance.model import Performance, Sound

_FINE = 5
"""Decimals of a second: a hundredth of a millisecond, less than a sample."""


def play(job: Job) -> Answer:
    """The performance of a study."""
    return Answer(body=written(performance(score_of(job), job.options)))


def performance(score: Score, options: Mapping[str, Any]) -> dict[str, Any]:
    """A score's performance. ``options``: ``blocks``, ``count_in``, ``click``, ``drone``, as ``inputs.Playing`` has them."""
    sections = chosen(score, options.get("blocks") or ())
    how = PlayOptions(sections=sections, click=options.get("click", True), count_in=options.get("count_in", 0))
    heard = perform(score, how)
    if options.get("drone", True):
        heard = _droned(score, heard, how)
    clock = Clock.of(heard)

    def at(tick: float) -> float:
        return round(clock.at(tick), _FINE)

    row = played(score.sections, way_through(score.sections, sections), score.divisions, how.count_in)
    begins = [list(accumulate((bar.ticks for bar in section.bars), initial=0)) for section in score.sections]
    return {
        "title": heard.title,
        "seconds": at(heard.ticks),
        "program": heard.program,
        "strings": heard.strings,
        "straight": heard.straight,
        "sounds": [_sound(each, clock) for each in heard.sounds],
        "clicks": [{"at": at(each.tick), "accent": each.accent, "counting": each.counting} for each in heard.clicks],
        "tempos": [{"at": at(each.tick), "quarters": each.quarters} for each in heard.tempos],
        "texts": [{"at": at(each.tick), "text": each.text, "kind": each.kind} for each in heard.texts],
        "passages": [{"section": each.section, "start": at(each.start), "end": at(each.end)} for each in heard.passages],
        "bars": [
            {
                "section": each.place.section,
                "bar": each.place.bar,
                "start": at(each.start),
                "end": at(each.start + each.bar.ticks),
                "tick": begins[each.place.section][each.place.bar],
                "ticks": each.bar.ticks,
            }
            for each in row
        ],
    }  # fmt: skip


def _droned(score: Score, heard: Performance, how: PlayOptions) -> Performance:
    """With a drone under each section that has a scale, struck with each bar, as practice tracks have it."""
    beats = heard.clicks if how.click else perform(score, replace(how, click=True)).clicks
    bars = [click.tick for click in beats if click.accent and not click.counting]
    roots = {number: section.scale.root.midi for number, section in enumerate(score.sections) if section.scale is not None}
    return with_drone(heard, roots, bars)


def _sound(sound: Sound, clock: Clock) -> dict[str, Any]:
    start = clock.at(sound.start)
    told: dict[str, Any] = {
        "part": sound.part,
        "start": round(start, _FINE),
        "seconds": round(clock.at(sound.start + sound.ticks) - start, _FINE),
        "midi": sound.midi,
        "cents": sound.cents,
        "velocity": sound.velocity,
        "string": sound.string,
        "attack": sound.attack,
        "kind": sound.kind,
        "at": f"{sound.span.start}-{sound.span.end}",
    }
    if sound.bend:
        told["bend"] = [[round(clock.at(sound.start + point.tick) - start, _FINE), point.cents] for point in sound.bend]
    return told
