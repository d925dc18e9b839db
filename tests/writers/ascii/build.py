"""Small builders of scores, so that the tests of the writer need no other stage.

An event is a text: a duration, then what sounds, then marks: ``"e 6:3"``, ``"q 5:2+4:2 pm<"``, ``"h r"``, ``"q =3:5"`` (held from
before), ``"gs 1:7"`` (a grace note), ``"e x6:0"`` (a dead note). A mark is a technique's form; ``<`` after it begins a reach, ``-``
carries it on, ``>`` ends it; ``@2`` pins it to a string. Other things hang on it with a letter: see ``event``.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from tabforge.model.events import HAIRPINS, NOTHING_ATTACHED, Attached, Event, Hairpin, Note, Word
from tabforge.model.harmony import ChordSymbol
from tabforge.model.meter import Meter, Swing, Tempo
from tabforge.model.pitch import Pitch, parse_pitch, parse_pitch_class, spell_plainly
from tabforge.model.score import PLAIN_LINE, Bar, BarLine, Scale, Score, Section
from tabforge.model.techniques import Mark, Role, parse_mark, with_role
from tabforge.model.tuning import Instrument, Tuning
from tabforge.model.values import BY_LETTER, Ratio, Written
from tabforge.source import Span

DIVISIONS = 480 * 3 * 5 * 7
ROLES = {"<": Role.START, "-": Role.INSIDE, ">": Role.STOP}


def tuning(text: str, name: str | None = None) -> Tuning:
    """Open strings from the lowest to the highest."""
    pitches = [parse_pitch(each) for each in text.split()]
    return Tuning(strings=tuple(pitch for pitch in reversed(pitches) if pitch), name=name)


STANDARD = tuning("E2 A2 D3 G3 B3 E4", "standard")
GUITAR = Instrument(
    name="guitar", label="Guitar", tuning=STANDARD, frets=24, scale_length=648.0, clef="G", clef_line=2, clef_octave=-1, program=26
)


def mark(text: str) -> Mark:
    role = ROLES.get(text[-1]) if len(text) > 1 else None
    found = parse_mark(text[:-1] if role else text)
    assert found is not None, text
    if role is None and found.technique.leads:
        role = Role.START
    return with_role(found, role) if role else found


def _note(text: str, marks: list[Mark], strings: Tuning, more: dict[str, str]) -> Note:
    tied = text.startswith("=")
    text = text.lstrip("=")
    dead = text.startswith("x")
    string, _, fret = text.lstrip("x").partition(":")
    number = int(string)
    own = tuple(each for each in marks if each.technique.scope == "note" and each.string in (None, number))
    if dead:
        own = (*own, mark("x"))
    pitch = spell_plainly(strings.open(number).midi + int(fret))
    return Note(pitch=pitch, string=number, fret=int(fret), marks=own, tied_in=tied, finger=more.get("finger"), pluck=more.get("pluck"))


def event(text: str, strings: Tuning = STANDARD, at: int = 0) -> Event:
    """One event. ``f:1`` is a finger, ``p:i`` a plucking finger, ``s:d`` a stroke, ``c:Am7`` a chord symbol (``c:C@x32010`` with
    its grip, lowest string first, as ``x.10.12`` where a fret has two digits), ``w:lan-`` a word,
    ``d:mf`` a dynamic, ``y:<`` and ``y:>`` begin a hairpin, ``y:|`` ends one here, ``y:.`` with the end of the event (several: ``y:|<``).

    ``at`` is where its span begins.
    """
    value, sounds, *rest = text.split(" ")
    marks = [mark(each) for each in rest if ":" not in each]
    more = dict(each.split(":", 1) for each in rest if ":" in each)
    single = {"finger": more["f"]} if "f" in more else {}
    single |= {"pluck": more["p"]} if "p" in more else {}
    notes = () if sounds == "r" else tuple(_note(each, marks, strings, single) for each in sounds.split("+"))
    grace = None
    if value.startswith("g"):
        grace = "on" if value.endswith("!") else "before"
        value = value.strip("g!") or "e"
    attached = NOTHING_ATTACHED
    if more.keys() & {"c", "w", "s", "d", "y"}:
        word = more.get("w", "").replace("_", " ")
        attached = Attached(
            chord=chord(more["c"]) if "c" in more else None,
            word=Word(text=word.removesuffix("-"), hyphen=word.endswith("-")) if word else None,
            stroke=more.get("s"),
            dynamic=more.get("d"),
            hairpins=tuple(hairpin(sign) for sign in more.get("y", "")),
        )
    written = Written(value=BY_LETTER[value[0]], dots=len(value) - 1)
    return Event(
        onset=0,
        ticks=0 if grace else int(written.quarters * DIVISIONS),
        written=written,
        notes=notes,
        span=Span(at, at + 1),
        marks=tuple(each for each in marks if each.technique.scope == "event"),
        attached=attached,
        grace=grace,
    )


def hairpin(sign: str) -> Hairpin:
    """One end of a hairpin. What kind ends is of no account here."""
    return Hairpin(kind=HAIRPINS.get(sign, "crescendo"), begins=sign in HAIRPINS, through=sign == ".")


def chord(text: str) -> ChordSymbol:
    text, _, grip = text.partition("@")
    shape = tuple(None if each == "x" else int(each) for each in (grip.split(".") if "." in grip else grip)) if grip else None
    root = None if text == "N.C." else parse_pitch_class(text[:2] if text[1:2] in ("b", "#") else text[:1])
    return ChordSymbol(text=text, root=root, kind="none" if root is None else "major", shape=shape)


def tuplet(ratio: str, *events: Event) -> tuple[Event, ...]:
    """Events in a tuplet around what they are in already: ``tuplet("3:2", ...)``."""
    actual, normal = map(int, ratio.split(":"))
    made = []
    timed = [place for place, each in enumerate(events) if not each.grace]
    for place, each in enumerate(events):
        written = each.written
        if not each.grace:
            written = replace(
                written,
                tuplets=(Ratio(actual=actual, normal=normal), *written.tuplets),
                units=(BY_LETTER["e"], *written.units),
                opens=((0,) if place == timed[0] else ()) + tuple(level + 1 for level in written.opens),
                closes=((0,) if place == timed[-1] else ()) + tuple(level + 1 for level in written.closes),
            )
        made.append(replace(each, written=written, ticks=each.ticks * normal // actual))
    return tuple(made)


def voice(events: Iterable[Event | str | tuple[Event, ...]], strings: Tuning = STANDARD, start: int = 0) -> tuple[Event, ...]:
    """Events one after the other, each with its onset."""
    flat: list[Event] = []
    for each in events:
        if isinstance(each, str):
            flat.append(event(each, strings, start + len(flat)))
        elif isinstance(each, Event):
            flat.append(each)
        else:
            flat.extend(each)
    onset = 0
    placed = []
    for each in flat:
        placed.append(replace(each, onset=onset))
        onset += each.ticks
    return tuple(placed)


def meter(text: str) -> Meter:
    groups, _, unit = text.partition("/")
    return Meter(groups=tuple(int(each) for each in groups.split("+")), unit=int(unit))


def bar(
    *events: Event | str | tuple[Event, ...],
    below: Iterable[Event | str | tuple[Event, ...]] | None = None,
    time: str = "4/4",
    left: BarLine = PLAIN_LINE,
    right: BarLine = PLAIN_LINE,
    tempo: Tempo | None = None,
    partial: bool = False,
    strings: Tuning = STANDARD,
    change: str | None = None,
    signs: tuple[str, ...] = (),
    rehearsal: str | None = None,
    new_line: bool = False,
) -> Bar:
    upper = voice(events, strings)
    ticks = sum(each.ticks for each in upper)
    voices = (upper,) if below is None else (upper, voice(below, strings, 100))
    assert all(sum(each.ticks for each in events) == ticks for events in voices), "the voices differ in length"
    assert partial or Fraction(ticks, DIVISIONS) == meter(time).quarters, f"{Fraction(ticks, DIVISIONS)} quarter notes in {time}"
    return Bar(
        meter=meter(time),
        ticks=ticks,
        voices=voices,
        left=left,
        right=right,
        tempo=tempo,
        partial=partial,
        tempo_change=change,
        signs=signs,
        rehearsal=rehearsal,
        new_line=new_line,
        span=Span(500, 501),
    )


def phrase(text: str, time: str = "4/4", strings: Tuning = STANDARD) -> tuple[Bar, ...]:
    """Bars of plain events: ``"e 6:3, e 6:5, q r | ..."``."""
    return tuple(bar(*(each.strip() for each in part.split(",")), time=time, strings=strings) for part in text.split("|"))


def tempo(bpm: float, beat: str = "q", words: str | None = None) -> Tempo:
    return Tempo(bpm=bpm, beat=BY_LETTER[beat[0]], dots=len(beat) - 1, words=words)


def scale(root: str, name: str, tones: str, fifths: int = 0) -> Scale:
    """A scale by its tones; degrees are numbered as they come."""
    classes = [parse_pitch_class(each) for each in tones.split()]
    numbers = tuple(range(1, len(classes) + 1))
    first = parse_pitch(root) or Pitch("C", 0, 4)
    return Scale(
        name=name,
        root=first,
        labels=tuple(map(str, numbers)),
        numbers=numbers,
        tones=tuple(each for each in classes if each),
        offsets=tuple((each.semitone - first.pitch_class.semitone) % 12 for each in classes if each),
        fifths=fifths,
    )


def section(
    title: str,
    *bars: Bar,
    strings: Tuning = STANDARD,
    capo: int = 0,
    partial_capo: tuple[int, tuple[int, ...]] | None = None,
    scale: Scale | None = None,
    swing: Swing | None = None,
    text: tuple[str, ...] = (),
) -> Section:
    return Section(
        title=title,
        tuning=strings,
        capo=capo,
        partial_capo=partial_capo,
        bars=bars,
        scale=scale,
        swing=swing,
        text=text,
        span=Span(900, 901),
    )


def score(
    *sections: Section, title: str = "Kiln study", instrument: Instrument = GUITAR, text: tuple[str, ...] = (), left_handed: bool = False
) -> Score:
    return Score(title=title, instrument=instrument, divisions=DIVISIONS, sections=sections, text=text, left_handed=left_handed)
