"""What stands around the notes, read by music21 and set against the model: dynamics, hairpins, octave lines, rehearsal marks, signs of the
way, changes of tempo, chord symbols, rests of several bars.

Both sides are told as lists of lines of text with the place in quarter notes from the beginning of the score.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from tabforge.model.events import Event
from tabforge.model.harmony import ChordSymbol
from tabforge.model.meter import TEMPO_CHANGES
from tabforge.model.score import Backing, Bar, Score, Section
from tabforge.model.techniques import Role

_EXPRESSIONS = {
    "fine": "Fine",
    "dc": "DaCapo",
    "ds": "DalSegno",
    "dcfine": "DaCapoAlFine",
    "dsfine": "DalSegnoAlFine",
    "dccoda": "DaCapoAlCoda",
    "dscoda": "DalSegnoAlCoda",
    "segno": "Segno",
    "coda": "Coda",
    "tocoda": "to Coda",
}
"""Signs of the way and music21's classes for them; it has one for the coda and the words that lead to it."""

_OCTAVES = {"octave higher": "8va", "octave lower": "8vb", "two octaves higher": "15ma"}
"""music21's names of octave lines."""


_LINES = {"wedge": ("crescendo", "diminuendo"), "octave-shift": tuple(_OCTAVES.values())}
"""Elements that begin a line, and what its line of text begins with."""


def differences(score: Score, document: bytes, read: Any, staves: str) -> list[str]:
    """What one side has and the other has not. TAB alone has no octave lines; of two parts each has the rests.

    Where two lines begin at one note music21 hangs the second on the next note, so that a line is looked for again in a document with
    lines of its kind alone.
    """
    lines = list(meant(score, tab=staves == "tab"))
    if staves == "parts":
        lines += [line for line in lines if line.startswith("rest")]
    mine, theirs = Counter(lines), Counter(found(read))
    for element, names in _LINES.items():
        if any(each.startswith(names) for each in mine - theirs):
            again = Counter(each for each in found(parse(_only(document, element))) if each.startswith(names))
            theirs = Counter({each: count for each, count in theirs.items() if not each.startswith(names)}) + again
    missing = [f"{each}: meant, not read" for each in (mine - theirs).elements()]
    return missing + [f"{each}: read, not meant" for each in (theirs - mine).elements()]


def parse(document: bytes) -> Any:
    """The document as music21 reads it."""
    from music21 import converter

    return converter.parseData(document.decode(), format="musicxml")


def _only(document: bytes, element: str) -> bytes:
    """The document without the lines of other kinds."""
    from lxml import etree

    tree = etree.fromstring(document)
    for other in {"wedge", "octave-shift", "dashes"} - {element}:
        for direction in tree.xpath(f"//direction[direction-type/{other}]"):
            direction.getparent().remove(direction)
    return etree.tostring(tree)


def meant(score: Score, *, tab: bool) -> Iterator[str]:
    """The lines of the model."""
    at = Fraction(0)
    for section in score.sections:
        lines: dict[object, tuple[str, Fraction]] = {}
        if section.title and section.bars:
            yield f"rehearsal {_plain(section.title)} at {at}"
        for place, bar in enumerate(section.bars):
            length = Fraction(bar.ticks, score.divisions)
            yield from _of_bar(bar, at, at + length)
            for part in _second(section):
                for event in part.bars[place]:
                    yield from _of_event(event, at + Fraction(event.onset, score.divisions), 0, lines, ahead=())
            for number, voice in enumerate(bar.voices):
                for index, event in enumerate(voice):
                    here = at + Fraction(event.onset, score.divisions)
                    yield from _of_event(event, here, number, lines, ahead=voice[index + 1 :])
                    if not tab:
                        yield from _octaves(event, here, number, lines)
            at += length
    parts = 1 + len({part.kind for section in score.sections for part in _second(section)})
    yield from (f"rest of {count} bars" for count in _rests(score) for _ in range(parts))


def _second(section: Section) -> tuple[Backing, ...]:
    return tuple(part for part in section.backing if part.shown)


def _of_bar(bar: Bar, start: Fraction, end: Fraction) -> Iterator[str]:
    if bar.rehearsal is not None:
        yield f"rehearsal {_plain(bar.rehearsal)} at {start}"
    if bar.tempo_change is not None:
        yield f"{TEMPO_CHANGES[bar.tempo_change]} at {start}"
    for sign in bar.signs:
        yield f"{_EXPRESSIONS[sign]} at {start if sign in {'segno', 'coda'} else end}"


