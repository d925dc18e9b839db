"""Text: every label stands on its string and fret, read back from the characters; pages that were read by eye are stored."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.diagrams.grips import grip
from tabforge.diagrams.marks import MARKS
from tabforge.diagrams.model import Diagram
from tabforge.diagrams.plain import WIDTH, text
from tabforge.diagrams.shapes import Frets
from tabforge.fretboard.neck import Neck
from tabforge.theory.chords import parse_chord
from tests.diagrams.making import run, whole
from tests.fretboard.necks import GUITAR, SEVEN, UKULELE, neck, necks

STORED = Path(__file__).parent / "stored"
TWELVE = neck("C2 E2 G2 B2 D3 F3 A3 C4 E4 G4 B4 D5", frets=36)
THREE = neck("D3 A3 D4", frets=16)

Read = dict[tuple[int, int], str]


def forms(diagram: Diagram) -> Read:
    return {(dot.string, dot.fret): MARKS[dot.role].around(dot.label) for dot in diagram.dots}


def read_strips(page: str, strings: int, left_handed: bool) -> Read:
    """String and fret of every label of a page of strips, by its columns: under each label stands its fret."""
    found: Read = {}
    lines = page.split("\n")
    for at, line in enumerate(lines):
        if not re.fullmatch(r" *[0-9]+( +[0-9]+)*", line):
            continue
        numbers = [(each.start(), each.end(), int(each.group())) for each in re.finditer("[0-9]+", line)]
        for string in range(1, strings + 1):
            row = lines[at - strings + string - 1]
            # The string's name stands at the nut's side, before the rest.
            name = re.search(r"[A-Ga-g#]+b*$", row) if left_handed else re.match(r"[A-Ga-g]#*b*", row)
            assert name is not None
            begin, end = (0, name.start()) if left_handed else (name.end(), len(row))
            for label in re.finditer(r"[^\s|-]+", row[begin:end]):
                middle = begin + (label.start() + label.end() - 1) / 2
                fret = min(numbers, key=lambda each: abs((each[0] + each[1] - 1) / 2 - middle))[2]
                found[string, fret] = label.group()
    return found


@given(necks() | st.sampled_from([TWELVE, THREE, UKULELE, SEVEN]), st.booleans(), st.integers(40, 120), st.sampled_from(["degree", "note"]))
def test_a_shape_is_read_back_from_its_characters(tuned: Neck, left: bool, width: int, labels: str) -> None:
    diagram = whole("Bb2 lydian", tuned, labels=labels, left_handed=left)  # type: ignore[arg-type]  # one of Labels
    page = text([diagram], width)
    assert read_strips(page, len(tuned.tuning), left) == forms(diagram)
    assert max(map(len, page.split("\n"))) <= width
    assert page.isascii()
    assert not any(line != line.rstrip() for line in page.split("\n"))


def read_chart(page: str, strings: int, left_handed: bool) -> tuple[Read, list[int]]:
    """String and fret of every label of one chart, by its columns, and the strings that are not played."""
    lines = page.split("\n")
    rule = next(at for at, line in enumerate(lines) if re.fullmatch(r" *(=+|-+)", line))
    names = [(each.start() + each.end() - 1) / 2 for each in re.finditer(r"\S+", lines[rule - 2])]
    order = range(1, strings + 1) if left_handed else range(strings, 0, -1)
    found: Read = {}
    muted = []

    def string_at(label: re.Match[str], shift: int) -> int:
        middle = shift + (label.start() + label.end() - 1) / 2
        return order[min(range(strings), key=lambda each: abs(names[each] - middle))]

    for label in re.finditer(r"\S+", lines[rule - 1]):
        if label.group() == "x":
            muted.append(string_at(label, 0))
        else:
            found[string_at(label, 0), 0] = label.group()
    for line in lines[rule + 1 :]:
        if not line:
            break
        number = re.search(r"[0-9]+$" if left_handed else r"^ *[0-9]+", line)
        assert number is not None
        begin, end = (0, number.start()) if left_handed else (number.end(), len(line))
        for label in re.finditer(r"[^\s|=]+", line[begin:end]):
            found[string_at(label, begin), int(number.group())] = label.group()
    return found, sorted(muted)


FRETS = st.lists(st.none() | st.integers(0, 9), min_size=3, max_size=12)


@given(FRETS, st.booleans(), st.sampled_from(["degree", "note"]), st.integers(0, 8))
def test_a_chart_is_read_back_from_its_characters(frets: list[int | None], left: bool, labels: str, up: int) -> None:
    tuned = neck(" ".join(["C2", "E2", "G2", "B2", "D3", "F3", "A3", "C4", "E4", "G4", "B4", "D5"][: len(frets)]))
    shape = tuple(fret + up if fret else fret for fret in frets)
    diagram = grip(shape, tuned, chord=parse_chord("Cmaj9"), labels=labels, left_handed=left)  # type: ignore[arg-type]  # one of Labels
    page = text([diagram])
    assert read_chart(page, len(frets), left) == (forms(diagram), sorted(diagram.muted))


PAGES = {
    "three a string": lambda: [run("Bb2 lydian", "3 per string from string 6")],
    "shapes": lambda: [run("C3 major", f"shape {name}") for name in "CAGED"],
    "diagonal and fragment": lambda: [
        run("A2 minor pentatonic", "diagonal from string 6 fret 3"),
        run("C3 major", "fragment 3 per string from string 6"),
    ],
    "whole neck": lambda: [whole("E2 minor blues", GUITAR)],
    "left-handed": lambda: [whole("E2 minor blues", GUITAR, Frets(0, 5), "note", left_handed=True)],
    "banjo": lambda: [run("G3 major", "open", "instrument banjo")],
    "charts": lambda: [
        grip((None, 3, 2, 0, 1, 0), GUITAR, chord=parse_chord("C")),
        grip((8, 10, 10, 9, 8, 8), GUITAR, chord=parse_chord("Cm"), labels="note"),
        grip((1, 3, 3, 2, 1, 1), GUITAR, chord=parse_chord("F"), labels="finger", fingers=list("134211"), left_handed=True),
        grip((3, 2, 1, 0, 0, 1, 3, 2), neck("F#1 B1 E2 A2 D3 G3 B3 E4"), subtitle="a shape without a name", labels="note"),
    ],
}


@pytest.mark.parametrize("name", PAGES)
def test_pages_are_as_they_were_read(name: str, regen: bool) -> None:
    page = text(PAGES[name](), WIDTH)
    path = STORED / f"{name}.txt"
    if regen:
        path.parent.mkdir(exist_ok=True)
        path.write_text(page)
    assert page == path.read_text()
