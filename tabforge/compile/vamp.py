"""A vamp: chords behind a block, begun again until it ends, each led to the next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final

from tabforge.compile.cells import Cells
from tabforge.compile.drone import every_of
from tabforge.compile.frame import Frame
from tabforge.compile.patterns import STRUCK
from tabforge.compile.places import BarPlace, grid, rhythm_at
from tabforge.compile.plucking import NOTHING, Plucking
from tabforge.compile.progression import Change, ChordBar, ProgressionReader
from tabforge.compile.report import Report
from tabforge.compile.rows import VoiceBar
from tabforge.compile.sounding import Sound
from tabforge.diagnostics.catalogue import music
from tabforge.diagnostics.catalogue import neck as neck_codes
from tabforge.fretboard.gripped import Grip
from tabforge.fretboard.voicings import VoicingStyle, choose_grips
from tabforge.model.harmony import ChordSymbol
from tabforge.model.meter import Meter
from tabforge.model.score import Scale
from tabforge.syntax.document import VampSetting
from tabforge.syntax.origins import Pointer
from tabforge.theory.colour import advised_vamp

_STYLE: Final = VoicingStyle(kind="free", inversion=0)
"""A vamp carries the harmony, so its chords stand on their roots where the neck allows."""

_ANY: Final = VoicingStyle(kind="free")


def vamp_bars(places: Sequence[BarPlace], given: VampSetting, frame: Frame, report: Report) -> list[VoiceBar]:
    """A bar of columns for each place. The vamp begins with the first whole bar; it is silent in a pickup."""
    every = every_of(given.get("every"), frame.beside.vamp_at, report)
    again = grid(places, every) if every else [[] for _ in places]
    rounds: dict[Scale | None, _Round] = {}
    writer = _Writer(frame, report)
    bars = []
    number = -1
    for index, (place, onsets) in enumerate(zip(places, again, strict=True)):
        if place.scale not in rounds:
            rounds[place.scale] = _Round(given["chords"], replace(frame, scale=place.scale), report)
        turn = rounds[place.scale]
        if index == 0 and place.offset:
            bars.append(writer.silent(place))
            continue
        number += not place.offset
        bars.append(writer.bar(place, turn, turn.bar(max(0, number), place.meter), onsets))
    return bars


@dataclass(slots=True)
class _Round:
    """The bars of a vamp under one scale, read once for each meter. ``grips`` are those of its chords, each led to the next."""

    given: str | list[str]
    frame: Frame
    report: Report
    texts: list[tuple[str, Pointer]] = field(init=False)
    made: dict[tuple[int, Meter], ChordBar] = field(default_factory=dict)
    grips: dict[ChordSymbol, Grip | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Reads what is to be played: a pointer stands beside the text of each bar."""
        at: Pointer = (*self.frame.beside.vamp_at, "chords")
        self.texts = self._advised(at) if isinstance(self.given, str) else self._written(self.given, at)

    def _advised(self, at: Pointer) -> list[tuple[str, Pointer]]:
        scale = self.frame.scale
        if scale is None:
            said = "an advised vamp needs a scale to be advised for"
            self.report.add(music.NO_SCALE, said, at, expected="a line such as: scale Bb2 lydian")
            return []
        found = advised_vamp(scale)
        if not found:
            said = f"no vamp can be advised for {scale.root.pitch_class} {scale.name}: it holds no chord on its root"
            self.report.add(music.NO_ADVICE, said, at, expected="chords of your own, or a drone: drone 1")
        return [(numeral, at) for numeral in found]

    def _written(self, bars: Sequence[str], at: Pointer) -> list[tuple[str, Pointer]]:
        found: list[tuple[str, Pointer]] = []
        for index, text in enumerate(bars):
            if text != "%":
                found.append((text, (*at, index)))
            elif found:
                found.append(found[-1])
            else:
                self.report.add(music.NO_BAR_BEFORE, "there is no bar before this one to repeat", (*at, index))
        return found

    def bar(self, number: int, meter: Meter) -> ChordBar:
        """The chords of the section's whole bar of a number, from 0."""
        if not self.texts:
            return ChordBar(meter.quarters, meter, self.frame.beside.vamp_at, 0, broken=True)
        turn = number % len(self.texts)
        if (turn, meter) not in self.made:
            for index in range(len(self.texts)):  # all of them, so that grips are chosen for the whole round
                self._read(index, meter)
            self._choose(meter)
        return self.made[turn, meter]

    def _read(self, index: int, meter: Meter) -> None:
        text, at = self.texts[index]
        reader = ProgressionReader(self.frame, self.report, begun=index > 0)
        bar = self.made[index, meter] = ChordBar(meter.quarters, meter, at, index)
        reader.fill(bar, text)

    def _choose(self, meter: Meter) -> None:
        steps = [(bar, change) for index in range(len(self.texts)) for bar in [self.made[index, meter]] for change in bar.changes]
        fresh = [(bar, change) for bar, change in steps if change.symbol is not None and change.symbol.root is not None]
        chords = list(dict.fromkeys(change.symbol for _, change in fresh if change.symbol not in self.grips and change.symbol is not None))
        neck, player = self.frame.neck, self.frame.player
        for chord, rooted in zip(chords, choose_grips(neck, chords, _STYLE, player), strict=True):
            grip = rooted if isinstance(rooted, Grip) else choose_grips(neck, [chord], _ANY, player)[0]
            self.grips[chord] = grip if isinstance(grip, Grip) else None
            if not isinstance(grip, Grip):
                bar, change = next(each for each in fresh if each[1].symbol == chord)
                said = " ".join(part for part in (grip.why, grip.instead) if part) or None
                self.report.add(neck_codes.NO_VOICING, f"{chord.text} of this vamp has no grip", bar.at, span=change.span, help=said)


