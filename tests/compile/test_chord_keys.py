"""A row of key in a chord block: numerals stand on the scale in force.

Source: music21's roman numerals for what chords numerals are in each key.
"""

from __future__ import annotations

from music21 import key, roman

from tabforge.model.score import Score
from tabforge.pipeline import study_from, tidied
from tests.compile.test_chord_blocks import codes_of, score_of

CHANGING = "key . | A2-natural-minor | . | E3-major\nprogression I V7 | iv V | % | V vi\nstrum d u d u"


def chords_of(score: Score, section: int = 0) -> list[list[str]]:
    bars = score.sections[section].bars
    return [[event.attached.chord.text for event in bar.voices[0] if event.attached.chord] for bar in bars]


def tones_of(score: Score, bar: int) -> list[set[int]]:
    """Pitch classes of each stroke of a bar."""
    return [{note.pitch.midi % 12 for note in event.notes} for event in score.sections[0].bars[bar].voices[0] if event.notes]


def test_numerals_are_those_of_the_scale_in_force() -> None:
    score = score_of(CHANGING)
    tonics = [key.Key("C"), key.Key("a"), key.Key("a"), key.Key("E")]
    for bar, (tonic, numerals) in enumerate(zip(tonics, [("I", "V7"), ("iv", "V"), ("iv", "V"), ("V", "vi")], strict=True)):
        wanted = [{pitch.pitchClass for pitch in roman.RomanNumeral(each, tonic).pitches} for each in numerals]
        struck = tones_of(score, bar)
        assert all(tones <= wanted[index * len(wanted) // len(struck)] for index, tones in enumerate(struck))
    assert chords_of(score) == [["C", "G7"], ["Dm", "E"], ["Dm", "E"], ["B", "C#m"]]


def test_the_bar_and_the_section_have_the_scale() -> None:
    scales = [bar.scale for bar in score_of(CHANGING).sections[0].bars]
    assert [str(scale.root) + " " + scale.name if scale else "." for scale in scales] == [".", "A2 natural minor", ".", "E3 major"]
    first = score_of("key D3-dorian\nprogression i | IV").sections[0]
    assert first.scale is not None
    assert (str(first.scale.root), first.scale.name) == ("D3", "dorian")
    assert [bar.scale for bar in first.bars] == [None, None]


def test_a_change_holds_into_the_next_system_and_moves_with_the_study() -> None:
    lines = "key . | G2-major\nprogression I | I\n\nprogression V"
    assert chords_of(score_of(lines)) == [["C"], ["G"], ["D"]]
    moved = score_of(lines, "scale C3 major\nkeys F\n")
    assert chords_of(moved, 1) == [["F"], ["C"], ["G"]]


def test_what_is_struck_is_spelled_in_the_scale_in_force() -> None:
    """String 1 at fret 2 is no tone of this chord, so the scale says what it is called."""
    score = score_of("key . | Db3-major\nprogression N.C. | C@x3201x C@x32012\nstrum xd d")
    assert [str(note.pitch) for note in score.sections[0].bars[1].voices[0][-1].notes if note.string == 1] == ["Gb4"]


def test_a_numeral_that_only_the_other_scale_lacks_is_told() -> None:
    assert codes_of("key . | A2-minor-pentatonic\nprogression ii | ii") == ["M312"]
    assert codes_of("progression ii | ii") == []


def test_the_row_is_laid_out_and_read_again() -> None:
    text = 'scale C3 major\nchords "Sample"\n' + "".join(f"  {line}\n" for line in CHANGING.split("\n"))
    once, _ = tidied("sample.riff", text.encode())
    assert once is not None
    twice, _ = tidied("sample.riff", once.encode())
    assert once == twice
    assert study_from("sample.riff", once.encode()).score is not None
    assert "A2-natural-minor" in once
