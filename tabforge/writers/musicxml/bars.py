"""Measures: the pieces of each bar in the order the standard wants."""

from __future__ import annotations

from tabforge.model.score import Score
from tabforge.writers.loss import Loss
from tabforge.writers.musicxml.accidentals import Accidentals
from tabforge.writers.musicxml.attributes import AttributesWriter
from tabforge.writers.musicxml.barlines import barline
from tabforge.writers.musicxml.directions import SectionDirections, rehearsal, words
from tabforge.writers.musicxml.layers import Layer, Part
from tabforge.writers.musicxml.notes import NoteWriter
from tabforge.writers.musicxml.numbering import Numbered
from tabforge.writers.musicxml.numbers import Numbers
from tabforge.writers.musicxml.rhythm import Place, Rhythms
from tabforge.writers.musicxml.tempos import Tempos
from tabforge.writers.musicxml.way import Way


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
            self._notes.begin(place.section)
        elif bar.scale is not None:
            self._accidentals.change(bar.scale.fifths)
        signs: list[list[str]] = [[]] * len(bar.voices) if layer.tab else self._accidentals.bar(bar.voices)
        two = len(bar.voices) > 1
        ahead = place.following.voices if place.following is not None else ()
        for index, events in enumerate(bar.voices):
            if index:
                out.append(back(bar.ticks))
            stem = ("down" if index else "up") if two else None
            voice = layer.first_voice + index
            frames = self._rhythms.frames(events, Place(bar.meter, bar.ticks, place.shift, stem, voice))
            following = ahead[index][0] if index < len(ahead) else None
            self._notes.write(out, events, frames, signs[index], voice, following)


def back(ticks: int) -> str:
    """Go back to the bar's beginning for the next voice."""
    return f"<backup><duration>{ticks}</duration></backup>\n"


class PartWriter:
    """Writes the bars of one part. ``leads``: it carries what is said above the bars (titles, tempo, words)."""

    def __init__(self, part: Part, score: Score, losses: list[Loss], *, leads: bool, exact: bool) -> None:
        self._staff = part[0].staff_element
        self._attributes = AttributesWriter(part, score.instrument, score.divisions, exact=exact)
        self._leads = leads
        self._directions = SectionDirections(score.instrument, self._staff)
        self._tempos = Tempos(self._staff)
        self._way = Way(self._staff, sum("coda" in bar.signs for section in score.sections for bar in section.bars))
        self._numbers = Numbers()
        self._losses = losses
        self._layers = [_LayerWriter(layer, score, self._numbers, losses) for layer in part]
        self._begun = False

    def write(self, out: list[str], place: Numbered) -> None:
        """Append one measure."""
        bar, section = place.bar, place.section
        implicit = ' implicit="yes"' if place.implicit else ""
        out.append(f'<measure number="{place.number}"{implicit}>\n')
        if self._begun and (place.first or bar.new_line):
            out.append('<print new-system="yes"/>\n')
        self._begun = True
        out.append(barline(bar.left, "left"))
        out.append(self._attributes.write(section, bar.meter, place.rests, bar.scale))
        if self._leads:
            self._above(out, place)
        for index, layer in enumerate(self._layers):
            if index:
                out.append(back(bar.ticks))
            layer.write(out, place)
            if bar.signs and self._leads and not index:
                out.append(self._way.right(bar))
        if place.last:
            self._losses += self._numbers.abandon()
        style = "light-heavy" if place.end else "light-light" if place.last else ""
        out.append(barline(bar.right, "right", otherwise=style))
        out.append("</measure>\n")

    def _above(self, out: list[str], place: Numbered) -> None:
        """What is said above a bar at its beginning."""
        bar = place.bar
        if place.first:
            out.append(self._directions.write(place.section))
        if bar.rehearsal is not None:
            out.append(rehearsal(bar.rehearsal, self._staff))
        if bar.signs:
            out.append(self._way.left(bar))
        if bar.scale is not None:  # its signature may be that of the scale before, and does not tell the mode
            out.append(words(f"{bar.scale.root.pitch_class} {bar.scale.name}", self._staff))
        if bar.tempo is not None or bar.tempo_change is not None:
            out.append(self._tempos.write(bar))
        if bar.right.repeat == "backward" and bar.right.times > 2 and not bar.right.endings:
            out.append(words(f"{bar.right.times} times", self._staff))