@dataclass(slots=True)
class _Writer:
    """Writes the bars in order. ``now`` is the change in force, ``ringing``: something sounds; ``told`` the symbol that was shown last."""

    frame: Frame
    report: Report
    now: Change | None = None
    ringing: bool = False
    told: ChordSymbol | None = None

    def silent(self, place: BarPlace) -> VoiceBar:
        """A bar of rest."""
        at = self.frame.beside.vamp_at
        return VoiceBar(rhythm_at(place, [Fraction(0)]), [()], [self.report.origins.span(at)], {}, at, at, scale=place.scale)

    def bar(self, place: BarPlace, turn: _Round, chords: ChordBar, again: Sequence[Fraction]) -> VoiceBar:
        """A bar in which each chord is struck where it begins, and at the onsets of ``again``."""
        begun = {change.onset - place.offset: change for change in chords.changes}
        if place.pieces:
            begun = {Fraction(0): change for onset, change in begun.items() if onset <= 0}
        inside = {onset: change for onset, change in begun.items() if 0 <= onset < place.length}
        onsets = sorted({Fraction(0), *inside, *again})
        plucking = Plucking(replace(self.frame, scale=place.scale), self.report)
        sounds: list[Sound] = []
        symbols: list[ChordSymbol | None] = []
        spans = []
        for onset in onsets:
            self.now = inside.get(onset, self.now)
            struck = onset in inside or onset in again
            sounds.append(self._sound(turn, plucking) if struck else None if self.ringing else ())
            self.ringing = bool(sounds[-1]) or (self.ringing and not struck)
            symbols.append(self._symbol() if struck else None)
            spans.append(self.now.span if self.now is not None else self.report.origins.span(chords.at))
        made = VoiceBar(rhythm_at(place, onsets), sounds, spans, {}, chords.at, chords.at, poisoned=chords.broken, scale=place.scale)
        if any(symbols):
            texts = tuple(symbol.text if symbol else NOTHING for symbol in symbols)
            made.sides["chords"] = (Cells(texts, tuple(range(len(texts)))), chords.at)
            made.chords = tuple(symbols)
        return made

    def _sound(self, turn: _Round, plucking: Plucking) -> Sound:
        symbol = self.now.symbol if self.now is not None else None
        grip = turn.grips.get(symbol) if symbol is not None else None
        return plucking.strummed(STRUCK, symbol, grip)[0] if symbol is not None and grip is not None else ()

    def _symbol(self) -> ChordSymbol | None:
        """The symbol in force, where it is another than the one shown before; a grip need not be shown with it."""
        symbol = self.now.symbol if self.now is not None else None
        if symbol is None or symbol == self.told:
            return None
        self.told = symbol
        return replace(symbol, shape=None)

