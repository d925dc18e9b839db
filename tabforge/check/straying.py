"""Notes that leave the scale and do not come back, and chords that lead away from it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.bends import BENDS
from tabforge.check.harmonics import HARMONICS
from tabforge.check.listening import scales_in_force
from tabforge.check.view import View, has, is_dead
from tabforge.diagnostics.catalogue import advice as codes
from tabforge.diagnostics.core import Diagnostic
from tabforge.model.events import Event, Note
from tabforge.model.harmony import ChordSymbol
from tabforge.model.score import Bar, Scale
from tabforge.source import Span
from tabforge.theory.chords import chord_tones
from tabforge.theory.degrees import spell_in_scale
from tabforge.theory.traits import colour_of, role_of

STEP: Final = 2
"""Semitones of the widest step."""

PATIENCE: Final = 12
"""Events among which the next note on the same string still counts as going on from a note, as in an arpeggio."""

_GLIDES: Final = BENDS | HARMONICS | {"slide out upward", "slide out downward", "legato slide", "shift slide"}
"""A note with one of these is not heard as it is written, or leads on by itself."""


def notes_that_resolve_nowhere(view: View) -> Iterator[Diagnostic]:
    """Notes outside the scale, and outside the chord that is named, from which no step leads on: once for each cell."""
    told: set[Span] = set()
    for _, _, heard in view.heard:
        for stretch in heard:
            scale = stretch.scale
            if scale is None or not stretch.outside:
                continue
            for number in range(max(len(bar.voices) for bar in stretch.bars)):
                for event, note in _stray(scale, stretch.bars, number):
                    if event.span not in told:
                        told.add(event.span)
                        yield _left(scale, event, note)


def _left(scale: Scale, event: Event, note: Note) -> Diagnostic:
    name = f"{scale.root.pitch_class} {scale.name}"
    spelled = spell_in_scale(scale, note.pitch.midi).pitch_class
    return Diagnostic(
        code=codes.UNRESOLVED,
        headline=f"{spelled} is not in {name} and leads nowhere",
        span=event.span,
        label="outside the scale, and no step leads on from it",
        help=f"let it go on by a half or whole step to a note of {' '.join(map(str, scale.tones))}, or name the chord it belongs to",
    )


def _stray(scale: Scale, bars: tuple[Bar, ...], number: int) -> Iterator[tuple[Event, Note]]:
    """Notes of a voice outside the scale that resolve nowhere."""
    line: list[tuple[Event, frozenset[int]]] = []
    chord: frozenset[int] = frozenset()
    for bar in bars:
        symbols = [(event.onset, chord) for event, chord in _chords((bar,))]
        for event in bar.voices[number] if number < len(bar.voices) else ():
            while symbols and symbols[0][0] <= event.onset:
                chord = frozenset(tone.semitone for tone in chord_tones(symbols.pop(0)[1]))
            if event.notes:
                line.append((event, chord))
    for at, (event, held) in enumerate(line):
        for note in event.notes:
            foreign = (note.pitch.midi - scale.root.midi) % 12 not in scale.offsets and note.pitch.midi % 12 not in held
            if foreign and not event.grace and not is_dead(note) and not note.tied_out and not has(note, _GLIDES):
                following = [later for later, _ in line[at + 1 : at + 1 + PATIENCE]]
                if not _resolves(note, following):
                    yield event, note


def _resolves(note: Note, following: list[Event]) -> bool:
    """Whether a step leads on from a note: in the next event that sounds other notes, or in the next note on its string."""
    midi, nearby = note.pitch.midi, True
    for event in following:
        struck = [each for each in event.notes if not is_dead(each)]
        if nearby and any(0 < abs(each.pitch.midi - midi) <= STEP for each in struck):
            return True
        nearby = nearby and (not struck or any(each.pitch.midi == midi for each in struck))
        on_string = [each for each in struck if each.string == note.string and each.pitch.midi != midi]
        if on_string:
            return abs(on_string[0].pitch.midi - midi) <= STEP
    return False


def chords_that_lead_away(view: View) -> Iterator[Diagnostic]:
    """Progressions in which a chord with the parent scale's fourth and leading note goes on to the parent's home: the mode is lost there.

    Plain major and natural minor are left out: going to the relative key is what songs in them do.
    """
    for section, _, _ in view.heard:
        for scale, _, bars in scales_in_force(section):
            colour = colour_of(scale) if scale else None
            if scale is None or colour is None or colour.parent is None or not colour.tones:
                continue
            before: ChordSymbol | None = None
            for event, chord in _chords(bars):
                if before and role_of(scale, before) == "pull" and role_of(scale, chord) == "parent":
                    yield from view.tell(
                        codes.PULLS_AWAY,
                        f"{before.text} to {chord.text} sounds as {colour.parent}, not as {scale.root.pitch_class} {scale.name}",
                        event,
                        "chords",
                        label=f"{chord.text} is the home of {colour.parent}",
                        help=f"go back to {scale.root.pitch_class} instead, or leave {before.text} out; "
                        f"`tabforge explain {scale.root.pitch_class} {scale.name}` tells which chords keep its colour",
                    )
                before = chord


def _chords(bars: tuple[Bar, ...]) -> Iterator[tuple[Event, ChordSymbol]]:
    """Chord symbols over bars in order."""
    for bar in bars:
        found = [(event, event.attached.chord) for voice in bar.voices for event in voice if event.attached.chord]
        yield from sorted(found, key=lambda each: each[0].onset)
