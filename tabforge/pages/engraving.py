"""From a score to sheets of systems: stripping, engraving, reading where things are, drawing marks, putting each system together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import accumulate
from typing import Final, NamedTuple

from tabforge.model.score import Score
from tabforge.pages.board import Board
from tabforge.pages.breaking import engraved
from tabforge.pages.composing import Composed, compose
from tabforge.pages.engraver import SPACE, Engraver
from tabforge.pages.fonts import Fonts
from tabforge.pages.glyphs import definitions
from tabforge.pages.labels import section_label, system_label
from tabforge.pages.losses import page_losses
from tabforge.pages.marks.table import draw_marks
from tabforge.pages.options import PageOptions
from tabforge.pages.overhead import Overhead
from tabforge.pages.places import Placed, staff_id
from tabforge.pages.reading import System as Drawn
from tabforge.pages.reading import positions
from tabforge.pages.shapes import escape
from tabforge.pages.sheets import Sheet, System
from tabforge.pages.stage import Spot, Stage, spots
from tabforge.pages.stripping import Part, stripped
from tabforge.pipeline import uncollected
from tabforge.writers.loss import Loss

DEFAULTS: Final = PageOptions()


@uncollected()
def engrave(score: Score, options: PageOptions = DEFAULTS, engraver: Engraver | None = None) -> tuple[tuple[Sheet, ...], tuple[Loss, ...]]:
    """A sheet for each section with music, and what the pages do not show.

    ``engraver`` may be one that is used again and again in the same thread; a new one takes a few milliseconds. The same score and options
    give the same bytes. Raises MissingEngraverError if the extra ``pages`` is not installed.
    """
    program = engraver or Engraver()
    parts, losses = stripped(score)
    sheets = tuple(_sheet(program, score, part, options) for part in parts)
    return sheets, page_losses(score, losses)


class Laid(NamedTuple):
    """A section as it is laid out, before it is written: its systems, their first and last bars, and the edges all of them share."""

    composed: tuple[Composed, ...]
    firsts: tuple[int, ...]
    lasts: tuple[int, ...]
    left: float
    right: float


def _sheet(engraver: Engraver, score: Score, part: Part, options: PageOptions) -> Sheet:
    laid = lay_out(engraver, score, part, options)
    label = section_label(score, part.section)
    left, right = laid.left, laid.right
    scale = options.width / (right - left)
    made = []
    for each, first, last in zip(laid.composed, laid.firsts, laid.lasts, strict=True):
        told = system_label(label, first, last)
        height = (each.box.bottom - each.box.top) * scale
        view = f"{left:.0f} {each.box.top:.0f} {right - left:.0f} {each.box.bottom - each.box.top:.0f}"
        svg = picture(each, view, options, height, told, definitions(engraver.fonts, each.glyphs))
        size = {"width": options.width, "height": round(height, 3), "inked": round((each.box.right - left) * scale, 3)}
        made.append(System(svg=svg, **size, first_bar=first, last_bar=last, label=told))
    section = part.section
    return Sheet(section=part.index, title=section.title, text=section.text, label=label, systems=tuple(made), span=section.span)


def picture(composed: Composed, view: str, options: PageOptions, height: float, label: str, defs: str) -> str:
    """A system as a whole picture."""
    size = f'width="{options.width:g}mm" height="{height:.3f}mm" viewBox="{view}"'
    body = f'<g aria-hidden="true" font-family="{escape(options.font)}">{composed.svg}</g>'
    ink = ' fill="currentColor"'
    if options.flavour == "print":
        body, ink = body.replace("currentColor", "#000"), ""
    said = escape(label)
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img" aria-label="{said}"{ink}><title>{said}</title>{defs}{body}</svg>'


def lay_out(engraver: Engraver, score: Score, part: Part, options: PageOptions) -> Laid:
    """A section's systems with everything in its place."""
    width = options.width / options.space * SPACE
    drawn = engraved(engraver, part, width, numbers=options.numbers)
    stage, by_system = _staged(engraver.fonts.of(options.font), part, drawn)
    draw_marks(stage)
    notes = _attributes(part.events)
    by_bar: dict[int, list[Placed]] = {}
    for each in part.events:
        by_bar.setdefault(each.bar, []).append(each)
    composed, firsts, lasts = [], [], []
    first = measures = 0
    for number, system in enumerate(drawn):
        counts = part.drawn[measures : measures + len(system.measures)]
        measures += len(counts)
        bars = [by_bar[bar] for bar in accumulate(counts[:-1], initial=first)]
        overhead = Overhead(score, system, bars, wanted=options.diagrams)
        composed.append(compose(stage, number, system, by_system[number], notes, overhead))
        firsts.append(first)
        first += sum(counts)
        lasts.append(first - 1)
    left = min(each.box.left for each in composed)
    right = max(left + width, *(each.box.right for each in composed))
    return Laid(tuple(composed), tuple(firsts), tuple(lasts), left, right)


def _staged(fonts: Fonts, part: Part, drawn: Sequence[Drawn]) -> tuple[Stage, list[list[Spot]]]:
    """The stage of a section, and its spots by system."""
    where: dict[str, float] = {}
    bars: list[tuple[int, float, float]] = []
    boards = []
    counts = iter(part.drawn)
    for number, system in enumerate(drawn):
        own: list[float] = []
        for measure in system.measures:
            found = dict(positions(measure, fonts))
            own += found.values()
            where.update(found)
            bars += [(number, measure.left, measure.inner)] * next(counts)
        left = min(own, default=system.measures[0].left) - 80
        right = system.measures[-1].inner - 60
        boards.append(Board(system.strings[0], system.strings[-1], left, right, system.gap))
    stage = Stage(fonts, boards)
    spots(stage, part.events, where, bars, [system.strings for system in drawn])
    by_system: list[list[Spot]] = [[] for _ in drawn]
    for voice in stage.voices:
        for spot in voice:
            by_system[spot.system].append(spot)
    return stage, by_system


def _attributes(events: Sequence[Placed]) -> Mapping[str, str]:
    """What the groups of notes are marked with, by id."""
    return {
        staff_id(each.number, note): f' data-at="{each.event.span.start}-{each.event.span.end}" data-tick="{each.tick}"'
        f' data-bar="{each.bar}" data-voice="{each.voice}"'
        for each in events
        for note in range(max(1, len(each.event.notes)))
    }
