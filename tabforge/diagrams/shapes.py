"""Shapes along the neck: a scale, some of its tones, or what a section plays."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from typing import Final, NamedTuple

from tabforge.diagrams.frames import LEAST
from tabforge.diagrams.model import Diagram, Dot, Role
from tabforge.diagrams.naming import Labels, Naming
from tabforge.diagrams.spoken import in_words
from tabforge.diagrams.strings import strings_of
from tabforge.fretboard.neck import NEAR, Neck, Place
from tabforge.model.events import Note
from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale, Section

NEAR_NUT: Final = 3
"""A shape that begins at this fret or below is shown from the nut on, so that one sees where on the neck it is."""

_SILENT: Final = "dead note"


class Frets(NamedTuple):
    """Frets to be shown, the first and the last with them; 0 is the open strings."""

    first: int
    last: int


class Played(NamedTuple):
    """What a section plays at a place: how it is spelled and the finger that is given for it first."""

    spelling: Pitch | None = None
    finger: str | None = None


def on_whole_neck(scale: Scale, neck: Neck, tones: Collection[int] | None = None) -> list[Place]:
    """Every place of a scale's notes, or of those whose MIDI numbers are like ``tones``' but for octaves."""
    semitones = {(scale.root.midi + offset) % 12 for offset in scale.offsets} if tones is None else {midi % 12 for midi in tones}
    strings = range(1, len(neck.tuning) + 1)
    return [
        (string, fret)
        for string in strings
        for fret in range(neck.last + 1)
        if neck.has(string, fret) and (midi := neck.note_at(string, fret)) is not None and midi % 12 in semitones
    ]


def played_in(section: Section) -> dict[Place, Played]:
    """The places a section plays. Dead notes have no pitch and are left out."""
    found: dict[Place, Played] = {}
    for note in _notes(section):
        if any(mark.technique.name == _SILENT for mark in note.marks):
            continue
        place = (note.string, note.fret)
        known = found.get(place)
        if known is None or (known.finger is None and note.finger):
            found[place] = Played(note.pitch, note.finger)
    return found


def _notes(section: Section) -> Iterator[Note]:
    for bar in section.bars:
        for voice in bar.voices:
            for event in voice:
                yield from event.notes


def shape(
    places: Iterable[Place] | dict[Place, Played],
    neck: Neck,
    *,
    title: str,
    subtitle: str = "",
    labels: Labels = "degree",
    scale: Scale | None = None,
    frets: Frets | None = None,
    whole: bool = False,
    left_handed: bool = False,
) -> Diagram:
    """A diagram of places on a neck, named against a scale if there is one. ``whole``: all of the neck is shown.

    ``frets`` shows those alone, and leaves out what lies elsewhere.
    """
    played = places if isinstance(places, dict) else dict.fromkeys(places, Played())
    naming = Naming(labels, scale)
    if frets is not None:
        played = {place: each for place, each in played.items() if frets.first <= place[1] <= frets.last}
    dots = []
    for (string, fret), each in sorted(played.items()):
        midi, cents = neck.sound_at(string, fret)
        label, role = naming.label(midi, each.spelling, each.finger), naming.role(midi)
        if abs(cents) > NEAR:  # between two notes: named after the nearer one, with the cents beside it
            label, role = f"{label}{cents:+d}" if labels != "finger" else label, Role.OUTSIDE
        dots.append(Dot(string=string, fret=fret, midi=midi, label=label, role=role))
    first, last = (1, neck.last) if whole else _window([dot.fret for dot in dots], neck.last)
    if frets is not None:
        first, last = max(1, frets.first), min(frets.last, neck.last)
    diagram = Diagram(
        title=title,
        subtitle=subtitle,
        strings=strings_of(neck),
        first=first,
        last=last,
        dots=tuple(dots),
        left_handed=left_handed,
        wires=neck.wires(first, last) if neck.fretting else (),
    )
    return replace(diagram, alt=in_words(diagram))


def _window(frets: Iterable[int], last: int) -> tuple[int, int]:
    """The frets to show around some: from the nut on if they lie near it, else from the lowest fretted one."""
    fretted = [fret for fret in frets if fret]
    low, high = min(fretted, default=1), max(fretted, default=1)
    first = 1 if low <= NEAR_NUT else low
    return max(1, min(first, last - LEAST + 1)), min(max(high, first + LEAST - 1), last)
