"""Title, settings and teaching text: of the whole study, and of each section what changes."""

from __future__ import annotations

from fractions import Fraction

from tabforge.model.meter import Meter, Swing, Tempo
from tabforge.model.score import Bar, Score, Section
from tabforge.model.tuning import Tuning
from tabforge.writers.ascii.context import Context
from tabforge.writers.ascii.plain import width_of, wrap
from tabforge.writers.ascii.rhythm import duration, spoken_length
from tabforge.writers.frets import frets_in_words


class InForce:
    """The settings the reader of the page knows of so far."""

    __slots__ = ("capo", "fretting", "meter", "partial_capo", "swing", "tempo", "tuning")

    def __init__(self) -> None:
        self.tuning: Tuning | None = None
        self.capo = 0
        self.partial_capo: tuple[int, tuple[int, ...]] | None = None
        self.fretting: tuple[float, ...] = ()
        self.meter: Meter | None = None
        self.tempo: Tempo | None = None
        self.swing: Swing | None = None


def study_heading(score: Score, context: Context) -> list[str]:
    """Title, subtitle, author and instrument, then the study's teaching text."""
    width = context.options.width
    lines = _underlined(context.words(score.title, "the title"), "=", width)
    if score.subtitle:
        lines += wrap(context.words(score.subtitle, "the subtitle"), width)
    if score.author:
        lines += wrap("by " + context.words(score.author, "the author"), width)
    lines.append("")
    lines += wrap("Instrument: " + context.words(score.instrument.label, "the instrument"), width, 2)
    return lines


def teaching_text(text: tuple[str, ...], context: Context, section: Section | None = None) -> list[str]:
    """Teaching notes, wrapped; each line of the source begins a new one."""
    lines: list[str] = []
    for each in text:
        words = context.words(each, "the text", section.span) if section else context.words(each, "the text")
        lines += wrap(words, context.options.width)
    return lines


def section_heading(section: Section, context: Context) -> list[str]:
    """The section's title and its scale with its notes."""
    width = context.options.width
    lines = []
    if section.title.strip():
        lines += _underlined(context.words(section.title, "the title", section.span), "-", width)
    scale = section.scale
    if scale is not None and section.bars:
        name = context.words(f"{scale.root.pitch_class} {scale.name}", "the scale", section.span)
        lines += wrap(f"Scale: {name}: {' '.join(map(str, scale.tones))}", width, 2)
    return lines


def settings(section: Section, known: InForce, context: Context) -> list[str]:
    """Those settings of a section's start that its reader does not know yet, a line each."""
    bar = section.bars[0]
    lines = []
    if section.tuning != known.tuning:
        name = f"{section.tuning.name}, " if section.tuning.name else ""
        lines.append(context.words(f"Tuning: {section.tuning} ({name}low to high)", "the tuning", section.span))
    if section.fretting != known.fretting:
        lines.append(frets_in_words(section.fretting))
    if section.capo != known.capo:
        lines.append(f"Capo: fret {section.capo}; frets are counted from it" if section.capo else "Capo: none")
    if section.partial_capo != known.partial_capo:
        lines.append(f"Partial capo: {_partial(section.partial_capo)}")
    if section.swing != known.swing:
        swing = section.swing
        lines.append(f"Swing: {swing.value.spoken}s long-short, {swing.first}:{swing.second}" if swing else "Swing: off")
    known.tuning, known.capo, known.swing, known.fretting = section.tuning, section.capo, section.swing, section.fretting
    known.partial_capo = section.partial_capo
    meter, tempo = changes(bar, known, context)
    if meter:
        lines.append(f"Meter: {meter}")
    if tempo:
        lines.append(f"Tempo: {tempo}")
    return [line for each in lines for line in wrap(each, context.options.width, 2)]


def _partial(capo: tuple[int, tuple[int, ...]] | None) -> str:
    if capo is None:
        return "none"
    fret, strings = capo
    return f"fret {fret}, on string{'s' * (len(strings) > 1)} {' '.join(map(str, strings))} alone"


def pickup(section: Section, context: Context) -> list[str]:
    """The length of a section's pickup, if it begins with one."""
    bar = section.bars[0]
    length = Fraction(bar.ticks, context.divisions)
    if not bar.partial or length >= bar.meter.quarters:
        return []
    return wrap(f"Pickup: {spoken_length(length)}", context.options.width, 2)


def changes(bar: Bar, known: InForce, context: Context) -> tuple[str, str]:
    """The meter and the tempo of a bar as text, each empty if it is known."""
    meter = "" if bar.meter is known.meter or bar.meter == known.meter else str(bar.meter)
    known.meter = bar.meter
    tempo = ""
    if bar.tempo is not None and bar.tempo != known.tempo:
        known.tempo = bar.tempo
        words = context.words(bar.tempo.words, "the tempo", bar.span) + " " if bar.tempo.words else ""
        tempo = f"{words}{duration(bar.tempo.beat, bar.tempo.dots)}={bar.tempo.bpm:.10g}"
    return meter, tempo


def _underlined(text: str, line: str, width: int) -> list[str]:
    lines = wrap(text, width)
    return [*lines, line * max(width_of(each) for each in lines)]
