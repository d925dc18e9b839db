"""The reader of the tests notices what is wrong: a proof by it is worth something."""

from __future__ import annotations

import pytest

from tabforge.writers.ascii import write
from tabforge.writers.options import WriteOptions
from tests.writers.ascii import reader
from tests.writers.ascii.build import bar, event, score, section, tuplet

TRIPLET = tuplet("3:2", event("q 2:3"), event("q 2:5 v"), event("q 2:3"))
STUDY = score(section("", bar("q 1:5 h", "q 1:7", "h 6:12+5:10 pm"), bar(TRIPLET, "h r")))
TEXT = write(STUDY, WriteOptions(legend=False))[0].decode()


def seen(text: str) -> list[list[tuple[dict[int, str], str, list[str]]]]:
    return [[(each.notes, each.upper, list(map(str, each.lengths.values()))) for each in columns] for columns in reader.bars(text)]


def test_it_reads_what_is_there() -> None:
    assert seen(TEXT) == [
        [({1: "5"}, "q", ["1"]), ({1: "7"}, "q", ["1"]), ({6: "12", 5: "10"}, "h", ["2"])],
        [({2: "3"}, "q", ["2/3"]), ({2: "5"}, "q", ["2/3"]), ({2: "3"}, "q", ["2/3"]), ({}, "rh", ["2"])],
    ]


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
    try:
        assert seen(changed) != seen(TEXT)
    except AssertionError as wrong:
        assert str(wrong)
