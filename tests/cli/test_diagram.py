"""diagram: what can be drawn, in both forms, and what is said where it cannot."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import get_args, get_type_hints

import pytest
from lxml import etree
from typer.testing import Result

from tabforge.cli.command_diagram import command
from tabforge.fretboard.voicings import VOICING_KINDS
from tabforge.syntax.grammar import VOICINGS
from tests.cli.test_startup import HEAVY, loaded

Run = Callable[..., Result]

STUDY = """\
title    Lantern Bay
scale    C3 major

riff "Climb"
  rhythm   q q q q
  frets    6:8 6:10 5:7 5:8
  fingers  1 3 . .

riff "Undertow"
  rhythm   w
  notes    Eb3

riff "Hush"
  scale    D3 dorian
  rhythm   w
  degrees  6
"""


@pytest.fixture
def study(tmp_path: Path) -> str:
    (tmp_path / "lantern.riff").write_text(STUDY)
    return "lantern.riff"


def test_a_scale_in_a_layout(tabforge: Run) -> None:
    result = tabforge("diagram", "Bb2", "lydian", "--layout", "3 per string from string 6")
    assert (result.exit_code, result.stderr) == (0, "")
    # The lydian shape at fret 6 (common practice, from memory); #4 is what makes it lydian.
    assert "E|-[1]--|------|--2---|------|--3---|------|------|\n    6      7      8      9      10     11     12\n" in result.stdout
    assert "A|------|-{#4}-|--5---|------|--6---|------|------|\n" in result.stdout


def test_a_scale_of_ones_own_in_one_word_or_many(tabforge: Run) -> None:
    many = tabforge("diagram", "D3", "degrees", "1", "2", "b3", "#4", "5", "--frets", "0-4").stdout
    assert many == tabforge("diagram", "D3 degrees 1 2 b3 #4 5", "--frets", "0-4").stdout
    assert "#4" in many


def test_tones_are_the_same_with_a_layout_and_without(tabforge: Run) -> None:
    whole = tabforge("diagram", "C3", "major", "--tones", "1 3 5", "--frets", "7-10", "--label", "note").stdout
    laid = tabforge("diagram", "C3", "major", "--tones", "1 3 5", "--layout", "position 7", "--frets", "7-10", "--label", "note").stdout
    assert {line for line in laid.splitlines() if "|" in line} == {line for line in whole.splitlines() if "|" in line}


def test_a_block_by_its_name_or_its_number(tabforge: Run, study: str) -> None:
    named = tabforge("diagram", study, "climb")
    assert named.exit_code == 0
    assert named.stdout == tabforge("diagram", study, "1").stdout == tabforge("diagram", "-", "Climb", stdin=STUDY).stdout
    assert "A|--3--|--4--|-----|-----|\nE|-----|-[1]-|-----|--2--|\n    7     8     9     10\n" in named.stdout
    assert "E|-----|-[1]-|-----|--3--|\n" in tabforge("diagram", study, "Climb", "--label", "finger").stdout


def test_hand_and_its_option(tabforge: Run, tmp_path: Path) -> None:
    right = tabforge("diagram", "C3", "major", "--frets", "5-8").stdout
    left = tabforge("diagram", "C3", "major", "--frets", "5-8", "--left").stdout
    assert right != left
    (tmp_path / "left.riff").write_text("hand left\n" + STUDY)
    (tmp_path / "right.riff").write_text(STUDY)
    assert tabforge("diagram", "left.riff", "1").stdout == tabforge("diagram", "right.riff", "1", "--left").stdout
    assert tabforge("diagram", "left.riff", "1", "--right").stdout == tabforge("diagram", "right.riff", "1").stdout


def test_a_chord_and_its_grips(tabforge: Run) -> None:
    shown = tabforge("diagram", "chord", "C").stdout
    assert "x32010" in shown  # the open grip everybody learns first (common practice, no source)
    assert shown.count("E   A   D   G   B   e") == 3
    one = tabforge("diagram", "chord", "C", "--grips", "1").stdout
    assert one == tabforge("diagram", "chord", "C", "--shape", "x32010").stdout
    fingers = tabforge("diagram", "chord", "C", "--shape", "x32010", "--fingers", "x32010").stdout
    assert " 2  |   |   2   |   |   |\n 3  |  [3]  |" in fingers
    assert "x32010" in tabforge("diagram", "chord", "--shape", "x32010").stdout
    assert tabforge("diagram", "chord", "C", "--instrument", "ukulele", "--grips", "1").stdout.splitlines()[1].split()[0] == "0003;"


def test_a_chord_in_a_voicing(tabforge: Run) -> None:
    """Shapes of any guitarist (common practice, from memory)."""
    barre = tabforge("diagram", "chord", "F", "--voicing", "barre", "--grips", "1", "--label", "finger").stdout
    assert "133211" in barre
    assert " 1 [1]==============1==[1]\n" in barre
    assert barre != tabforge("diagram", "chord", "F", "--voicing", "open", "--grips", "1", "--label", "degree").stdout
    shown = tabforge("diagram", "chord", "Cmaj7", "--voicing", "drop 2", "--strings", "4 3 2 1", "--grips", "12").stdout
    assert {"xx2413", "xx5557", "xx9988"} <= set(shown.split())
    turned = tabforge("diagram", "chord", "Cmaj7", "--voicing", "drop 2", "--strings", "1 2 3 4", "--inversion", "2").stdout
    assert turned.count("E   A   D   G   B   e") == 1
    assert "xx5557" in turned
    ukulele = tabforge("diagram", "chord", "F", "--voicing", "open", "--instrument", "ukulele", "--grips", "1").stdout
    assert ukulele.splitlines()[1].split()[0] == "2010;"


def test_voicings_are_those_of_the_language() -> None:
    offered = get_type_hints(command, include_extras=False)["voicing"]
    assert set(get_args(get_args(offered)[0])) == set(VOICINGS)
    assert {"".join(name.split()) for name in VOICINGS} == set(VOICING_KINDS)


@pytest.mark.parametrize(
    ("arguments", "seen"),
    [
        (("C3", "major", "--tuning", "drop D"), "drop D"), (("C3", "major", "--capo", "2"), "capo at fret 2"),
        (("G3", "major", "--instrument", "banjo"), "Five-String Banjo"), (("C3", "major", "--label", "note"), "[C]"),
    ],
)  # fmt: skip
def test_options_change_what_is_drawn(tabforge: Run, arguments: tuple[str, ...], seen: str) -> None:
    shown = tabforge("diagram", *arguments)
    assert shown.exit_code == 0
    assert seen in shown.stdout
    assert shown.stdout != tabforge("diagram", *arguments[:2]).stdout


def test_a_width_breaks_the_neck(tabforge: Run) -> None:
    for width in (40, 60, 200):
        shown = tabforge("diagram", "C3", "major", "--width", str(width)).stdout
        strings = [line for line in shown.splitlines() if line.startswith("e")]
        assert max(map(len, shown.splitlines())) <= width
        assert shown.split("\n\n")[0].split() == ["C", "major", "C", "D", "E", "F", "G", "A", "B"]
        assert len(strings) == {40: 5, 60: 3, 200: 1}[width]


def test_a_picture_goes_to_standard_output_or_into_a_file(tabforge: Run, tmp_path: Path) -> None:
    shown = tabforge("diagram", "chord", "Am", "--as", "svg").stdout
    assert etree.fromstring(shown.encode()).get("role") == "img"
    result = tabforge("diagram", "chord", "Am", "--into", "made/am.svg")
    assert (result.exit_code, result.stdout) == (0, "")
    assert (tmp_path / "made/am.svg").read_text(encoding="utf-8") == shown
    bare = tabforge("diagram", "chord", "Am", "--as", "svg", "--bare").stdout
    assert "#ffffff" not in bare.replace('fill="#ffffff">', "")  # the ink of labels stays


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("Bb2", "lydain"), 2, "did you mean lydian?"),
        (("chrod", "C"), 2, "Did you mean 'chord'?"),
        (("C3", "major", "--layout", "3 per strnig"), 2, "<command line>:3"),
        (("C3", "major", "--layout", "position 40"), 2, "<command line>"),
        (("C3", "major", "--instrument", "gitar"), 2, "did you mean guitar?"),
        (("C3", "major", "--tones", "1 x"), 2, "x is no degree of C major"),
        (("C3", "major", "--tones", " "), 2, "--tones names no degree"),
        (("C3", "major", "--frets", "9-5"), 2, "There are no frets 9-5"),
        (("C3", "major", "--frets", "five"), 2, "say 5-9"),
        (("C3", "major", "--label", "finger"), 2, "No fingers are given"),
        (("C3", "major", "--fingers", "1 2"), 2, "goes with --layout"),
        (("C3", "major", "--shape", "x32010"), 2, "--shape goes with a chord."),
        (("C3", "major", "--bare"), 2, "--bare is for pictures"),
        (("chord",), 2, "One symbol follows"),
        (("chord", "C", "major"), 2, "One symbol follows"),
        (("chord", "Cmja7"), 2, "did you mean"),
        (("chord", "N.C."), 2, "has no grip"),
        (("chord", "C", "--shape", "x3201"), 2, "not a shape for 6 strings"),
        (("chord", "C", "--shape", "x32010", "--fingers", "x3201"), 2, "no fingers for 6 strings"),
        (("chord", "C", "--shape", "x32010", "--frets", "1-3"), 2, "there is but that one"),
        (("chord", "C", "--frets", "2-2"), 2, "No hand reaches a grip of C at frets 2-2."),
        (("chord", "C", "--voicing", "drop 2"), 2, "The nearest is 03x0xx, a spread triad of C."),
        (("chord", "C", "--voicing", "triads", "--strings", "9 2 1"), 2, "There is no string 9 on a neck of 6 strings."),
        (("chord", "C", "--voicing", "triads", "--strings", "1 1 2"), 2, "name each once"),
        (("chord", "C", "--voicing", "triads", "--strings", "one"), 2, "'one' are no strings"),
        (("chord", "C", "--voicing", "triads", "--frets", "1-3"), 2, "neither --shape nor --frets"),
        (("chord", "C", "--strings", "3 2 1"), 2, "--strings and --inversion go with --voicing"),
        (("C3", "major", "--voicing", "open"), 2, "--voicing goes with a chord."),
        (("chord", "C", "--width", "60", "--as", "svg"), 2, "--width is for text"),
        (("chord", "--shape", "x32010", "--label", "degree"), 2, "Degrees need a root"),
        (("gone.riff",), 4, "gone.riff cannot be read"),
        (("lantern.riff",), 2, "There are: Climb, Undertow, Hush."),
        (("lantern.riff", "Clim"), 2, "Did you mean 'Climb'?"),
        (("lantern.riff", "Climb", "--capo", "2"), 2, "a study says that itself"),
        (("lantern.riff", "Climb", "--frets", "1-2"), 2, "nothing to draw"),
        (("wrong.riff",), 1, "Nothing is drawn of a study with errors."),
    ],
)
def test_what_cannot_be_drawn_is_told(tabforge: Run, study: str, tmp_path: Path, arguments: tuple[str, ...], code: int, said: str) -> None:
    (tmp_path / "wrong.riff").write_text(STUDY.replace("q q q q", "q q q z"))
    result = tabforge("diagram", *arguments)
    assert (result.exit_code, result.stdout) == (code, "")
    assert said in result.stderr


def test_words_of_the_command_line_stay_words(tabforge: Run) -> None:
    """A line break in a value begins no line of its own."""
    result = tabforge("diagram", "C3", "major", "--capo", "2\ntuning drop D")
    assert result.exit_code == 2
    assert "2 tuning drop D" in result.stderr


@pytest.mark.parametrize(
    "arguments", [("chord", "C"), ("chord", "C", "--as", "svg"), ("C3", "major", "--layout", "position 5"), ("lantern.riff", "1")]
)
def test_drawing_loads_no_heavy_library(tmp_path: Path, study: str, arguments: tuple[str, ...]) -> None:
    assert not {name.partition(".")[0] for name in loaded(tmp_path, "diagram", *arguments)} & HEAVY
