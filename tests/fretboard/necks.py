"""Necks and lines for the tests of this room, made without the instrument table."""

from __future__ import annotations

from hypothesis import strategies as st

from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.readings import Wanted
from tabforge.model.pitch import parse_pitch, parse_pitch_class, spell_plainly
from tabforge.model.tuning import Tuning

STANDARD = "E2 A2 D3 G3 B3 E4"


def neck(tuning: str = STANDARD, capo: int = 0, frets: int = 22, scale_length: float = 648.0) -> Neck:
    """A neck from its strings, the lowest first."""
    pitches = [parse_pitch(name) for name in reversed(tuning.split())]
    assert None not in pitches
    return Neck(
        tuning=Tuning(strings=tuple(pitch for pitch in pitches if pitch)), capo=capo, frets=frets, scale_length=scale_length
    )


GUITAR = neck()
UKULELE = neck("G4 C4 E4 A4", frets=15, scale_length=380.0)
MANDOLIN = neck("G3 D4 A4 E5", frets=20, scale_length=350.0)
BASS = neck("E1 A1 D2 G2", frets=24, scale_length=864.0)
SEVEN = neck("B1 E2 A2 D3 G3 B3 E4", frets=24)


def midi(name: str) -> int:
    """The MIDI number of a pitch such as C4."""
    pitch = parse_pitch(name)
    assert pitch is not None, name
    return pitch.midi


def line(text: str) -> list[tuple[Wanted, ...]]:
    """Events from a text such as ``C4 E4+G4 A3@4 B3@4:9``: pitches, chords, pins."""
    return [tuple(_wanted(part) for part in event.split("+")) for event in text.split()]


def _wanted(text: str) -> Wanted:
    name, _, pin = text.partition("@")
    string, _, fret = pin.partition(":")
    return Wanted(midi(name), int(string) if string else None, int(fret) if fret else None)


def written(placed: list[tuple[tuple[int, int], ...]]) -> str:
    """Places as text: ``6:3 5:5+4:5``, and ``-`` for an event without any."""
    return " ".join("+".join(f"{string}:{fret}" for string, fret in grip) or "-" for grip in placed)


def ladder(root: str, tones: str, steps: list[int]) -> Ladder:
    """A ladder from its root, its tones and the semitones between them."""
    pitch = parse_pitch(root)
    assert pitch is not None
    classes = [parse_pitch_class(name) for name in tones.split()]
    offsets = [sum(steps[:number]) for number in range(len(classes))]
    return Ladder(root=pitch, offsets=tuple(offsets), tones=tuple(each for each in classes if each))


@st.composite
def necks(draw: st.DrawFn) -> Neck:
    """Necks of every sort: rising, falling and unison strings, capos, short necks."""
    strings = draw(st.lists(st.integers(36, 72), min_size=3, max_size=8))
    if draw(st.booleans()):
        strings.sort()
    return Neck(
        tuning=Tuning(strings=tuple(spell_plainly(each) for each in reversed(strings))),
        capo=draw(st.integers(0, 5)),
        frets=draw(st.integers(5, 24)),
        scale_length=draw(st.sampled_from([346.0, 380.0, 648.0, 686.0, 864.0])),
    )
