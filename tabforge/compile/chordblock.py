"""Chord blocks: a progression under a rhythm of strokes, as bars of columns pinned to string and fret."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import accumulate

from tabforge.compile.cells import Cells
from tabforge.compile.durations import RhythmBar, Slot
from tabforge.compile.frame import Frame
from tabforge.compile.grips import Grips, grips_of, shown
from tabforge.compile.patterns import STRUCK, Patterns, Strokes
from tabforge.compile.plucking import NOTHING, SILENCE, Plucking, Sides
from tabforge.compile.progression import Change, ChordBar, ProgressionReader
from tabforge.compile.report import Report
from tabforge.compile.rows import VoiceBar
from tabforge.compile.sounding import Sound
from tabforge.diagnostics.catalogue import music
from tabforge.fretboard.gripped import Grip
from tabforge.model.harmony import ChordSymbol
from tabforge.model.meter import Meter
from tabforge.model.score import Scale
from tabforge.source import Span
from tabforge.syntax.document import Block
from tabforge.syntax.origins import Pointer


def chord_bars(
    block: Block, meters: Sequence[Meter], scales: Sequence[Scale | None], frame: Frame, at: Pointer, report: Report
) -> list[VoiceBar]:
    """The bars of a chord block; ``meters`` has one for each, ``scales`` what comes into force with them, if anything ever does."""
    reader, patterns = ProgressionReader(frame, report), Patterns(report)
    bars: list[tuple[ChordBar, Strokes | None]] = []
    for number, system in enumerate(block.get("systems", ())):
        place: Pointer = (*at, "systems", number)
        patterns.take(system, place)
        for bar in reader.read(system, place, meters[len(bars) :], number == 0, scales[len(bars) :]):
            strokes = patterns.strokes(bar)
            if not report.room_for(len(strokes.found.texts) if strokes else len(bar.changes), bar.at):
                return []
            bars.append((bar, strokes))
    grips = grips_of(block, [bar for bar, _ in bars], frame, at, report)
    writer = _Writer(frame, report, grips, Plucking(frame, report), block.get("diagrams") == "show")
    return [writer.written(bar, strokes) for bar, strokes in bars]


@dataclass(slots=True)
class _Columns:
    """The columns of one bar while they are made."""

    sounds: list[Sound] = field(default_factory=list)
    spans: list[Span] = field(default_factory=list)
    symbols: list[ChordSymbol | None] = field(default_factory=list)
    marks: list[str] = field(default_factory=list)
    picks: list[str] = field(default_factory=list)
    fingers: list[str] = field(default_factory=list)
    places: list[int] = field(default_factory=list)

    def add(self, sound: Sound, span: Span, symbol: ChordSymbol | None, place: int, sides: Sides) -> None:
        """Adds a column. ``sides``: what stands under it in marks, picks and fingers."""
        self.sounds.append(sound)
        self.spans.append(span)
        self.symbols.append(symbol)
        self.places.append(place)
        for row, text in zip((self.marks, self.picks, self.fingers), sides, strict=True):
            row.append(text)


@dataclass(slots=True)
class _Writer:
    """Makes bars in order.

    ``now`` is the change in force, ``struck`` and ``last`` the one that was struck last and its grip; ``ringing``: something can ring on.
    ``told`` is the symbol that was shown last, ``charts`` the grips that were.
    """

    frame: Frame
    report: Report
    grips: Grips
    plucking: Plucking
    diagrams: bool
    now: Change | None = None
    struck: Change | None = None
    last: Grip | None = None
    ringing: bool = False
    told: ChordSymbol | None = None
    charts: set[tuple[str, tuple[int | None, ...]]] = field(default_factory=set)

    def written(self, bar: ChordBar, strokes: Strokes | None) -> VoiceBar:
        """A bar under its strokes, or of chords that are struck once."""
        if bar.scale is not None:
            self.plucking.frame = replace(self.frame, scale=bar.scale)
        made = self._patterned(bar, strokes) if strokes else self._struck_once(bar)
        made.scale = bar.scale
        return made

    def _struck_once(self, bar: ChordBar) -> VoiceBar:
        """A bar in which each chord is struck once and rings until the next."""
        onsets = [change.onset for change in bar.changes]
        ends = [*onsets, bar.length][1:]
        slots = [Slot(end - onset, ()) for onset, end in zip(onsets, ends, strict=True)]
        columns = _Columns()
        before = onsets[0] if onsets else bar.length
        if before:
            slots.insert(0, Slot(before, ()))
            columns.add(None if self.ringing else (), self.report.origins.span(bar.at), None, 0, SILENCE)
        for change in bar.changes:
            self.now = change
            self._stroke(columns, STRUCK, change.place, "", bar.at)
        made = RhythmBar(tuple(slots), sum((slot.quarters for slot in slots), Fraction(0)))
        return self._bar(bar, made, columns, bar.at, bar.at)

    def _patterned(self, bar: ChordBar, strokes: Strokes) -> VoiceBar:
        """A bar under its strokes: each plays the chord that is in force where it stands."""
        columns = _Columns()
        waiting = list(bar.changes)
        onsets = accumulate((slot.quarters for slot in strokes.rhythm.slots), initial=Fraction(0))
        for onset, text, place in zip(onsets, strokes.found.texts, strokes.found.places, strict=False):
            while waiting and waiting[0].onset <= onset:
                self._change(waiting.pop(0), bar, strokes)
            self._stroke(columns, text, place, strokes.kind, strokes.at)
        for change in waiting:
            self._change(change, bar, strokes)
        self._passed(bar, strokes)
        return self._bar(bar, strokes.rhythm, columns, strokes.at, strokes.rhythm_at, strokes.broken)

    def _change(self, change: Change, bar: ChordBar, strokes: Strokes) -> None:
        """Another chord comes into force; one that had no stroke is told."""
        if self.now in bar.changes:
            self._passed(bar, strokes)
        self.now = change

    def _passed(self, bar: ChordBar, strokes: Strokes) -> None:
        now = self.now
        if now is None or now is self.struck or now.symbol is None or id(now) not in self.grips or bar.broken or strokes.broken:
            return
        if strokes.rhythm.quarters != bar.length:
            return
        if self.struck is not None and self.struck.symbol == now.symbol:
            return
        self.struck = now  # once
        self.report.add(
            music.NEVER_STRUCK,
            f"{now.symbol.text} is never struck: no stroke falls into its share of the bar",
            bar.at,
            span=now.span,
            expected="a rhythm that has a stroke there; or . for this chord, so that the one before goes on",
        )

    def _stroke(self, columns: _Columns, text: str, place: int, kind: str, at: Pointer) -> None:
        """Adds the column of a stroke. ``at``: the bar of the row that it is written in, ``place`` its token there."""
        now = self.now
        span = now.span if now is not None else Span(0, 0)
        if text == NOTHING and self.ringing:
            columns.add(None, span, None, place, SILENCE)
            return
        symbol = now.symbol if now is not None else None
        grip = self.grips.get(id(now))
        sound: Sound = ()
        name, sides = None, SILENCE
        if symbol is not None and symbol.root is None:
            name = self._told(symbol, None)
            if text[0] == "x":
                sound, sides = self.plucking.muffled(self.last), (NOTHING, text[1], NOTHING)
        elif symbol is not None and grip is not None and text not in ("r", "?", NOTHING):
            if kind == "picking":
                sound, sides = self.plucking.picked(text, symbol, grip, at, self._cell(at, place, text))
            else:
                sound, sides = self.plucking.strummed(text, symbol, grip)
            name, self.struck, self.last = self._told(symbol, grip), now, grip
        self.ringing = bool(sound)
        columns.add(sound, span, name, place, sides)

    def _cell(self, at: Pointer, place: int, text: str) -> Span | None:
        starts = self.report.origins.starts(at)
        return Span(starts[place], starts[place] + len(text)) if place < len(starts) else None

    def _told(self, symbol: ChordSymbol, grip: Grip | None) -> ChordSymbol | None:
        """The symbol to be written: where it is not the one before, with its chart where that grip has not been shown."""
        name = shown(symbol, None)
        if name == self.told and (grip is None or not self.diagrams or (name.text, grip.shape) in self.charts):
            return None
        self.told = name
        if grip is None or not self.diagrams or (name.text, grip.shape) in self.charts:
            return name
        self.charts.add((name.text, grip.shape))
        return shown(symbol, grip)

    def _bar(self, bar: ChordBar, rhythm: RhythmBar, columns: _Columns, at: Pointer, rhythm_at: Pointer, broken: bool = False) -> VoiceBar:
        made = VoiceBar(rhythm, columns.sounds, columns.spans, {}, bar.at, rhythm_at, poisoned=bar.broken or broken)
        for word, texts in (("marks", columns.marks), ("picks", columns.picks), ("fingers", columns.fingers)):
            if any(text != NOTHING for text in texts):
                made.sides[word] = (Cells(tuple(texts), tuple(columns.places)), at)
        if any(columns.symbols):
            texts = [symbol.text if symbol else NOTHING for symbol in columns.symbols]
            made.sides["chords"] = (Cells(tuple(texts), tuple(columns.places)), at)
            made.chords = tuple(columns.symbols)
        return made
