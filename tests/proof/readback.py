"""Our MusicXML read by an independent reader, music21, and set against the event model.

``compare(score, document, staves)`` gives the differences as lines of text; none means that both say the same: where every bar begins
and, for every note and rest of its voices, onset, duration, pitch with spelling and tie, and on TAB string and fret; and what stands around
the notes (``readsigns``).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, NamedTuple

from tabforge.model.events import Event, Note
from tabforge.model.score import BACKINGS, Score
from tests.proof import readsigns
from tests.proof.readsigns import parse


class Tone(NamedTuple):
    """One note of an event as both sides are told it. ``place`` is string and fret; None on a notation staff."""

    pitch: str
    tie: str
    place: tuple[int, int] | None


class Sound(NamedTuple):
    """An event: onset in quarter notes from the beginning of its bar, length in quarter notes, notes by pitch (none: a rest)."""

    onset: Fraction
    length: Fraction
    tones: tuple[Tone, ...]
    grace: bool = False


_TIES = {(False, False): "", (False, True): "start", (True, False): "stop", (True, True): "continue"}


def expected(score: Score, *, tab: bool) -> Iterator[tuple[Fraction, list[list[Sound]]]]:
    """For every bar of the model: where it begins, in quarter notes, and the sounds of its voices."""
    at = Fraction(0)
    for section in score.sections:
        for bar in section.bars:
            yield at, [[_sound(event, score.divisions, tab) for event in voice] for voice in bar.voices]
            at += Fraction(bar.ticks, score.divisions)


def second(score: Score, kind: str, *, tab: bool) -> Iterator[tuple[Fraction, list[list[Sound]]]]:
    """The same for a second part: its own bars, and one rest in each bar of a section without it."""
    at = Fraction(0)
    for section in score.sections:
        own = next((part.bars for part in section.backing if part.kind == kind and part.shown), None)
        for number, bar in enumerate(section.bars):
            length = Fraction(bar.ticks, score.divisions)
            music = [_sound(event, score.divisions, tab) for event in own[number]] if own else [Sound(Fraction(0), length, ())]
            yield at, [music]
            at += length


def _joined(voices: list[list[Sound]]) -> list[list[Sound]]:
    """A bar of rests alone as one rest: how it is divided is not the part's own matter."""
    if len(voices) != 1 or any(sound.tones for sound in voices[0]):
        return voices
    return [[Sound(Fraction(0), sum((sound.length for sound in voices[0]), Fraction(0)), ())]]


def _sound(event: Event, divisions: int, tab: bool) -> Sound:
    tones = sorted(_tone(note, tab) for note in event.notes)
    return Sound(Fraction(event.onset, divisions), Fraction(event.ticks, divisions), tuple(tones), event.grace is not None)


def _tone(note: Note, tab: bool) -> Tone:
    pitch = note.pitch
    name = spelled(pitch.step, pitch.alter + pitch.cents / 100, pitch.octave)
    return Tone(name, _TIES[note.tied_in, note.tied_out], (note.string, note.fret) if tab else None)


def found(part: Any, *, tab: bool) -> Iterator[tuple[Fraction, list[list[Sound]]]]:
    """The same for a part that music21 has read."""
    for measure in part.getElementsByClass("Measure"):
        voices = list(measure.voices) or [measure]
        yield Fraction(measure.offset), [[_heard(each, tab) for each in _sounding(voice)] for voice in voices]


def _sounding(stream: Any) -> Iterator[Any]:
    """Notes, chords and rests in order; a chord symbol is a chord to music21, but no sound of ours."""
    from music21 import harmony

    return (each for each in stream.notesAndRests if not isinstance(each, harmony.Harmony))


def _heard(element: Any, tab: bool) -> Sound:
    length = Fraction(element.duration.quarterLength).limit_denominator(1_000_000)
    onset = Fraction(element.offset).limit_denominator(1_000_000)
    if element.isRest:
        return Sound(onset, length, ())
    notes = sorted(element.notes, key=lambda note: note.pitch.ps) if element.isChord else [element]
    # music21 keeps the strings and frets of a chord in one list, from the lowest pitch up.
    signs = [each for each in element.articulations if type(each).__name__ in {"StringIndication", "FretIndication"}]
    numbers = [each.number for each in signs]
    places: list[tuple[int, int] | None] = [None] * len(notes)
    if tab:
        kinds = [type(each).__name__[0] for each in signs]
        if kinds != ["S", "F"] * len(notes):
            return Sound(onset, length, (Tone(f"strings and frets {kinds} for {len(notes)} notes", "", None),))
        places = list(zip(numbers[::2], numbers[1::2], strict=True))
    elif numbers:
        return Sound(onset, length, (Tone(f"strings and frets {numbers} on a notation staff", "", None),))
    tones = [Tone(_name(note.pitch), _tie(note), place) for note, place in zip(notes, places, strict=True)]
    return Sound(onset, length, tuple(sorted(tones)), element.duration.isGrace)


