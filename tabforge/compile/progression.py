"""The progression of a chord block: what chord begins when in each bar."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from tabforge.compile.cells import cells
from tabforge.compile.chordrow import Shape, chord_of
from tabforge.compile.frame import Frame
from tabforge.compile.report import Report
from tabforge.compile.shares import shares
from tabforge.diagnostics.catalogue import music
from tabforge.fretboard.neck import Neck
from tabforge.model.harmony import ChordSymbol
from tabforge.model.meter import Meter
from tabforge.model.score import Scale
from tabforge.source import Span
from tabforge.syntax.document import System
from tabforge.syntax.grammar import POISON
from tabforge.syntax.origins import Pointer


@dataclass(slots=True)
class Change:
    """A chord that begins, ``onset`` quarter notes into its bar.

    ``symbol`` is None for a cell that was reported; ``place`` is the index of its cell among the bar's tokens.
    """

    onset: Fraction
    symbol: ChordSymbol | None
    span: Span
    place: int


@dataclass(slots=True)
class ChordBar:
    """A bar of the progression. ``at``: the bar of the document that it was read from; ``number`` counts the bars of the system that it is
    written in. ``broken``: something in it was reported. ``scale`` is the one in force, None for the block's own.
    """

    length: Fraction
    meter: Meter
    at: Pointer
    number: int
    changes: list[Change] = field(default_factory=list)
    broken: bool = False
    scale: Scale | None = None


@dataclass(slots=True)
class ProgressionReader:
    """Reads the bars of a block's progression in order. ``seen`` are bars that were read before, whose faults are told once."""

    frame: Frame
    report: Report
    before: tuple[str, Pointer] | None = None
    begun: bool = False
    memo: dict[str, ChordSymbol] = field(default_factory=dict)
    seen: set[tuple[Pointer, Meter, Fraction, Scale | None]] = field(default_factory=set)
    scale: Scale | None = None

    def read(
        self, system: System, place: Pointer, meters: Sequence[Meter], first: bool, scales: Sequence[Scale | None] = ()
    ) -> Iterator[ChordBar]:
        """The bars of one system. ``first``: its first bar is the block's, which may be a pickup. ``scales``: those that begin with its
        bars.
        """
        pickup = self.frame.pickup if first else Fraction(0)
        for index, written in enumerate(system["progression"]):
            if self.report.exhausted:
                return
            at: Pointer = (*place, "progression", index)
            if written != "%":
                self.before = (written, at)
            elif self.before is None:
                self.report.add(music.NO_BAR_BEFORE, "there is no bar before this one to repeat", at)
            text, at = self.before or (POISON, at)
            length = pickup if pickup and index == 0 else meters[index].quarters
            self._change(scales[index] if index < len(scales) else None)
            bar = ChordBar(length, meters[index], at, index, broken=POISON in text, scale=self.scale)
            self.fill(bar, text)
            yield bar

    def _change(self, scale: Scale | None) -> None:
        """Another scale from here on, in which numerals are other chords."""
        if scale is not None and scale != self.scale:
            self.scale, self.frame = scale, replace(self.frame, scale=scale)
            self.memo.clear()

    def fill(self, bar: ChordBar, text: str) -> None:
        """Reads the cells of a bar into its changes; what is wrong is reported, and the bar is then broken."""
        key = (bar.at, bar.meter, bar.length, bar.scale)
        report = self.report.fork() if key in self.seen else self.report
        self.seen.add(key)
        found = cells(text)
        if found.trouble:
            bar.broken = True
            report.add(music.UNBALANCED, "the parentheses of this bar do not match", bar.at)
            return
        count = max(1, len(found.texts))
        if not self.report.room_for(count, bar.at):
            return
        parts = shares(count, bar.meter, bar.length)
        starts = self.report.origins.starts(bar.at)
        if parts is None:
            bar.broken = True
            what = f"a bar of {bar.meter}" if bar.length == bar.meter.quarters else "the pickup"
            report.add(
                music.UNEVEN_SHARES,
                f"{count} chords do not share {what} evenly",
                bar.at,
                expected=f"a cell for each share, such as {_regular(found.texts, bar.meter)}, with . where a chord goes on",
            )
            parts = (bar.length, *(Fraction(0) for _ in range(count - 1)))
        onset = Fraction(0)
        for cell, place, share in zip(found.texts, found.places, parts, strict=False):
            whole = self.report.origins.span(bar.at)
            span = Span(starts[place], starts[place] + len(cell)) if starts else whole
            if cell == ".":
                if not self.begun:
                    self.begun = True
                    report.add(music.NOTHING_TO_HOLD, "there is no chord before this one that could go on", bar.at, span=span)
            else:
                self.begun = True
                bar.changes.append(Change(onset, self._symbol(cell, bar.at, span, report), span, place))
            onset += share

    def _symbol(self, cell: str, at: Pointer, span: Span, report: Report) -> ChordSymbol | None:
        """The chord of a cell in the key in force; its shape, if it has one, is where that key has it."""
        if cell == POISON:
            return None
        known = self.memo.get(cell)
        if known is None:
            symbol, shape = chord_of(cell, self.frame, at, span, report)
            if symbol is None:
                return None
            by = self.frame.move.semitones if self.frame.move else 0
            known = self.memo[cell] = replace(symbol, shape=moved_shape(shape, self.frame.neck, by) if shape else None)
        return known


def moved_shape(shape: Shape, neck: Neck, by: int) -> Shape | None:
    """A shape so many half steps up or down the neck, in the nearest octave that the neck has; None if it has open strings, or no place."""
    if by % 12 == 0:
        return shape
    if not all(shape[at] != 0 for at in range(len(shape))):
        return None
    for way in (by, by - 12 if by > 0 else by + 12):
        frets: list[int | None] = []
        for string, fret in zip(range(len(shape), 0, -1), shape, strict=True):
            midi, cents = neck.sound_at(string, fret or 0)
            frets.append(None if fret is None else neck.fret_of(midi + way, string, cents) or 0)
        if 0 not in frets:
            return tuple(frets)
    return None


def _regular(texts: Sequence[str], meter: Meter) -> str:
    """A bar of one cell a beat: the first chords that were written, the very first of them as long as need be."""
    beats = len(meter.pulses)
    first, *others = texts[:beats]
    return " ".join((first, *(["."] * (beats - 1 - len(others))), *others))
