"""Troubles in words: every kind has some, and they name what the study names."""

from __future__ import annotations

import pytest

from tabforge.diagnostics import Diagnostic, Severity
from tabforge.diagnostics.catalogue import neck as codes
from tabforge.diagnostics.core import Code
from tabforge.fretboard.explain import SAYING, advise_stretch, diagnose
from tabforge.fretboard.layouts import Extent, Layout, lay_out
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.placement import place
from tabforge.fretboard.reach import stretch
from tabforge.fretboard.trouble import Kind
from tabforge.model.pitch import parse_pitch
from tabforge.source import Span
from tests.fretboard.necks import GUITAR, UKULELE, ladder, line, neck

HERE = Span(3, 7)
B_FLAT_LYDIAN = ladder("Bb2", "Bb C D E F G A", [2, 2, 2, 1, 2, 2, 1])


def told(text: str, on: Neck = GUITAR, pitch: str | None = None) -> Diagnostic:
    _, troubles = place(line(text), on)
    return diagnose(troubles[0], HERE, on, parse_pitch(pitch) if pitch else None)


def told_of(layout: Layout, extent: Extent = Extent(), on: Neck = GUITAR) -> Diagnostic:  # noqa: B008  # frozen
    _, trouble = lay_out(layout, B_FLAT_LYDIAN, extent, on)
    assert trouble is not None
    return diagnose(trouble, HERE, on)


def test_every_kind_has_words_and_every_code_a_kind() -> None:
    assert set(SAYING) == set(Kind)
    spoken = {code for code, _ in SAYING.values()}
    advice = {codes.WIDE_RUN, codes.WIDE_GRIP, codes.SHIFT_TOO_FAST, codes.NO_FINGERS}
    settings = {codes.BAD_FRETTING, codes.NO_VOICING, codes.NO_DRONE}
    assert {each for each in vars(codes).values() if isinstance(each, Code)} - advice - settings <= spoken


def test_a_note_is_called_as_the_study_spells_it() -> None:
    found = told("Db2", pitch="C#2")
    assert found.headline == "C#2 is below the lowest open string, E2"
    assert found.help == "C#3 lies on string 5, fret 4"
    assert found.span == HERE


def test_the_capo_is_remembered() -> None:
    assert told("F#2", neck(capo=3)).headline == "F#2 is below the lowest open string, G2 with the capo at fret 3"


@pytest.mark.parametrize(
    ("text", "headline", "aid"),
    [
        ("F6", "F6 is above the last fret of every string: the neck ends at D6", "F5 lies on string 1, fret 13"),
        ("C4@7", "there is no string 7: this tuning has 6 strings", "C4 lies on string 2, fret 1"),
        ("C4@1:23", "there is no fret 23: the neck ends at fret 22", "C4 lies on string 2, fret 1"),
        ("C3@1", "string 1 does not have C3: it goes from E4 to D6", "C3 lies on string 5, fret 3"),
        ("C4@3:4", "string 3, fret 4 is B3, not C4", "C4 lies on string 3, fret 5"),
        ("E2+F2", "the notes of this chord cannot each have a string of their own",
         "with one note elsewhere or in another octave it lies under one hand: 4:2+6:1"),
    ],
)
def test_the_nearest_thing_is_named(text: str, headline: str, aid: str) -> None:
    found = told(text)
    assert (found.headline, found.help) == (headline, aid)


def test_layouts_speak_in_the_scales_spelling() -> None:
    found = told_of(Layout(kind="position", fret=5), Extent(last=parse_pitch("Bb5")))
    assert found.headline == "this layout does not go as far as Bb5"
    assert found.label == "goes from A2 to C5"
    high = told_of(Layout(kind="per string", count=4, fret=10))
    assert high.code is codes.LAYOUT_HIGH
    assert high.help == "the whole layout fits from fret 6"
    assert told_of(Layout(kind="per string", count=6)).help is None
    assert told_of(Layout(kind="per string", from_string=4), on=UKULELE).headline.startswith("string 3 (C4) is not tuned higher")
    low = told_of(Layout(kind="per string", count=1))
    assert low.headline == "the line cannot go on to string 3: its open note G3 is above the next one, E3"


def test_a_wide_stretch_is_advice_with_the_usual_caution() -> None:
    found = stretch([(5, 1), (3, 6)], GUITAR)
    assert found is not None
    advice = advise_stretch(found, HERE, grip=True)
    assert advice.code.severity is Severity.ADVICE
    assert advice.headline == "this grip stretches the hand 153 mm, from fret 1 to fret 6: farther than most hands reach"
    assert advice.help is not None
    assert all(word in advice.help for word in ("warm up", "pain", "numbness", "clinician"))
