"""Chord shapes with notes that the chord beside them does not have."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tabforge.check.view import View
from tabforge.diagnostics.catalogue.advice import SHAPE_OUTSIDE
from tabforge.diagnostics.core import Diagnostic
from tabforge.fretboard.neck import Neck
from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import spell_plainly
from tabforge.model.tuning import Tuning
from tabforge.theory.chords import chord_tones


def shapes_outside_their_chord(view: View) -> Iterator[Diagnostic]:
    """Shapes that sound notes foreign to the chord they are given for. Notes a shape leaves out are nobody's business.

    Above a capo a chord may be named by its sound or by its shape (common practice, no source): either will do.
    """
    seen: dict[tuple[ChordSymbol, int, Tuning], list[tuple[int, int]]] = {}
    for line in view.lines:
        section = line.section
        for event in line.events:
            symbol = event.attached.chord
            if symbol is None or symbol.shape is None or symbol.root is None:
                continue
            key = (symbol, section.capo, section.tuning)
            if key not in seen:
                seen[key] = _foreign(symbol, view.neck(section))
            if not seen[key]:
                continue
            told = ", ".join(f"{spell_plainly(midi).pitch_class} on string {string}" for string, midi in seen[key])
            tones = " ".join(map(str, chord_tones(symbol)))
            yield from view.tell(
                SHAPE_OUTSIDE,
                f"the shape of {symbol.text} holds {told}, which the chord does not have",
                event,
                "chords",
                label=f"{symbol.text} is {tones}",
                help="change the shape, or name the chord after what it sounds",
            )


def _foreign(symbol: ChordSymbol, neck: Neck) -> list[tuple[int, int]]:
    """String and MIDI number of each note of the shape that is no tone of the chord, the lowest string first."""
    assert symbol.shape is not None
    tones = {tone.semitone for tone in chord_tones(symbol)}
    held = [(len(neck.tuning) - index, fret) for index, fret in enumerate(symbol.shape) if fret is not None]
    foreign: list[tuple[int, int]] = []
    for named in (replace(neck, capo=0), neck):
        sounding = [(string, named.midi_at(string, fret)) for string, fret in held]
        foreign = [(string, midi) for string, midi in sounding if midi % 12 not in tones]
        if not foreign:
            break
    return foreign
