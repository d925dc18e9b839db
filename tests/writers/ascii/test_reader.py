"""The reader of the tests notices what is wrong: a proof by it is worth something."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tabforge.writers.ascii import write
from tabforge.writers.options import WriteOptions
from tests.writers.ascii import reader
from tests.writers.ascii.build import bar, event, score, section, tuplet

TRIPLET = tuplet("3:2", event("q 2:3"), event("q 2:5 v"), event("q 2:3"))
STUDY = score(section("", bar("q 1:5 h", "q 1:7", "h 6:12+5:10 pm"), bar(TRIPLET, "h r")))
TEXT = write(STUDY, WriteOptions(legend=False))[0].decode()


def noticed(reading: Callable[[str], object], text: str, changed: str) -> bool:
    """Whether a change is read as something else, or refused."""
    right = reading(text)
    try:
        return reading(changed) != right
    except AssertionError as wrong:
        return bool(str(wrong))


def seen(text: str) -> list[list[tuple[dict[int, str], str, list[str]]]]:
    return [[(each.notes, each.upper, list(map(str, each.lengths.values()))) for each in columns] for columns in reader.bars(text)]


def test_it_reads_what_is_there() -> None:
    assert seen(TEXT) == [
        [({1: "5"}, "q", ["1"]), ({1: "7"}, "q", ["1"]), ({6: "12", 5: "10"}, "h", ["2"])],
        [({2: "3"}, "q", ["2/3"]), ({2: "5"}, "q", ["2/3"]), ({2: "3"}, "q", ["2/3"]), ({}, "rh", ["2"])],
    ]


LOUD = score(
    section("", bar("q 1:5 d:p y:<", "q 1:7", "h 6:12 d:f y:| ba5"), bar("w r"), bar("w r"), bar("h 6:5 hb5<", "h 5:7 hb5>")),
)
LOUD_TEXT = write(LOUD, WriteOptions(legend=False))[0].decode()


def told(text: str) -> list[list[tuple[tuple[str, str], set[str]]]]:
    found = reader.bars(text)
    return [[(each.loudness.get("upper", ("", "")), each.extents.get("upper", set())) for each in columns] for columns in found]


def test_it_reads_dynamics_hairpins_extents_and_bars_of_rest() -> None:
    nothing = ("", "")
    assert told(LOUD_TEXT) == [
        [(("p", "<"), set()), (("", "<"), set()), (("f", ""), {"BV"})], [], [], [(nothing, {"hBV"}), (nothing, {"hBV"})],
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("old", "new"), [("p<", "p>"), ("-f", "mf"), ("   BV\n", "   BX\n"), ("hBV-", "BV--"), ("2 bars", "3 bars"), ("-|", " |")]
)
def test_it_notices_a_change_there_too(old: str, new: str) -> None:
    assert old in LOUD_TEXT
    assert noticed(told, LOUD_TEXT, LOUD_TEXT.replace(old, new))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("12", "13"),
        ("E|-----------12", "E|----------12-"),
        ("5h", "-5"),
        ("B|----", "B|---"),
        ("[---3---]", "[---5---]"),
        ("5~", "5?"),
        ("rh", "rq"),
    ],
)
def test_it_notices_a_change(old: str, new: str) -> None:
    assert old in TEXT
    changed = TEXT.replace(old, new)
    assert noticed(seen, TEXT, changed)
