"""The shape a section plays, as a picture for the page."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from tabforge.book.model import Picture
from tabforge.fretboard.instruments import neck_of
from tabforge.model.score import Score, Section

_SIZE: Final = re.compile(r'<svg [^>]*?width="([0-9.]+)" height="([0-9.]+)"')

MILLIMETRES: Final = 0.2
"""Millimetres of paper for each unit of a diagram: a fret is then some 9 mm wide."""

MOST_PLACES: Final = 60
"""A section that plays more places than these has no shape to be learnt by eye."""


def pictures_of(score: Score, section: Section) -> tuple[Picture, ...]:
    """The shape of a section that is a line through a scale; none where there is no scale, or chords are struck."""
    if section.scale is None or not _is_line(section):
        return ()
    from tabforge.diagrams.shapes import played_in, shape  # noqa: PLC0415  # only where diagrams are asked for
    from tabforge.diagrams.svg import svg  # noqa: PLC0415

    played = played_in(section)
    if not 1 < len(played) <= MOST_PLACES:
        return ()
    neck = neck_of(score.instrument, section.tuning, section.capo, section.fretting)
    title = f"{section.scale.root.pitch_class} {section.scale.name}"
    diagram = shape(played, neck, title=title, labels="degree", scale=section.scale, left_handed=score.left_handed)
    drawn = svg([diagram], bare=True)
    found = _SIZE.search(drawn)
    assert found is not None  # every diagram says its size
    width, height = (float(each) * MILLIMETRES for each in found.groups())
    return (Picture(svg=drawn, width=round(width, 2), height=round(height, 2), label=f"{title}. {diagram.alt}"),)


def _is_line(section: Section) -> bool:
    return all(len(notes) < 2 for notes in _struck(section))


def _struck(section: Section) -> Iterator[tuple[object, ...]]:
    for bar in section.bars:
        for voice in bar.voices:
            for event in voice:
                yield event.notes
