"""Scores built by hand, for tests that need an event model without the compiler.

``note("e", "6:3 5:5", marks="pm:start")`` is an eighth-note chord; ``voice`` lays items out in time; ``bar``, ``section`` and ``score`` put
them together. Open strings are those of the usual guitar, E2 A2 D3 G3 B3 E4 (common practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from tabforge.model.events import NOTHING_ATTACHED, Attached, Event, Note
from tabforge.model.meter import Meter, Swing, Tempo
from tabforge.model.pitch import Pitch, parse_pitch, spell_plainly
from tabforge.model.score import PLAIN_LINE, Bar, BarLine, Scale, Score, Section
from tabforge.model.techniques import Mark, Role, parse_mark, with_role
from tabforge.model.tuning import Instrument, Tuning
from tabforge.model.values import BY_LETTER, Ratio, Written
from tabforge.source import Span

DIVISIONS = 480 * 9 * 7
"""Ticks a quarter note: enough for thirty-seconds in triplets in triplets, quintuplets and septuplets."""


def tuning(text: str, name: str | None = None) -> Tuning:
    """A tuning from pitches, lowest string first."""
    return Tuning(strings=tuple(pitch_of(word) for word in reversed(text.split())), name=name)


def pitch_of(text: str) -> Pitch:
    found = parse_pitch(text)
    assert found is not None, text
    return found


STANDARD = tuning("E2 A2 D3 G3 B3 E4", "standard")
GUITAR = Instrument(
    name="guitar", label="Guitar", tuning=STANDARD, frets=24, scale_length=648.0, clef="G", clef_line=2, clef_octave=-1, program=26
)
UKULELE = Instrument(
    name="ukulele", label="Ukulele", tuning=tuning("G4 C4 E4 A4"), frets=15, scale_length=345.0, clef="G", clef_line=2, clef_octave=0,
    program=25,
)
BASS = Instrument(
    name="bass", label="Bass", tuning=tuning("E1 A1 D2 G2"), frets=21, scale_length=864.0, clef="F", clef_line=4, clef_octave=-1, program=34
)


@dataclass(frozen=True)
class Item:
    """An event that does not know yet when it sounds."""

    written: Written
    notes: tuple[Note, ...]
    marks: tuple[Mark, ...] = ()
    attached: Attached = NOTHING_ATTACHED
    grace: str | None = None


_WRITTEN: dict[str, Written] = {}
_SHARED: dict[Written, Written] = {}


def value(text: str) -> Written:
    """A written value such as ``e.``; equal texts give the same object."""
    return _WRITTEN.setdefault(text, Written(value=BY_LETTER[text[0]], dots=text.count(".")))


def mark(text: str) -> Mark:
    """A mark with its role: ``h:start``, ``b1:single``; single if not said."""
    form, _, role = text.partition(":")
    found = parse_mark(form)
    assert found is not None, text
    return with_role(found, Role(role or "single"))


def note(
    length: str,
    places: str,
    *,
    marks: str = "",
    spell: str = "",
    tie: str = "",
    finger: str | None = None,
    pluck: str | None = None,
    strings: Tuning = STANDARD,
    capo: int = 0,
    attached: Attached = NOTHING_ATTACHED,
    grace: str | None = None,
) -> Item:
    """A note or chord: ``places`` are ``string:fret``. ``spell`` names the pitches in the same order where the plain spelling, with
    sharps, is not meant.

    ``tie``: "in", "out" or "in out", for all notes. Note marks go to all notes, event marks to the event.
    """
    given = [mark(text) for text in marks.split()]
    of_note = tuple(each for each in given if each.technique.scope == "note")
    of_event = tuple(each for each in given if each.technique.scope == "event")
    spelled = spell.split()
    notes = []
    for index, place in enumerate(places.split()):
        string, fret = (int(part) for part in place.split(":"))
        pitch = pitch_of(spelled[index]) if spelled else spell_plainly(strings.open(string).midi + capo + fret)
        notes.append(
            Note(
                pitch=pitch, string=string, fret=fret, marks=of_note, finger=finger, pluck=pluck, tied_in="in" in tie.split(),
                tied_out="out" in tie.split(),
            )
        )
    notes.sort(key=lambda each: each.string)
    return Item(value(length), tuple(notes), of_event, attached, grace)


def pitches(length: str, names: str) -> list[Item]:
    """Notes by name alone, each on string 1 at whatever fret: for tests of notation."""
    return [Item(value(length), (Note(pitch=pitch_of(name), string=1, fret=0),)) for name in names.split()]


def rest(length: str, attached: Attached = NOTHING_ATTACHED, marks: str = "") -> Item:
    return Item(value(length), (), tuple(mark(text) for text in marks.split()), attached)


def tuplet(ratio: str, unit: str, *items: Item | list[Item]) -> list[Item]:
    """Items inside a tuplet such as ``tuplet("3:2", "e", ...)``; tuplets may stand in tuplets."""
    inside: list[Item] = [each for item in items for each in (item if isinstance(item, list) else [item])]
    actual, normal = (int(part) for part in ratio.split(":"))
    found: list[Item] = []
    for index, item in enumerate(inside):
        old = item.written
        shifted_opens = tuple(level + 1 for level in old.opens)
        shifted_closes = tuple(level + 1 for level in old.closes)
        if item.grace is not None:
            found.append(item)
            continue
        written = replace(
            old,
            tuplets=(Ratio(actual=actual, normal=normal), *old.tuplets),
            units=(BY_LETTER[unit], *old.units),
            opens=(0, *shifted_opens) if index == 0 else shifted_opens,
            closes=(*shifted_closes, 0) if index == len(inside) - 1 else shifted_closes,
        )
        found.append(replace(item, written=_SHARED.setdefault(written, written)))
    return found


def voice(*items: Item | list[Item], divisions: int = DIVISIONS, place: int = 0) -> tuple[Event, ...]:
    """Items one after another. Every event gets a span of its own, counted from ``place``."""
    at = Fraction(0)
    events = []
    flat = [each for given in items for each in (given if isinstance(given, list) else [given])]
    for index, item in enumerate(flat):
        length = Fraction(0) if item.grace is not None else item.written.quarters * divisions
        assert at.denominator == 1
        assert length.denominator == 1
        events.append(
            Event(
                onset=int(at), ticks=int(length), written=item.written, notes=item.notes, span=Span(place + index, place + index + 1),
                marks=item.marks, attached=item.attached, grace=item.grace,
            )
        )
        at += length
    return tuple(events)


def meter_of(text: str) -> Meter:
    groups, _, unit = text.partition("/")
    return Meter(groups=tuple(int(part) for part in groups.split("+")), unit=int(unit))


def bar(
    *voices: tuple[Event, ...],
    meter: str = "4/4",
    left: BarLine = PLAIN_LINE,
    right: BarLine = PLAIN_LINE,
    tempo: Tempo | None = None,
    partial: bool = False,
    **more: Any,
) -> Bar:
    """A bar as long as its first voice; ``more`` is handed to Bar."""
    last = voices[0][-1]
    ticks = last.onset + last.ticks
    for events in voices:
        assert events[-1].onset + events[-1].ticks == ticks
    return Bar(meter=meter_of(meter), ticks=ticks, voices=voices, left=left, right=right, tempo=tempo, partial=partial, **more)


def section(
    *bars: Bar,
    title: str = "",
    scale: Scale | None = None,
    strings: Tuning = STANDARD,
    capo: int = 0,
    swing: Swing | None = None,
    text: Sequence[str] = (),
    **more: Any,
) -> Section:
    return Section(title=title, tuning=strings, capo=capo, bars=bars, scale=scale, swing=swing, text=tuple(text), **more)


def score(
    *sections: Section, title: str = "Lantern Bay", instrument: Instrument = GUITAR, divisions: int = DIVISIONS, **more: object
) -> Score:
    return Score(title=title, instrument=instrument, divisions=divisions, sections=sections, **more)  # type: ignore[arg-type]


def one_bar(*items: Item | list[Item], meter: str = "4/4", scale: Scale | None = None) -> Score:
    """A score of one bar of one voice."""
    return score(section(bar(voice(*items), meter=meter), scale=scale))


def scale(root: str, name: str, labels: str, tones: str, fifths: int) -> Scale:
    """A scale as its parts; nothing is worked out but the semitones."""
    start = pitch_of(root)
    words = tones.split()
    classes = tuple(pitch_of(word + "4").pitch_class for word in words)
    numbers = tuple(int(label.lstrip("#bn")) for label in labels.split())
    offsets = tuple((each.semitone - start.pitch_class.semitone) % 12 for each in classes)
    return Scale(name=name, root=start, labels=tuple(labels.split()), numbers=numbers, tones=classes, offsets=offsets, fifths=fifths)


BB_LYDIAN = scale("Bb2", "lydian", "1 2 3 #4 5 6 7", "Bb C D E F G A", -1)
A_MINOR = scale("A2", "aeolian", "1 2 b3 4 5 b6 b7", "A B C D E F G", 0)
E_MAJOR = scale("E2", "ionian", "1 2 3 4 5 6 7", "E F# G# A B C# D#", 4)
