"""Accidentals.

Source: music21's ``makeAccidentals`` without its cautionary rules says which accidentals a bar must show. Reminders, ties and dead notes
are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.model.score import Scale
from tabforge.writers.musicxml.accidentals import SIGNS, signature
from tests.proof.scores import BB_LYDIAN, E_MAJOR, Item, bar, note, one_bar, pitches, rest, score, section, voice
from tests.writers.musicxml.xml import notes, shown, tree


def scale_of(fifths: int) -> Scale:
    return replace(BB_LYDIAN, fifths=fifths)


@pytest.mark.parametrize("fifths", range(-7, 8))
def test_signatures_are_those_of_the_reference(fifths: int) -> None:
    from music21.key import KeySignature

    altered = {pitch.step: int(pitch.alter) for pitch in KeySignature(fifths).alteredPitches}
    assert {step: alter for step, alter in signature(fifths).items() if alter} == altered


names = st.tuples(st.sampled_from("CDEFGAB"), st.sampled_from(("", "#", "b", "##", "bb"))).map(lambda name: f"{name[0]}{name[1]}4")
"""In one octave: the reference lets an accidental hold in others too, which is not our rule."""


@given(st.integers(-7, 7), st.lists(names, min_size=1, max_size=16))
@settings(max_examples=150, deadline=None)
def test_a_bar_shows_what_the_reference_says_it_must(fifths: int, chosen: list[str]) -> None:
    from music21 import key, stream
    from music21 import note as notes21

    reference = stream.Measure()
    reference.append(key.KeySignature(fifths))
    for name in chosen:
        reference.append(notes21.Note(name.replace("b", "-")))
    reference.makeAccidentals(
        inPlace=True, useKeySignature=True, cautionaryPitchClass=False, cautionaryAll=False, cautionaryNotImmediateRepeat=False,
        overrideStatus=True,
    )  # fmt: skip
    must = [bool(each.pitch.accidental and each.pitch.accidental.displayStatus) for each in reference.notes]
    items = [*pitches("s", " ".join(chosen)), *[rest("s")] * (16 - len(chosen))]
    found = notes(tree(one_bar(*items, scale=scale_of(fifths))))[: len(chosen)]
    assert [bool(shown(each)) and "(" not in shown(each) for each in found] == must
    for each, name in zip(found, chosen, strict=True):
        alter = int(each.findtext("pitch/alter") or 0)
        assert shown(each).strip("()") in {"", SIGNS[alter]}, name


def bars(*texts: str, scale: Scale | None = None) -> list[list[str]]:
    """What the notes of each bar show; a bar is pitches, quarters."""
    made = [bar(voice(*pitches("q", text)), meter=f"{len(text.split())}/4") for text in texts]
    document = tree(score(section(*made, scale=scale)))
    return [[shown(each) for each in measure.iterfind("note") if each.findtext("staff") == "1"] for measure in document.iter("measure")]


def test_an_accidental_holds_to_the_end_of_its_bar() -> None:
    assert bars("F#4 F#4 F4 F#4") == [["sharp", "", "natural", "sharp"]]
    assert bars("F4 F#4", scale=E_MAJOR) == [["natural", "sharp"]]
    assert bars("F#4 F##4 F#4", scale=E_MAJOR) == [["", "double-sharp", "sharp"]]
    assert bars("Bbb3 Bb3", scale=BB_LYDIAN) == [["flat-flat", "flat"]]


def test_a_reminder_in_the_bar_after_and_no_longer() -> None:
    assert bars("F#4 C4", "F4 F4", "F4 C4") == [["sharp", ""], ["(natural)", ""], ["", ""]]
    assert bars("Bb4 C4", "C4 D4", "B4 C4") == [["flat", ""], ["", ""], ["", ""]]
    # What is altered again shows an ordinary accidental.
    assert bars("F#4 C4", "F#4 F4") == [["sharp", ""], ["sharp", "natural"]]


def test_a_reminder_in_another_octave_of_the_same_bar() -> None:
    assert bars("F#4 F5 F5") == [["sharp", "(natural)", ""]]
    assert bars("F5 F#4 F5") == [["", "sharp", "(natural)"]]
    assert bars("F#4 F#5") == [["sharp", "sharp"]]


def test_a_new_section_forgets() -> None:
    document = tree(score(section(bar(voice(*pitches("w", "F#4")))), section(bar(voice(*pitches("w", "F4"))))))
    assert [shown(each) for each in notes(document)] == ["sharp", ""]


def test_a_tie_over_the_bar_line_shows_nothing_and_holds_for_nothing() -> None:
    first = bar(voice(note("w", "4:4", tie="out")))
    second = bar(voice(note("q", "4:4", tie="in"), note("q", "4:4"), note("h", "4:3")))
    third = bar(voice(note("q", "4:4", tie="in"), note("q", "4:3"), note("h", "4:3")))
    assert [shown(each) for each in notes(tree(score(section(first, second))))] == ["sharp", "", "sharp", "natural"]
    assert [shown(each) for each in notes(tree(score(section(first, third))))] == ["sharp", "", "(natural)", ""]


def test_two_voices_share_the_accidentals_of_their_staff_in_time() -> None:
    upper = voice(*pitches("q", "C5 F#4 C5 C5"))
    lower = voice(*pitches("h", "F4 F4"))
    document = tree(score(section(bar(upper, lower))))
    found = {each.findtext("voice"): [] for each in notes(document)}
    for each in notes(document):
        found[each.findtext("voice")].append(shown(each))
    assert found == {"1": ["", "sharp", "", ""], "2": ["", "natural"]}


def test_chords_grace_notes_and_dead_notes() -> None:
    def marks(*items: Item) -> list[str]:
        return [shown(each) for each in notes(tree(one_bar(*items, rest("h."))))][:-1]

    assert marks(note("q", "5:4 4:4", spell="C#3 F#3")) == ["sharp", "sharp"]
    assert marks(note("e", "4:4", grace="before"), note("q", "4:4")) == ["sharp", ""]
    # A dead note has no pitch to alter, and changes none.
    assert marks(note("e", "4:4", marks="x"), note("e", "4:4")) == ["", "sharp"]


def test_tab_shows_no_accidentals() -> None:
    document = tree(one_bar(*pitches("q", "F#4 F4 Bb4 B4")))
    assert [shown(each) for each in notes(document, staff=2)] == ["", "", "", ""]