def _name(pitch: Any) -> str:
    # music21 keeps a quarter tone in its accidental and other cents in a microtone beside it.
    return spelled(pitch.step, pitch.alter, pitch.octave)


def spelled(step: str, alter: float, octave: int) -> str:
    """A pitch as this module compares it: what it sounds beside its letter, in half steps to a hundredth."""
    whole = round(alter)
    sign = "#" * whole if whole > 0 else "b" * -whole
    return f"{step}{sign}{octave}" if abs(alter - whole) < 0.005 else f"{step}{alter:+.2f} {octave}"


def _tie(note: Any) -> str:
    """The tie as it sounds: music21 tells let ring, which holds no note, in the same place."""
    kind = note.tie.type if note.tie is not None else ""
    return {"let-ring": "", "continue-let-ring": "stop"}.get(kind, kind)


def compare(score: Score, document: bytes, staves: str = "both") -> list[str]:
    """The differences between a score and a document that ``write`` made of it with that layout of staves."""
    read_score = parse(document)
    parts = list(read_score.parts)
    layers = {"both": (False, True), "parts": (False, True), "tab": (True,), "notation": (False,)}[staves]
    kinds = [kind for kind in BACKINGS if any(each.kind == kind and each.shown for section in score.sections for each in section.backing)]
    wanted = [(kind, tab) for kind in ("", *kinds) for tab in layers]
    if len(parts) != len(wanted):
        return [f"{len(parts)} staves were read, {len(wanted)} are meant"]
    differences = readsigns.differences(score, document, read_score, staves)
    for part, (kind, tab) in zip(parts, wanted, strict=True):
        name = f"{kind} {'TAB' if tab else 'notation'}".strip()
        differences += [f"{name}: {line}" for line in _signatures(score, part)]
        mine, theirs = list(second(score, kind, tab=tab) if kind else expected(score, tab=tab)), list(found(part, tab=tab))
        if kind:
            if kind.capitalize() not in str(part.partName):
                differences.append(f"{name}: the part is called {part.partName}")
            mine, theirs = ([(at, _joined(voices)) for at, voices in bars] for bars in (mine, theirs))
        if len(mine) != len(theirs):
            differences.append(f"{name}: {len(theirs)} bars were read, {len(mine)} are meant")
        for number, ((at, voices), (read_at, read)) in enumerate(zip(mine, theirs, strict=False), 1):
            where = f"{name}, bar {number}"
            if at != read_at:
                differences.append(f"{where}: begins at {read_at}, meant at {at}")
            if len(voices) != len(read):
                differences.append(f"{where}: {len(read)} voices were read, {len(voices)} are meant")
            for index, (voice, heard) in enumerate(zip(voices, read, strict=False), 1):
                if voice != heard:
                    differences += _told_apart(f"{where}, voice {index}", voice, heard)
    return differences


def _signatures(score: Score, part: Any) -> Iterator[str]:
    """Where the key signature that was read is another than the model's."""
    force = None
    bars = ((section, bar, index == 0) for section in score.sections for index, bar in enumerate(section.bars))
    meant = 0
    for number, ((section, bar, first), measure) in enumerate(zip(bars, part.getElementsByClass("Measure"), strict=False), 1):
        force = measure.keySignature.sharps if measure.keySignature is not None else force
        scale = section.scale if first else bar.scale
        if first or scale is not None:
            meant = scale.fifths if scale is not None else 0
        if force != meant:
            yield f"bar {number}: a signature of {force} fifths was read, {meant} is meant"


def _told_apart(where: str, voice: list[Sound], heard: list[Sound]) -> list[str]:
    lines = [f"{where}: {len(heard)} events were read, {len(voice)} are meant"] if len(voice) != len(heard) else []
    lines += [f"{where}: {read} was read, {meant} is meant" for meant, read in zip(voice, heard, strict=False) if meant != read]
    return lines
