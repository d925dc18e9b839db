"""Systems of rows as bars of columns: rows brought to the same bars, repeated bars fetched, columns counted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from tabforge.compile.cells import Cells, cells
from tabforge.compile.durations import RhythmBar, rhythm_bar
from tabforge.compile.report import Report
from tabforge.compile.rowtroubles import tell_troubles
from tabforge.compile.sounding import REST, Problem, Resolver, Sound
from tabforge.diagnostics.catalogue import music
from tabforge.model.harmony import ChordSymbol
from tabforge.model.score import Scale
from tabforge.source import Span
from tabforge.syntax.document import System, Voice
from tabforge.syntax.grammar import POISON, SOUNDING
from tabforge.syntax.origins import Pointer

SIDE_ROWS = ("marks", "dynamics", "fingers", "picks", "words", "chords")


@dataclass(slots=True)
class VoiceBar:
    """One bar of one voice as columns. ``sides`` holds the rows beside the sounding one that say something in this bar.

    ``spans`` has the place of each column's sounding cell. ``poisoned``: something in it was reported, so its length says nothing.
    ``scale`` is the one in force, None for the block's own.
    """

    rhythm: RhythmBar
    sounds: list[Sound]
    spans: list[Span]
    sides: dict[str, tuple[Cells, Pointer]]
    at: Pointer
    rhythm_at: Pointer
    poisoned: bool = False
    chords: tuple[ChordSymbol | None, ...] = ()
    scale: Scale | None = None

    @classmethod
    def silent(cls) -> VoiceBar:
        """A bar in which a voice is absent."""
        return cls(RhythmBar((), Fraction(0)), [], [], {}, (), (), poisoned=True)


@dataclass(slots=True)
class VoiceReader:
    """Reads one voice of a riff system after system, keeping what later bars refer to."""

    resolver: Resolver
    report: Report
    rhythm: tuple[Sequence[str], Pointer] | None = None
    before: dict[str, tuple[str, Pointer]] = field(default_factory=dict)
    string_before: int | None = None
    scale: Scale | None = None
    resolvers: dict[Scale, Resolver] = field(default_factory=dict)

    def read(self, system: Voice | System, at: Pointer, scales: Sequence[Scale | None] = (), count: int | None = None) -> list[VoiceBar]:
        """The bars of one system. ``scales``: those that come into force with its bars. ``count`` is how many bars the first voice has, for
        the second.
        """
        kinds = [word for word in SOUNDING if word in system]
        if not kinds:
            self.report.add(music.NOTHING_SOUNDS, "this system has no row of degrees, frets or notes", at)
            return []
        if len(kinds) > 1:
            self.report.add(music.TWO_SOUND, f"this system has both {kinds[0]} and {kinds[1]}", (*at, kinds[1]))
        kind = kinds[0]
        row: list[str] = system[kind]  # type: ignore[literal-required]  # one of the three
        if system.get("rhythm"):
            self.rhythm = (system["rhythm"], (*at, "rhythm"))
        if self.rhythm is None:
            self.report.add(music.NO_RHYTHM, "this riff has no rhythm yet", (*at, kind), expected="a row such as: rhythm  e e e e")
            return []
        if count is not None and count != len(row):
            headline = f"the second voice has {_bars(len(row))} here, the first has {_bars(count)}"
            self.report.add(music.VOICES_DIFFER, headline, (*at, kind))
        self._check_lengths(system, len(row), at, kind)
        found = []
        for index, text in enumerate(row):
            if self.report.exhausted:
                break
            scale = scales[index] if index < len(scales) else None
            if scale is not None:
                self.change(scale)
            found.append(self._bar(system, at, kind, index, text))
        return found

    def change(self, scale: Scale) -> None:
        """Another scale from here on. What was read under it before is remembered."""
        string = self.resolver.string
        if scale not in self.resolvers:
            self.resolvers[scale] = Resolver(replace(self.resolver.frame, scale=scale))
        self.scale, self.resolver = scale, self.resolvers[scale]
        self.resolver.string = string

    def _check_lengths(self, system: Voice | System, count: int, at: Pointer, kind: str) -> None:
        for word in ("rhythm", *SIDE_ROWS):
            other: Sequence[str] = system.get(word, ())  # type: ignore[assignment]  # a row
            if len(other) > count:
                self.report.add(
                    music.BARS_DIFFER,
                    f"the row of {word} has {_bars(len(other))}, the row of {kind} has {_bars(count)}",
                    (*at, word, count),
                )

    def _bar(self, system: Voice | System, at: Pointer, kind: str, index: int, text: str) -> VoiceBar:
        assert self.rhythm is not None
        pattern, rhythm_row = self.rhythm
        rhythm_index = index % len(pattern)
        rhythm_text, rhythm_at = self._fetch("rhythm", pattern[rhythm_index], (*rhythm_row, rhythm_index))
        again = text == "%"
        text, sound_at = self._fetch(kind, text, (*at, kind, index))
        if again and kind == "frets":
            self.resolver.string = self.string_before
        self.string_before = self.resolver.string
        found = cells(text)
        bar = VoiceBar(rhythm_bar(rhythm_text), [], [], {}, sound_at, rhythm_at, scale=self.scale)
        if found.trouble or bar.rhythm.troubles:
            bar.poisoned = True
            tell_troubles(found, bar.at, bar.rhythm, bar.rhythm_at, self.report)
        self._sound(bar, kind, found)
        columns = len(bar.sounds)
        self.report.room_for(max(columns, len(bar.rhythm.slots)), sound_at)
        if columns != len(bar.rhythm.slots):
            self._columns_differ(bar, columns, kind)
        for word in SIDE_ROWS:
            row: Sequence[str] | None = system.get(word)  # type: ignore[assignment]  # a row
            side = row[index] if row is not None and index < len(row) else ""
            if not side and again and word not in ("words", "chords", "dynamics"):
                side = "%" if word in self.before else ""
            if side:
                self._side(bar, word, *self._fetch(word, side, (*at, word, index)), columns)
            else:
                self.before.pop(word, None)
        return bar

    def _fetch(self, row: str, text: str, at: Pointer) -> tuple[str, Pointer]:
        """A bar's own text, or that of the bar before where it says ``%``; either is the next bar's bar before."""
        if text == "%":
            if row not in self.before:
                self.report.add(music.NO_BAR_BEFORE, "there is no bar before this one to repeat", at)
                return POISON, at
            return self.before[row]
        self.before[row] = (text, at)
        return text, at

    def _sound(self, bar: VoiceBar, kind: str, found: Cells) -> None:
        origins = self.report.origins
        starts = origins.starts(bar.at)
        sounds = self.resolver.sounds(kind, found.texts)
        spans = bar.spans
        if starts:
            for text, place in zip(found.texts, found.places, strict=True):
                start = starts[place]
                spans.append(Span(start, start + len(text)))
        else:
            spans.extend([origins.span(bar.at)] * len(sounds))
        for index, sound in enumerate(sounds):
            if isinstance(sound, Problem):
                self.report.add(sound.code, sound.headline, bar.at, span=spans[index], expected=sound.expected, help=sound.help)
                sounds[index] = REST
                bar.poisoned = True
        bar.sounds = sounds  # type: ignore[assignment]  # problems have been replaced
        if "?" in found.texts:
            bar.poisoned = True

    def _columns_differ(self, bar: VoiceBar, columns: int, kind: str) -> None:
        slots = len(bar.rhythm.slots)
        if not bar.poisoned:
            self.report.add(
                music.COLUMNS_DIFFER,
                f"the rhythm has {_columns(slots)} in this bar, the row of {kind} has {_columns(columns)}",
                bar.at,
                label=_columns(columns),
                expected=f"{_columns(slots)}, as in the rhythm",
            )
        bar.poisoned = True
        bar.sounds = (bar.sounds + [REST] * slots)[:slots]
        last = bar.spans[-1] if bar.spans else self.report.origins.span(bar.at)
        bar.spans = (bar.spans + [last] * slots)[:slots]

    def _side(self, bar: VoiceBar, word: str, text: str, at: Pointer, columns: int) -> None:
        found = cells(text, word == "words")
        if found.trouble:
            self.report.add(music.UNBALANCED, "the parentheses of this bar do not match", at)
            return
        count = len(found.texts)
        self.report.room_for(max(0, count - columns), at)
        if count == columns or (word == "chords" and count < columns):
            if columns == len(bar.sounds):  # else notes were cut or added to fill the rhythm, and no column is its note's any more
                bar.sides[word] = (found, at)
        elif not bar.poisoned and count:
            self.report.add(
                music.COLUMNS_DIFFER,
                f"the row of {word} has {_columns(count)} in this bar, the notes have {_columns(columns)}",
                at,
                label=_columns(count),
                expected=f"{_columns(columns)}; write . where there is nothing",
            )


def _columns(count: int) -> str:
    return "1 column" if count == 1 else f"{count} columns"


def _bars(count: int) -> str:
    return "1 bar" if count == 1 else f"{count} bars"
