"""Notes between the half steps, and key signatures that change on the way.

Sources: the W3C MusicXML 4.0 reference (``accidental-value``: what each sign is; ``cancel``: the fifths of the signature that goes, not
needed before one without signs), and music21, which reads the pitches back.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale, Score
from tabforge.writers.musicxml import write
from tests.proof.engraver import complaints
from tests.proof.readsigns import parse
from tests.proof.scores import BB_LYDIAN, E_MAJOR, Item, bar, one_bar, pitches, score, section, voice
from tests.proof.xsd import problems
from tests.writers.musicxml.xml import notes, shown, tree


def off(item: Item, cents: int) -> Item:
    """The note with its sound moved by cents."""
    (note,) = item.notes
    return replace(item, notes=(replace(note, pitch=replace(note.pitch, cents=cents)),))


def line(text: str) -> list[Item]:
    """Notes such as ``C4+50``."""
    found = []
    for each in text.split():
        name, sign, cents = each.partition("+") if "+" in each else each.partition("-")
        (item,) = pitches("q", name)
        found.append(off(item, int(f"{sign}{cents}")) if sign else item)
    return found


def read(made: Score) -> list[tuple[str, float]]:
    """Letter and octave, and the MIDI number with decimals, of each note of the staff as music21 has them."""
    part: Any = parse(write(made)[0]).parts[0]
    return [(f"{note.pitch.step}{note.pitch.octave}", round(note.pitch.ps, 2)) for note in part.recurse().notes]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("C4+50", "quarter-sharp"),
        ("C4+40", "quarter-sharp"),
        ("Db4+50", "quarter-flat"),
        ("C4-45", "quarter-flat"),
        ("C#4+50", "three-quarters-sharp"),
        ("Db4-41", "three-quarters-flat"),
        ("C#4+39", "sharp"),
        ("C#4-10", "sharp"),
        ("Bb4+39", "flat"),
    ],
)
def test_a_quarter_tone_has_its_sign_within_ten_cents(text: str, sign: str) -> None:
    assert shown(notes(tree(one_bar(*line(f"{text} C5 C5 C5"))))[0]) == sign


def test_its_sign_holds_to_the_end_of_the_bar_and_is_taken_back() -> None:
    made = one_bar(*line("C4+50 C4+50 C4 C4+50"))
    assert [shown(each) for each in notes(tree(made))] == ["quarter-sharp", "", "natural", "quarter-sharp"]


def test_other_cents_show_no_sign_of_their_own() -> None:
    made = one_bar(*line("C4-6 F4+20 G4 A4+4"), scale=E_MAJOR)
    assert [shown(each) for each in notes(tree(made))] == ["natural", "natural", "natural", "other"]
    plain = one_bar(*line("C4-6 E4+4 G4 B4-12"))
    assert [shown(each) for each in notes(tree(plain))] == ["other", "other", "", "other"]  # the standard's other has no glyph


@pytest.mark.parametrize("text", ["C4+50 E4-40 F#4+45 Bb4-50", "C4-6 E4+4 G4+2 B4-12", "C#4+50 Db4-49 F##4+50 Ebb4-13"])
def test_the_pitches_are_read_back_from_valid_documents(text: str) -> None:
    made = one_bar(*line(text))
    assert problems(write(made)[0]) == []
    pitch: list[Pitch] = [item.notes[0].pitch for item in line(text)]
    assert read(made) == [(f"{each.step}{each.octave}", round(each.midi + each.cents / 100, 2)) for each in pitch]


FLATS = replace(BB_LYDIAN, fifths=-3)
PLAIN = replace(BB_LYDIAN, fifths=0)


@pytest.mark.parametrize(
    ("before", "after", "cancelled"),
    [
        (E_MAJOR, FLATS, "4"),
        (FLATS, replace(FLATS, fifths=-1), "-3"),
        (E_MAJOR, replace(E_MAJOR, fifths=5), None),
        (E_MAJOR, PLAIN, None),
        (PLAIN, FLATS, None),
    ],
)
def test_a_signature_within_a_section_cancels_what_goes(before: Scale, after: Scale, cancelled: str | None) -> None:
    bars = [bar(voice(*pitches("q", "C4 C4 C4 C4"))) for _ in range(3)]
    made = score(section(bars[0], replace(bars[1], scale=after), bars[2], scale=before))
    assert problems(write(made)[0]) == []
    keys = tree(made).findall(".//key")
    assert [key.findtext("fifths") for key in keys] == [str(before.fifths), str(after.fifths)]
    assert [key.findtext("cancel") for key in keys] == [None, cancelled]


def test_accidentals_follow_the_new_signature() -> None:
    bars = [bar(voice(*pitches("q", "C#4 C4 F#4 G#4"))), bar(voice(*pitches("q", "Eb4 C4 F4 Ab4")), scale=FLATS)]
    found = notes(tree(score(section(*bars, scale=E_MAJOR))))
    assert [shown(each) for each in found[:4]] == ["", "natural", "", ""]
    assert [shown(each) for each in found[4:]] == ["", "", "", ""]


@pytest.mark.parametrize("text", ["F#4-10", "Bb4+6", "C4+12", "C4+50", "F#4+50"])
def test_a_tied_note_keeps_its_tie_in_an_engraver(text: str) -> None:
    (item,) = line(text)
    (note,) = item.notes
    first, last = (replace(item, notes=(replace(note, **{side: True}),)) for side in ("tied_out", "tied_in"))
    document = write(score(section(bar(voice(*line("C4 C4 C4"), first)), bar(voice(last, *line("C4 C4 C4"))))))[0]
    assert problems(document) == []
    assert complaints(document) == []
