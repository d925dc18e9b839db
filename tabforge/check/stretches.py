"""Stretches that deserve a word of caution: in chords, and on the strings of runs that put several notes on each."""

from __future__ import annotations

from collections.abc import Iterator

from tabforge.check.view import View
from tabforge.diagnostics.core import Diagnostic
from tabforge.fretboard.explain import advise_stretch
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import Stretch, stretch, wide_stretches
from tabforge.model.score import Section
from tabforge.source import Span


def wide_stretches_in(view: View) -> Iterator[Diagnostic]:
    """Each wide grip once for each place it is written in, and the widest stretch of each run that lies so many notes a string."""
    origins = view.origins
    runs = {
        origins.span(("blocks", index)): origins.span(("blocks", index, "layout"))
        for index, block in enumerate(view.document.get("blocks", ()))
        if block.get("layout", {}).get("kind") in ("per string", "fragment")
    }
    widest: dict[Span, Stretch] = {}
    for section in view.score.sections:
        neck = view.neck(section)
        yield from _grips(section, neck)
        if section.span in runs:
            at = runs[section.span]
            for found in _run(section, neck):
                if at not in widest or found.mm > widest[at].mm:
                    widest[at] = found
    for at, found in widest.items():
        yield advise_stretch(found, at, grip=False)


def _grips(section: Section, neck: Neck) -> Iterator[Diagnostic]:
    seen: dict[tuple[int, ...], Stretch | None] = {}
    for bar in section.bars:
        for voice in bar.voices:
            for event in voice:
                if len(event.notes) > 1:
                    frets = tuple([note.fret for note in event.notes])
                    if frets not in seen:
                        seen[frets] = stretch([(note.string, note.fret) for note in event.notes], neck)
                    found = seen[frets]
                    if found is not None and found.wide:
                        yield advise_stretch(found, event.span, grip=True)


def _run(section: Section, neck: Neck) -> list[Stretch]:
    line = [
        (event.notes[0].string, event.notes[0].fret)
        for bar in section.bars
        for event in bar.voices[0]
        if event.notes and not event.notes[0].tied_in
    ]
    return wide_stretches(line, neck)
