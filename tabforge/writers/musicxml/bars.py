"""Measures: bars numbered, and the pieces of each in the order the standard wants."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tabforge.model.score import Bar, Score, Section
from tabforge.writers.loss import Loss
from tabforge.writers.musicxml.accidentals import Accidentals
from tabforge.writers.musicxml.attributes import AttributesWriter
from tabforge.writers.musicxml.barlines import barline
from tabforge.writers.musicxml.directions import SectionDirections, tempo, words
from tabforge.writers.musicxml.layers import Layer, Part
from tabforge.writers.musicxml.notes import NoteWriter
from tabforge.writers.musicxml.numbers import Numbers
from tabforge.writers.musicxml.rhythm import Place, Rhythms


class Numbered(NamedTuple):
    """A bar in its place.

    ``shift``: ticks of the whole bar that are missing before it; ``first`` and ``last`` of its section; ``end`` of the score.
    """

    section: Section
    bar: Bar
    number: str
    implicit: bool
    shift: int
    first: bool
    last: bool
    end: bool


def numbered(score: Score) -> Iterator[Numbered]:
    """The bars of a score in order.

    A pickup and the second part of a bar that a repeat cuts in two are not counted (``implicit``); a pickup before the first bar is
    number 0, the others are X1, X2 and so on. What is missing of these is missing before them; of other partial bars, after them.
    """
    count = extra = whole = 0
    meter = None
    sections = [section for section in score.sections if section.bars]
    for section in sections:
        missing = 0
        for index, bar in enumerate(section.bars):
            if bar.meter != meter:
                meter = bar.meter
                whole = int(meter.quarters * score.divisions)
            first, last = index == 0, index == len(section.bars) - 1
            before = bar.partial and (first or bar.ticks == missing)
            missing = whole - bar.ticks if bar.partial and not before else 0
            if not before:
                count += 1
            elif count or extra:
                extra += 1
            number = str(count) if not before else f"X{extra}" if extra else "0"
            shift = whole - bar.ticks if before else 0
            yield Numbered(section, bar, number, before, shift, first, last, last and section is sections[-1])


class _LayerWriter:
    """Writes one layer's voices of the bars of a part, in order."""

    def __init__(self, layer: Layer, score: Score, numbers: Numbers, losses: list[Loss]) -> None:
        self.layer = layer
        self._rhythms = Rhythms(layer, score.divisions)
        self._notes = NoteWriter(layer, numbers, losses)
        self._accidentals = Accidentals(0)

    def write(self, out: list[str], place: Numbered) -> None:
        bar, layer = place.bar, self.layer
        if place.first:
            scale = place.section.scale
            self._accidentals = Accidentals(scale.fifths if scale else 0)
        signs: list[list[str]] = [[]] * len(bar.voices) if layer.tab else self._accidentals.bar(bar.voices)
        two = len(bar.voices) > 1
        for index, events in enumerate(bar.voices):
            if index:
                out.append(back(bar.ticks))
            stem = ("down" if index else "up") if two else None
            voice = layer.first_voice + index
            frames = self._rhythms.frames(events, Place(bar.meter, bar.ticks, place.shift, stem, voice))
            self._notes.write(out, events, frames, signs[index], voice)


def back(ticks: int) -> str:
    """Go back to the bar's beginning for the next voice."""
    return f"<backup><duration>{ticks}</duration></backup>\n"


class PartWriter:
    """Writes the bars of one part. ``leads``: it carries what is said above the bars (titles, tempo, words)."""

    def __init__(self, part: Part, score: Score, losses: list[Loss], *, leads: bool, exact: bool) -> None:
        self._staff = part[0].staff_element
        self._attributes = AttributesWriter(part, score.instrument, score.divisions, exact=exact)
        self._directions = SectionDirections(score.instrument, self._staff) if leads else None
        self._numbers = Numbers()
        self._losses = losses
        self._layers = [_LayerWriter(layer, score, self._numbers, losses) for layer in part]
        self._begun = False

    def write(self, out: list[str], place: Numbered) -> None:
        """Append one measure."""
        bar, section = place.bar, place.section
        implicit = ' implicit="yes"' if place.implicit else ""
        out.append(f'<measure number="{place.number}"{implicit}>\n')
        if place.first and self._begun:
            out.append('<print new-system="yes"/>\n')
        self._begun = True
        out.append(barline(bar.left, "left"))
        out.append(self._attributes.write(section, bar.meter))
        if self._directions is not None:
            if place.first:
                out.append(self._directions.write(section))
            if bar.tempo is not None:
                out.append(tempo(bar.tempo, self._staff))
            if bar.right.repeat == "backward" and bar.right.times > 2 and not bar.right.endings:
                out.append(words(f"{bar.right.times} times", self._staff))
        for index, layer in enumerate(self._layers):
            if index:
                out.append(back(bar.ticks))
            layer.write(out, place)
        if place.last:
            self._losses += self._numbers.abandon()
        style = "light-heavy" if place.end else "light-light" if place.last else ""
        out.append(barline(bar.right, "right", otherwise=style))
        out.append("</measure>\n")
