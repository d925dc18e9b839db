"""Random scores for the writer: any number of strings, meters, tuplets, two voices, all techniques, ties, extents, repeats and endings,
dynamics and hairpins, chord grips, signs of the way, bars of rest."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import strategies as st

from tabforge.model.events import DYNAMICS, HAIRPINS, NOTHING_ATTACHED, Attached, Event, Hairpin, Note, Word
from tabforge.model.harmony import ChordSymbol
from tabforge.model.meter import TEMPO_CHANGES
from tabforge.model.pitch import Pitch
from tabforge.model.score import PLAIN_LINE, SIGNS, Bar, BarLine, Score, Section
from tabforge.model.techniques import TECHNIQUES, Amount, Mark, Role, parse_mark, with_role
from tabforge.model.tuning import Tuning
from tests.writers.ascii.build import chord, event, meter, section, tempo, tuning, tuplet, voice
from tests.writers.ascii.build import score as make_score

TUNINGS = (
    "C3 E3 A3", "G4 C4 E4 A4", "E1 A1 D2 G2", "G4 D3 G3 B3 D4", "E2 A2 D3 G3 B3 E4", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4", "D2 A2 D3 F#3 A3 D4",
    "B1 E2 A2 D3 G3 B3 E4", "F#1 B1 E2 A2 D3 G3 B3 E4", "C#1 F#1 B1 E2 A2 D3 G3 B3 E4", "E2 E3 A2 A3 D3 D4 G3 G4 B3 B3 E4 E4",
)  # fmt: skip
BEATS: dict[str, tuple[str, ...]] = {
    "4": (
        "q", "e e", "e. s", "s e.", "s s s s", "e s s", "t t s e", "3:2 e e e", "3:2 q e", "5:4 s s s s s", "7:4 s s s s s s s",
        "3:2 e 3:2 s s s e",
    ),
    "8": ("e", "s s", "s. t", "3:2 s s s", "t t t t"),
    "2": ("h", "q q", "q. e", "3:2 q q q", "4:3 e. e. e. e."),
}
"""Ways of filling one unit of the meter; ``3:2`` makes a tuplet of the rest, a second one inside it of the next three."""
METERS = ("4/4", "3/4", "2/4", "5/4", "6/8", "7/8", "2+2+3/8", "12/8", "2/2", "1/4", "1/8")
LEFT = (PLAIN_LINE, PLAIN_LINE, BarLine(repeat="forward"), BarLine(endings=(1, 2)), BarLine(style="double"))
RIGHT = (
    PLAIN_LINE, PLAIN_LINE, BarLine(repeat="backward", times=3), BarLine(repeat="backward", endings=(1,)), BarLine(style="final"),
    BarLine(style="double", endings=(2,), hooked=False),
)  # fmt: skip
AMOUNTS = {
    Amount.NONE: ("",),
    Amount.WHOLE_STEPS: ("1/4", "1/2", "3/4", "1", "5/4", "3/2", "7/4", "2"),
    Amount.FRETS: ("1", "3", "12"),
    Amount.STROKES: ("1", "2", "3"),
}

EXTENTS = {
    "pm": "palm mute", "lr": "let ring", "ba1": "barre", "ba9": "barre", "ba18": "barre", "hb4": "half barre", "8va": "octave higher",
    "8vb": "octave lower", "15ma": "two octaves higher",
}  # fmt: skip


@st.composite
def _marks(draw: st.DrawFn, scope: str) -> tuple[Mark, ...]:
    techniques = [each for each in TECHNIQUES if each.scope == scope and each.name not in ("dead note", *EXTENTS.values())]
    chosen = draw(st.lists(st.sampled_from(techniques), max_size=2, unique_by=lambda each: each.name))
    made = []
    for technique in chosen:
        text = technique.form.replace("#", draw(st.sampled_from(AMOUNTS[technique.amount])))
        mark = parse_mark(text)
        assert mark
        role = Role.START if technique.leads else Role.SINGLE
        if technique.extends:
            role = draw(st.sampled_from(list(Role)))
        made.append(with_role(mark, role))
    return tuple(made)


@st.composite
def _chord(draw: st.DrawFn) -> ChordSymbol:
    """A chord symbol; its grip, if it has one, is fitted to the strings afterwards."""
    symbol = chord(draw(st.sampled_from(("Am7", "F#m7b5", "Bb/D", "N.C."))))
    shapes = st.lists(st.sampled_from((None, 0, 1, 2, 3, 5, 7, 12)), min_size=12, max_size=12)
    return replace(symbol, shape=draw(st.none() | shapes.map(tuple)))


def _fitted(each: Event, strings: int) -> Event:
    symbol = each.attached.chord
    if symbol is None or symbol.shape is None:
        return each
    return replace(each, attached=replace(each.attached, chord=replace(symbol, shape=symbol.shape[:strings])))


@st.composite
def _event(draw: st.DrawFn, shape: Event, strings: list[int], before: Event | None, rich: bool) -> Event:
    kind = draw(st.sampled_from("nnnnnnrct"))
    if kind == "r":
        return replace(shape, notes=())
    if kind == "t" and before is not None and before.notes and not shape.grace:
        tied = tuple(replace(note, tied_in=True, marks=()) for note in before.notes)
        if rich and draw(st.booleans()):
            tied = tuple(replace(note, tied_in=draw(st.booleans())) for note in tied)
        return replace(shape, notes=tied)
    count = draw(st.integers(1, len(strings))) if kind == "c" else 1
    chosen = sorted(draw(st.lists(st.sampled_from(strings), min_size=count, max_size=count, unique=True)))
    notes = []
    for string in chosen:
        marks: tuple[Mark, ...] = ()
        if rich and draw(st.integers(0, 3)) == 0:
            marks = draw(_marks("note"))
            if draw(st.integers(0, 5)) == 0:
                marks = (*marks, parse_mark("x"))  # type: ignore[assignment]
        finger = draw(st.sampled_from((None, None, "1", "4", "T"))) if rich else None
        pluck = draw(st.sampled_from((None, None, "p", "a"))) if rich else None
        fret = draw(st.integers(0, 24))
        notes.append(Note(pitch=Pitch("C", 0, 4), string=string, fret=fret, marks=marks, finger=finger, pluck=pluck))
    made = replace(shape, notes=tuple(notes))
    if rich and draw(st.integers(0, 3)) == 0:
        made = replace(
            made,
            marks=draw(_marks("event")),
            attached=Attached(
                chord=draw(_chord()) if draw(st.booleans()) else None,
                word=Word(text=draw(st.sampled_from(("la", "harbour", "né"))), hyphen=draw(st.booleans())) if draw(st.booleans()) else None,
                stroke=draw(st.sampled_from((None, "d", "u"))),
            ),
        )
    return made


def _shapes(pattern: str) -> list[Event]:
    words = pattern.split()
    if ":" in words[0]:
        ratio, *rest = words
        inner: list[Any] = []
        while rest:
            if ":" in rest[0]:
                inner.extend(tuplet(rest[0], *(event(f"{value} r") for value in rest[1:4])))
                rest = rest[4:]
            else:
                inner.append(event(f"{rest[0]} r"))
                rest = rest[1:]
        return list(tuplet(ratio, *inner))
    return [event(f"{value} r") for value in words]


@st.composite
def _voice(draw: st.DrawFn, time: str, strings: list[int], before: list[Event], rich: bool) -> tuple[Event, ...]:
    groups, _, unit = time.partition("/")
    events: list[Event] = []
    for _ in range(sum(int(each) for each in groups.split("+"))):
        for shape in _shapes(draw(st.sampled_from(BEATS[unit]))):
            if rich and draw(st.integers(0, 9)) == 0:
                events.append(draw(_event(event(draw(st.sampled_from(("g r", "gs r", "g! r")))), strings, None, False)))
            last = events[-1] if events else before[0] if before else None
            events.append(draw(_event(shape, strings, last if last is None or not last.grace else None, rich)))
    before[:] = events[-1:]
    return voice(events)


def _extent(events: list[Event], form: str, first: int, last: int) -> None:
    mark = parse_mark(form)
    assert mark
    for at in range(first, last + 1):
        role = Role.SINGLE if first == last else Role.START if at == first else Role.STOP if at == last else Role.INSIDE
        events[at] = replace(events[at], marks=(*events[at].marks, with_role(mark, role)))


@st.composite
def _extents(draw: st.DrawFn, bars: list[tuple[Event, ...]]) -> list[tuple[Event, ...]]:
    """Palm mutes, let rings, barres and octave lines over some stretches, bar lines no matter."""
    flat = [each for bar in bars for each in bar]
    for forms in (("pm",), ("lr",), ("ba1", "ba9", "ba18"), ("hb4",), ("8va", "8vb", "15ma")):
        at = draw(st.integers(0, 9))
        while at < len(flat):
            last = min(len(flat) - 1, at + draw(st.integers(0, 9)))
            _extent(flat, draw(st.sampled_from(forms)), at, last)
            at = last + 1 + draw(st.integers(0, 9))
    rest = iter(flat)
    return [tuple(next(rest) for _ in bar) for bar in bars]


def _hang(events: list[Event], at: int, dynamic: str | None = None, *hairpins: Hairpin) -> None:
    attached = events[at].attached
    events[at] = replace(
        events[at], attached=replace(attached, dynamic=dynamic or attached.dynamic, hairpins=(*attached.hairpins, *hairpins))
    )


@st.composite
def _loudness(draw: st.DrawFn, bars: list[tuple[Event, ...]]) -> list[tuple[Event, ...]]:
    """Dynamics and hairpins: each hairpin ends where a dynamic or another one follows, or with the end of an event."""
    flat = [each for bar in bars for each in bar]
    kind: str | None = None
    for at in range(len(flat)):
        does = draw(st.sampled_from("......dh<e"))
        if does in "dh<" and kind:
            _hang(flat, at, None, Hairpin(kind=kind, begins=False))
            kind = None
        if does in "dh":
            _hang(flat, at, draw(st.sampled_from(DYNAMICS)))
        if does in "h<":
            kind = draw(st.sampled_from(list(HAIRPINS.values())))
            _hang(flat, at, None, Hairpin(kind=kind, begins=True))
        if kind and (at == len(flat) - 1 or (does in "e<h" and draw(st.booleans()))):
            _hang(flat, at, None, Hairpin(kind=kind, begins=False, through=True))
            kind = None
    rest = iter(flat)
    return [tuple(next(rest) for _ in bar) for bar in bars]


def silenced(events: tuple[Event, ...]) -> tuple[Event, ...]:
    """The same rhythm as rests alone."""
    return tuple(replace(each, notes=(), marks=(), attached=NOTHING_ATTACHED) for each in events if not each.grace)


@st.composite
def sections(draw: st.DrawFn, rich: bool = True, max_bars: int = 6) -> Section:
    strings: Tuning = tuning(draw(st.sampled_from(TUNINGS)))
    half = len(strings) // 2
    two = draw(st.booleans())
    numbers = list(range(1, half + 1)) if two else list(range(1, len(strings) + 1))
    uppers, lowers, times = [], [], []
    before: tuple[list[Event], list[Event]] = ([], [])
    for _ in range(draw(st.integers(1, max_bars))):
        rest = draw(st.integers(0, 3)) == 0
        time = times[-1] if rest and times else draw(st.sampled_from(METERS))
        times.append(time)
        for voices, mine, last in ((uppers, numbers, before[0]), (lowers, list(range(half + 1, len(strings) + 1)), before[1])):
            if two or voices is uppers:
                made = draw(_voice(time, mine, last, rich))
                voices.append(silenced(made) if rest else tuple(_fitted(each, len(strings)) for each in made))
                last[:] = [] if rest else last
    if rich:
        uppers = draw(_extents(uppers))
        lowers = draw(_extents(lowers)) if two else lowers
        if draw(st.booleans()):
            uppers = draw(_loudness(uppers))
            lowers = draw(_loudness(lowers)) if two else lowers
    bars = []
    for place, (time, upper) in enumerate(zip(times, uppers, strict=True)):
        voices = (upper, lowers[place]) if two else (upper,)
        plain = draw(st.booleans())
        left, right = (PLAIN_LINE, PLAIN_LINE) if plain else (draw(st.sampled_from(LEFT)), draw(st.sampled_from(RIGHT)))
        beat = draw(st.sampled_from((None, None, tempo(96), tempo(60.5, "q.", "Slowly"))))
        ticks = sum(each.ticks for each in upper)
        made_bar = Bar(meter=meter(time), ticks=ticks, voices=voices, left=left, right=right, tempo=beat)
        bars.append(made_bar if plain or not rich else draw(_on_the_way(made_bar)))
    capo = draw(st.none() | st.just((2, (3, 2))))
    title = draw(st.sampled_from(("", "Climb", "Tide table")))
    return section(title, *bars, strings=strings, capo=draw(st.integers(0, 3)), partial_capo=capo)


@st.composite
def _on_the_way(draw: st.DrawFn, bar: Bar) -> Bar:
    signs = draw(st.lists(st.sampled_from(list(SIGNS)), max_size=3, unique=True))
    return replace(
        bar,
        signs=tuple(signs),
        rehearsal=draw(st.sampled_from((None, "A", "Bridge"))),
        new_line=draw(st.booleans()),
        tempo_change=draw(st.sampled_from((None, *TEMPO_CHANGES))),
    )


@st.composite
def scores(draw: st.DrawFn, rich: bool = True) -> Score:
    return make_score(*draw(st.lists(sections(rich), min_size=1, max_size=3)), left_handed=draw(st.booleans()))
