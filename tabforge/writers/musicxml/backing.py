"""Second parts as parts of the file: the same bars as the first part's, with other music in them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from tabforge.model.events import NOTHING_ATTACHED, Event
from tabforge.model.score import BACKINGS, Bar, Score, Section
from tabforge.model.values import VALUES, Written
from tabforge.writers.musicxml.numbering import Numbered

_WHOLE_REST: Final = Written(value=VALUES[0])


def second_parts(score: Score) -> tuple[str, ...]:
    """The kinds of second parts that are to be printed somewhere in a score."""
    shown = {part.kind for section in score.sections for part in section.backing if part.shown}
    return tuple(kind for kind in BACKINGS if kind in shown)


def without_long_rests(places: Sequence[Numbered]) -> list[Numbered]:
    """The bars of the first part; a rest of several bars is one in all parts, so that there is none in a section with second parts."""
    return [place._replace(rests=0) if any(part.shown for part in place.section.backing) else place for place in places]


def in_part(places: Sequence[Numbered], kind: str) -> list[Numbered]:
    """The bars of the first part as those of a second part: rests where a section has none."""
    sections: dict[int, Section] = {}
    found = []
    number = 0
    for place in places:
        number = 0 if place.first else number + 1
        section = sections.get(id(place.section))
        if section is None:
            section = sections[id(place.section)] = _section(place.section, kind)
        following = section.bars[number + 1] if place.following is not None else None
        found.append(place._replace(section=section, bar=section.bars[number], following=following))
    return found


def _section(section: Section, kind: str) -> Section:
    own = next((part for part in section.backing if part.kind == kind and part.shown), None)
    music = own.bars if own is not None else tuple(map(_rests, section.bars))
    return replace(section, bars=tuple([replace(bar, voices=(events,)) for bar, events in zip(section.bars, music, strict=True)]))


def _rests(bar: Bar) -> tuple[Event, ...]:
    """A bar's rest; where the bar is not whole, rests of the values that its own music has."""
    if not bar.partial:
        return (Event(onset=0, ticks=bar.ticks, written=_WHOLE_REST, notes=(), span=bar.span),)
    return tuple([replace(each, notes=(), marks=(), attached=NOTHING_ATTACHED) for each in bar.voices[0] if each.ticks])
