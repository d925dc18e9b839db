"""Hairpins of a voice settled: where each begins and ends."""

from __future__ import annotations

from dataclasses import replace

from tabforge.compile.report import Report
from tabforge.compile.strokes import Stroke
from tabforge.diagnostics.catalogue import music
from tabforge.model.events import Hairpin


def settle_hairpins(strokes: list[Stroke], report: Report) -> None:
    """Puts the ends of hairpins where they belong: one lasts until a dynamic, another hairpin, or the last ``-``."""
    kind: str | None = None
    before: Stroke | None = None
    for stroke in [*strokes, None]:
        goes_on = stroke is not None and stroke.swells_on is not None
        if kind is not None and not goes_on:
            met = stroke is not None and (stroke.attached.dynamic is not None or stroke.swell is not None)
            last = stroke if met else before
            assert last is not None
            _hang(last, Hairpin(kind=kind, begins=False, through=not met))
            kind = None
        elif goes_on and kind is None and stroke is not None:
            report.add(music.NO_HAIRPIN, "there is no hairpin that - could carry on", stroke.at, span=stroke.swells_on)
        if stroke is not None and stroke.swell is not None:
            kind = stroke.swell
            _hang(stroke, Hairpin(kind=kind, begins=True))
        before = stroke


def _hang(stroke: Stroke, hairpin: Hairpin) -> None:
    stroke.attached = replace(stroke.attached, hairpins=(*stroke.attached.hairpins, hairpin))
