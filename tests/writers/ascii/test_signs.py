"""Every technique has its sign, in the form players post.

The forms are common practice of plain-text tab, no source: they are what legends under posted tabs commonly list (h p / \\ b r ~ x PM,
``<12>`` for a natural and ``[12]`` for an artificial harmonic, ``(5)`` for a ghost note, T for a tap, tr for a trill).
"""

from __future__ import annotations

import pytest

from tabforge.model.techniques import TECHNIQUES, Mark, Technique
from tabforge.writers.ascii import write
from tabforge.writers.ascii.marks import HANDLERS, Shape, put_on
from tabforge.writers.options import WriteOptions
from tests.writers.ascii.build import bar, score, section

# technique → (events, what string 1 shows, what the row of signs shows)
FORMS: dict[str, tuple[tuple[str, ...], str, str]] = {
    "hammer-on": (("h 1:5 h", "h 1:7"), "5h------7", ""),
    "pull-off": (("h 1:7 p", "h 1:5"), "7p------5", ""),
    "legato slide": (("h 1:5 sl", "h 1:7"), "5/------7", ""),
    "shift slide": (("h 1:7 ss", "h 1:5"), "7\\------5", ""),
    "slide in from below": (("w 1:7 in/",), "/7", ""),
    "slide in from above": (("w 1:7 in\\",), "\\7", ""),
    "slide out upward": (("w 1:7 out/",), "7/", ""),
    "slide out downward": (("w 1:7 out\\",), "7\\", ""),
    "bend": (("w 1:7 b1",), "7b(full)", ""),
    "bend and release": (("w 1:7 b1/2r",), "7b(1/2)r", ""),
    "pre-bend": (("w 1:7 pb3/2",), "7pb(1+1/2)", ""),
    "pre-bend and release": (("w 1:7 pb1/4r",), "7pb(1/4)r", ""),
    "vibrato": (("h 1:7 v<", "h =1:7 v>"), "7~------=~", ""),
    "wide vibrato": (("w 1:7 wv",), "7~~", ""),
    "palm mute": (("h 1:7 pm<", "h 1:7 pm>"), "7-------7", "PM------|"),
    "let ring": (("h 1:7 lr<", "h 1:5 lr>"), "7-------5", "LR------|"),
    "dead note": (("w x1:7",), "x", ""),
    "ghost note": (("w 1:7 gh",), "(7)", ""),
    "natural harmonic": (("w 1:12 nh",), "<12>", ""),
    "artificial harmonic": (("w 1:5 ah7",), "5[12]", ""),
    "pinch harmonic": (("w 1:5 ph",), "5", "PH"),
    "tapped harmonic": (("w 1:5 th",), "5[17]", "TH"),
    "tap": (("w 1:12 t",), "12", "T"),
    "left-hand tap": (("w 1:5 lt",), "5", "LT"),
    "trill": (("w 1:5 tr1",), "5tr6", ""),
    "tremolo picking": (("w 1:5 tp2",), "5", "tp2"),
    "staccato": (("w 1:5 st",), "5", "."),
    "tenuto": (("w 1:5 tn",), "5", "_"),
    "accent": (("w 1:5 ac",), "5", ">"),
    "strong accent": (("w 1:5 ma",), "5", "^"),
    "fermata": (("w 1:5 fm",), "5", "fm"),
    "arpeggio upward": (("w 1:5+2:5 ar/",), "5", "ar/"),
    "arpeggio downward": (("w 1:5+2:5 ar\\",), "5", "ar\\"),
    "brush upward": (("w 1:5+2:5 br/",), "5", "br/"),
    "brush downward": (("w 1:5+2:5 br\\",), "5", "br\\"),
    "rake": (("w 1:5 rk",), "5", "rk"),
    "volume swell": (("w 1:5 sw",), "5", "sw"),
    "vibrato bar dip": (("w 1:5 dip",), "5", "dip"),
    "string scrape": (("w 6:5 sc",), "", "sc"),
    "barre": (("h 1:3+6:3 ba3<", "h 1:3 ba3>"), "3-------3", "BIII----|"),
    "half barre": (("h 1:9 hb9<", "h 1:9 hb9>"), "9-------9", "hBIX----|"),
    # Octave lines concern the staff: tab shows the same frets with and without, and nothing is lost.
    "octave higher": (("h 1:12 8va<", "h 1:12 8va>"), "12------12", ""),
    "octave lower": (("w 6:5 8vb",), "", ""),
    "two octaves higher": (("w 1:12 15ma",), "12", ""),
}


STAFF = ("octave higher", "octave lower", "two octaves higher")


@pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda technique: technique.name)
def test_every_technique_has_its_form(technique: Technique) -> None:
    events, string, above = FORMS[technique.name]
    data, losses = write(score(section("", bar(*events))), WriteOptions())
    text = data.decode()
    lines = text.split("\n")
    at = next(place for place, line in enumerate(lines) if line.startswith("e|"))
    assert lines[at].removeprefix("e|").strip("-|") == string
    signs = [line.strip() for line in lines[at - 2 : at - 1]]
    assert signs == [above]
    assert losses == ()
    assert (technique.name in text[text.index("Legend") :]) == (technique.name not in STAFF)


def test_no_form_is_stale() -> None:
    assert set(FORMS) == {technique.name for technique in TECHNIQUES} == set(HANDLERS)


def test_a_technique_without_a_sign_is_a_bug() -> None:
    unknown = Technique(name="whistling", form="wh", meaning="whistle", sign="w")
    with pytest.raises(KeyError):
        put_on(Shape(5), (Mark(technique=unknown),))


def above_and_strings(*events: str) -> tuple[list[str], list[str]]:
    lines = write(score(section("", bar(*events))), WriteOptions(legend=False))[0].decode().split("\n")
    at = next(place for place, line in enumerate(lines) if line.startswith("e|"))
    top = max(place for place in range(at) if not lines[place])
    return lines[top + 1 : at], lines[at : at + 6]


def test_a_sign_on_one_note_of_a_chord_names_its_string() -> None:
    above, strings = above_and_strings("w 1:12+2:13+3:12 t@2 v@3")
    assert above[0].strip() == "T@2"
    assert [line[3:6] for line in strings[:3]] == ["12-", "13-", "12~"]


def test_signs_over_one_event_stand_together() -> None:
    above, _ = above_and_strings("w 1:12 t ac st")
    assert above[0].strip() == "T>."


def test_a_held_bend_is_kept_on_the_next_stroke() -> None:
    _, strings = above_and_strings("h 1:7 b1<", "h 1:7 b1>")
    assert "7b(full)" in strings[0]
    assert "7b=" in strings[0]


def test_a_held_note_shows_no_number_again() -> None:
    above, strings = above_and_strings("h 1:12+2:13", "h =1:12+2:15")
    assert [line[3:].rstrip("-|") for line in strings[:2]] == ["12------=", "13------15"]
    assert above[-1].split() == ["h", "h"]  # one note is struck: the event is not tied as a whole
    above, strings = above_and_strings("h 1:12", "h =1:12")
    assert above[-1].split() == ["h", "+h"]


def test_slides_look_ahead_over_rests_and_bar_lines() -> None:
    text = write(
        score(section("", bar("h 1:9 sl", "h r"), bar("h 2:3 sl", "h 1:7"), bar("w 2:8"))), WriteOptions(legend=False, rhythm_line=False)
    )[0].decode()
    lines = text.split("\n")
    assert "9\\-" in next(line for line in lines if line.startswith("e|"))
    assert "3/-" in next(line for line in lines if line.startswith("B|"))