def _of_event(
    event: Event, here: Fraction, voice: int, lines: dict[object, tuple[str, Fraction]], *, ahead: Sequence[Event]
) -> Iterator[str]:
    attached = event.attached
    if attached.dynamic is not None:
        yield f"{attached.dynamic} at {here}"
    if attached.chord is not None:
        yield f"chord {_symbol(attached.chord)} at {here}"
    for hairpin in attached.hairpins:
        if hairpin.begins:
            lines["hairpin", voice] = hairpin.kind, here
        else:
            kind, start = lines.pop(("hairpin", voice))
            yield f"{kind} from {start}"


def _octaves(event: Event, here: Fraction, voice: int, lines: dict[object, tuple[str, Fraction]]) -> Iterator[str]:
    for mark in event.marks:
        name = mark.technique.name
        if name not in _OCTAVES:
            continue
        if mark.role in {Role.START, Role.SINGLE}:
            lines[name, voice] = name, here
        if mark.role in {Role.STOP, Role.SINGLE}:
            _, start = lines.pop((name, voice))
            yield f"{_OCTAVES[name]} from {start}"


def _rests(score: Score) -> Iterator[int]:
    """Rests of several bars, told anew from the bars: what may stand at a bar's beginning or end parts them, and another part's notes."""
    for section in score.sections:
        if _second(section):
            continue
        count, before = 0, None
        for bar in (*section.bars, None):
            goes_on = (
                bar is not None
                and before is not None
                and count
                and _is_rest(bar)
                and bar.meter == before.meter
                and not (bar.tempo or bar.tempo_change or bar.scale or bar.rehearsal or bar.new_line or {"segno", "coda"} & {*bar.signs})
                and not {*before.signs} - {"segno", "coda"}
                and bar.left == before.right == type(bar.left)()
            )
            if goes_on:
                count += 1
            else:
                if count > 1:
                    yield count
                count = 1 if bar is not None and _is_rest(bar) else 0
            before = bar


def _is_rest(bar: Bar) -> bool:
    return [(event.notes, event.marks, event.attached.dynamic, event.attached.hairpins, event.attached.word, event.attached.chord)
            for voice in bar.voices for event in voice] == [((), (), None, (), None, None)] and not bar.partial  # fmt: skip


def _plain(text: str) -> str:
    """A text without what XML and a reader may change: spaces, control characters."""
    return "".join(each for each in text if each.isalnum())


def _symbol(chord: ChordSymbol) -> str:
    if chord.root is None:
        return "none"
    from music21.harmony import CHORD_ALIASES

    return f"{chord.root} {CHORD_ALIASES.get(chord.kind, chord.kind)} over {chord.bass or chord.root}"


def found(read: Any) -> Iterator[str]:
    """The lines of a score that music21 has read."""
    from music21 import dynamics, expressions, harmony, repeat, spanner

    # A line may hang on a note of a chord, which has no place of its own.
    chords = {id(note): chord for chord in read.recurse().getElementsByClass("Chord") for note in chord.notes}

    placed = {id(each) for each in read.recurse()}

    def place(element: Any) -> Fraction:
        return Fraction(chords.get(id(element), element).getOffsetInHierarchy(read)).limit_denominator(1_000_000)

    for element in read.recurse():
        kind = type(element).__name__
        if isinstance(element, dynamics.Dynamic):
            yield f"{element.value} at {place(element)}"
        elif isinstance(element, harmony.NoChord):
            yield f"chord none at {place(element)}"
        elif isinstance(element, harmony.ChordSymbol):
            yield f"chord {_name(element.root())} {element.chordKind} over {_name(element.bass())} at {place(element)}"
        elif isinstance(element, expressions.RehearsalMark):
            yield f"rehearsal {_plain(str(element.content))} at {place(element)}"
        elif isinstance(element, repeat.RepeatExpression):
            yield f"{'to Coda' if element.getText() == 'To Coda' else kind} at {place(element)}"
        elif isinstance(element, expressions.TextExpression) and element.content in TEMPO_CHANGES.values():
            yield f"{element.content} at {place(element)}"
        elif isinstance(element, dynamics.DynamicWedge):
            first = element.getFirst()
            if id(chords.get(id(first), first)) in placed:  # else it hangs on nothing: see ``differences``
                yield f"{kind.lower()} from {place(first)}"
        elif isinstance(element, spanner.Ottava):
            # It adds to the line what other voices have meanwhile, grace notes first, some of which have no place in the score.
            there = [each for each in element.getSpannedElements() if id(chords.get(id(each), each)) in placed]
            yield f"{element.type} from {min(map(place, there))}"
        elif isinstance(element, spanner.MultiMeasureRest):
            yield f"rest of {len(element)} bars"


def _name(pitch: Any) -> str:
    return str(pitch.name).replace("-", "b")
