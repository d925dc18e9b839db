"""What is played in a study: each block's scale and colour, chords, range, place on the neck and techniques."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from tabforge.check.listening import Place, Stretch, scales_in_force, stretches
from tabforge.check.view import begun, is_dead
from tabforge.explaining import facts
from tabforge.explaining.scales import title
from tabforge.model.events import Note
from tabforge.model.harmony import ChordSymbol
from tabforge.model.meter import Meter
from tabforge.model.pitch import Pitch
from tabforge.model.score import Bar, Scale, Score, Section
from tabforge.theory.degrees import spell_in_scale
from tabforge.theory.intervals import interval_up
from tabforge.theory.labels import Label
from tabforge.theory.roman import numeral_of
from tabforge.theory.traits import colour_of, role_of

_NAMELESS: Final = "(no name)"
_MIDDLE: Final = 60


def beat_text(meter: Meter, onset: int, divisions: int) -> str:
    """The beat at which a place of a bar lies, as a player counts: ``3``, or ``2 1/2`` between beats."""
    at = Fraction(onset * meter.unit, divisions * 4)
    start = Fraction(0)
    for number, pulse in enumerate(meter.pulses, 1):
        if at < start + pulse:
            part = (at - start) / pulse
            return f"{number} {part}" if part else str(number)
        start += pulse
    return str(len(meter.pulses))


def _place(section: Section, place: Place | None, divisions: int) -> tuple[int | None, str | None]:
    if place is None:
        return None, None
    bar = section.bars[place.bar - 1]
    early = int(bar.meter.quarters * divisions) - bar.ticks if bar.partial and place.bar == 1 else 0
    return place.bar, beat_text(bar.meter, place.onset + early, divisions)


def _heard(section: Section, stretch: Stretch, degree: str, sound: int, note: str, divisions: int) -> facts.Heard:
    bar, beat = _place(section, stretch.begins.get(sound), divisions)
    return {"degree": degree, "note": note, "times": stretch.struck.get(sound, 0), "bar": bar, "beat": beat}


def outside_label(scale: Scale, sound: int) -> tuple[str, Pitch]:
    """How a note outside a scale is called and spelled: its interval above the root."""
    midi = _MIDDLE + (sound - _MIDDLE) % 12
    pitch = spell_in_scale(scale, midi)
    letters, semitones = interval_up(scale.root.pitch_class, pitch.pitch_class)
    plain = Label(letters + 1, 0)
    return str(Label(plain.number, semitones - plain.offset)), pitch


def _outside(section: Section, stretch: Stretch, scale: Scale, divisions: int) -> Iterator[facts.Heard]:
    for sound in sorted(stretch.struck, key=lambda each: (each - scale.root.midi) % 12):
        if (sound - scale.root.midi) % 12 not in scale.offsets:
            degree, pitch = outside_label(scale, sound)
            yield _heard(section, stretch, degree, sound, str(pitch.pitch_class), divisions)


def chords_of(bars: Sequence[Bar], first: int) -> Iterator[tuple[int, ChordSymbol]]:
    """The chord symbols over bars, with the numbers of their bars, the first of which is ``first``; one that is said again is left out."""
    last = ""
    for number, bar in enumerate(bars, first):
        found = sorted(
            ((event.onset, event.attached.chord) for voice in bar.voices for event in voice if event.attached.chord),
            key=lambda each: each[0],
        )
        for _, chord in found:
            if chord.text != last:
                yield number, chord
            last = chord.text


def _stretch(section: Section, stretch: Stretch, divisions: int) -> facts.Stretch:
    scale = stretch.scale
    chords: list[facts.BlockChord] = []
    for bar, chord in chords_of(stretch.bars, stretch.first_bar):
        numeral = numeral_of(chord, scale) if scale else None
        role = role_of(scale, chord) if scale and chord.root else None
        chords.append({"bar": bar, "chord": chord.text, "numeral": numeral, "role": role})
    return {
        "scale": title(scale) if scale else None,
        "notes": list(map(str, scale.tones)) if scale else [],
        "parent": str(colour_of(scale).parent) if scale and colour_of(scale).parent else None,
        "first_bar": stretch.first_bar,
        "last_bar": stretch.first_bar + len(stretch.bars) - 1,
        "characteristic": [
            _heard(section, stretch, tone.degree, tone.note.semitone, str(tone.note), divisions) for tone in colour_of(scale).tones
        ] if scale else [],
        "outside": list(_outside(section, stretch, scale, divisions)) if scale else [],
        "chords": chords,
    }  # fmt: skip


def _struck(section: Section) -> Iterator[Note]:
    for bar in section.bars:
        for voice in bar.voices:
            for event in voice:
                yield from (note for note in event.notes if not note.tied_in and not is_dead(note))


def _techniques(section: Section) -> list[facts.Count]:
    counts: Counter[str] = Counter()
    for bar in section.bars:
        for voice in bar.voices:
            for event in voice:
                fresh = [note for note in event.notes if not note.tied_in]
                marks = [*event.marks, *(mark for note in fresh for mark in note.marks)]
                counts.update({mark.technique.name for mark in begun(marks)})
    return [{"name": name, "times": times} for name, times in counts.most_common()]


def block_facts(section: Section, divisions: int) -> facts.BlockFacts:
    """What is played in a section."""
    notes = list(_struck(section))
    pitches = sorted((note.pitch for note in notes), key=lambda pitch: pitch.midi)
    fretted = [note.fret for note in notes if note.fret > 0]
    return {
        "name": section.title or _NAMELESS,
        "bars": len(section.bars),
        "notes": len(notes),
        "stretches": [_stretch(section, each, divisions) for each in stretches(section, divisions)],
        "lowest": str(pitches[0]) if pitches else None,
        "highest": str(pitches[-1]) if pitches else None,
        "frets": [min(fretted), max(fretted)] if fretted else [],
        "strings": sorted({note.string for note in notes}),
        "open_strings": any(note.fret == 0 for note in notes),
        "techniques": _techniques(section),
        "second_parts": [part.kind for part in section.backing],
    }


def told_once(sections: Sequence[Section]) -> list[int]:
    """The numbers of those sections that are told: they have bars; of a block that is written in several keys the first alone."""
    seen: set[object] = set()
    told = []
    for number, section in enumerate(sections):
        if section.bars and section.span not in seen:
            seen.add(section.span)
            told.append(number)
    return told


def study_facts(score: Score, sections: Sequence[Section] | None = None) -> facts.StudyFacts:
    """What is played in a study, or in some of its sections. A block that is written in several keys is told in the first alone."""
    those = score.sections if sections is None else sections
    blocks = [block_facts(those[number], score.divisions) for number in told_once(those)]
    roots = [str(scale.root.pitch_class) for section in score.sections for scale, _, _ in scales_in_force(section) if scale]
    first = next((section for section in score.sections if section.bars), None)
    return {
        "explains": "study",
        "title": score.title,
        "instrument": score.instrument.name,
        "tuning": str(first.tuning if first else score.instrument.tuning).split(),
        "keys": list(dict.fromkeys(roots)),
        "blocks": blocks,
    }
