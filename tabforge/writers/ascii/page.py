"""The whole page: heading, sections, systems, legend."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import accumulate

from tabforge.diagrams.strings import string_names
from tabforge.model.score import Bar, Score, Section
from tabforge.writers.ascii.backing import backing_in_words
from tabforge.writers.ascii.charts import ambiguous, charts, grips
from tabforge.writers.ascii.columns import BarReader
from tabforge.writers.ascii.context import Context
from tabforge.writers.ascii.headings import InForce, pickup, section_heading, settings, study_heading, teaching_text
from tabforge.writers.ascii.legend import legend
from tabforge.writers.ascii.longrests import grouped
from tabforge.writers.ascii.measure import broken, fits, measure
from tabforge.writers.ascii.slides import Slides, look_ahead
from tabforge.writers.ascii.slots import Piece
from tabforge.writers.ascii.system import System
from tabforge.writers.ascii.way import over
from tabforge.writers.loss import Loss
from tabforge.writers.options import WriteOptions

MIN_WIDTH = 40
"""Below this a line could not hold one chord with all its signs."""

EDGES = 3
"""Columns of the widest bar line at the start, and at the end, of a line; and the most that can stand between it and the first column."""


def write(score: Score, options: WriteOptions) -> tuple[bytes, tuple[Loss, ...]]:
    """The study as plain text, with a line break at its end, and what it could not hold.

    ``options``: ``width``, ``rhythm_line``, ``legend``, ``headings``, ``ascii_only``. Raises ValueError for a width below MIN_WIDTH.

    The tab and its signs are always ASCII. Titles, words and names keep their letters as UTF-8 unless ``ascii_only`` is set: whoever posts
    where only ASCII passes can ask for it, and nobody loses an accent by default.

    The format, for whoever reads it back: a system is one line a string, string 1 on top, beginning with the string's name and a bar
    line. An event stands in one column: its letter in the rhythm line (above the strings for voice 1, below for voice 2) begins
    there, and so do its fret numbers, ``x`` for a dead note or ``=`` for a note held from before. Signs stand left (``(`` ``<`` ``/``
    ``\\``) or right of the number. Bar lines are in the same columns on all strings. A bar wider than the line is broken, at a
    beat if it can be, with ``>`` in place of the bar line at both edges. Bars that follow one another and hold nothing but rests are
    one bar with their number on a string: ``-- 4 bars rest --``. Dynamics and hairpins have a row below the strings (with two voices:
    the upper one's above): ``p<----f``, each hairpin up to where the next sign begins or as far as its last event. Octave lines concern
    the staff; tab shows strings and frets, so it leaves them out and loses nothing.
    """
    if options.width < MIN_WIDTH:
        raise ValueError(f"an ASCII tab needs a width of at least {MIN_WIDTH}, not {options.width}")
    context = Context(options, score.divisions)
    known = InForce()
    lines = study_heading(score, context) if options.headings else []
    first = next((section for section in score.sections if section.bars), None)
    if first is not None:
        told = settings(first, known, context)  # what is in force is known to the bars that follow in any case
        lines += told if options.headings else []
    sections = (_section(section, score.left_handed, known, context) for section in score.sections)
    for block in (teaching_text(score.text, context) if options.headings else [], *sections):
        if block:
            lines += _after_blank(lines, block)
    if context.shifts and (not options.legend or "legato slide" in context.used):
        how = "written like a legato slide: that the second note is picked is not told"
        context.losses += [Loss(span=span, what="shift slide", how=how) for span in context.shifts]
    if options.legend:
        last = legend(context)
        lines += ["", *last] if last else []
    losses = tuple(sorted(context.losses, key=lambda loss: loss.span))
    return ("\n".join(lines) + "\n").encode(), losses


def _section(section: Section, left_handed: bool, known: InForce, context: Context) -> list[str]:
    heads = context.options.headings
    lines = section_heading(section, context) if heads else []
    if section.bars:
        told = settings(section, known, context) + pickup(section, context) + backing_in_words(section, context)
        lines += told if heads else []
    text = teaching_text(section.text, context, section) if heads else []
    if text:
        lines += _after_blank(lines, text)
    if not section.bars:
        return lines
    shapes = grips(section)
    if shapes:
        lines += _after_blank(lines, charts(section, shapes, left_handed, context))
    context.grips = ambiguous(shapes)
    slides = look_ahead(section.bars)
    context.losses.extend(slides.losses)
    context.shifts.extend(slides.shifts)
    names = string_names(section.tuning)
    system = System(names, context.options.width)
    for piece in _pieces(section.bars, slides, known, context, len(names[0])):
        if not system.fits(piece):
            if not system.empty:
                lines += _after_blank(lines, system.lines())
            system = System(names, context.options.width)
        system.add(piece)
    return lines + _after_blank(lines, system.lines())


def _after_blank(before: list[str], lines: list[str]) -> list[str]:
    return ["", *lines] if before else lines


def _pieces(bars: tuple[Bar, ...], slides: Slides, known: InForce, context: Context, margin: int) -> Iterator[Piece]:
    """The bars of a section, measured, and broken where they are too wide."""
    line = context.options.width - margin
    widest = context.widest_label = line - 3 * EDGES
    reader = BarReader(context, slides, alone=all(len(bar.voices) == 1 for bar in bars))
    for number, group in grouped(bars):
        piece, count = reader.read(number, group)
        piece.over = over(group, count, known, widest, context)
        measure(piece, context)
        if fits(piece, line):
            yield piece
        else:
            yield from broken(piece, _pulses(group[0], context), line, context)


def _pulses(bar: Bar, context: Context) -> frozenset[int]:
    """Onsets of a bar's beats in ticks."""
    unit = context.divisions * 4 // bar.meter.unit
    return frozenset(accumulate((pulse * unit for pulse in bar.meter.pulses), initial=0))
