"""What is left of a text with mistakes: as much as can be used, with poison where something was."""

from __future__ import annotations

import pytest

from tabforge.diagnostics.catalogue import text as codes
from tests.syntax.reading import everything, riff, run


def recovered(*rows: str) -> dict[str, list[str]]:
    """The one system of a riff with mistakes."""
    study, _, found = everything(riff(*rows))
    assert found
    (system,) = study["blocks"][0]["systems"]
    return system  # type: ignore[no-any-return]


@pytest.mark.parametrize(
    ("row", "bars"),
    [
        ("degrees 1 zz 3 | 4", ["1 ? 3", "4"]),
        ("degrees 1 (zz*2 3)*2 | 4", ["1 (? ? 3)*2", "4"]),
        ("degrees 1 2*0 | 4", ["?", "4"]),
        ("degrees (1 2 | 3 4) | 5", ["?", "?", "5"]),
        ("degrees 1 | | 5", ["1", "?", "5"]),
        ("degrees 1 2 % | 5", ["?", "5"]),
        ("degrees", ["?"]),
        ("frets 6:1 zz | %*2 | 6:2", ["6:1 ?", "%", "%", "6:2"]),
    ],
)
def test_bad_cells_are_poison_and_so_are_bars_that_cannot_be_counted(row: str, bars: list[str]) -> None:
    assert recovered(row)[row.split(maxsplit=1)[0]] == bars


def test_rows_beside_the_sounding_one_lose_the_whole_bar() -> None:
    system = recovered("degrees 1 | 2 | 3", "marks (h | st", 'words a | "b | c', "picks d zz | u")
    assert (system["marks"], system["words"], system["picks"]) == (["", "st"], ["a", ""], ["d ?", "u"])


def test_rows_are_brought_to_the_same_bars() -> None:
    system = recovered("degrees 1 | 2", "rhythm q | q | q", "voice 2", "degrees 1", "picks p | p")
    assert system == {"rhythm": ["q", "q"], "degrees": ["1", "2"], "voice2": {"degrees": ["1", "?"], "picks": ["p", "p"]}}


def test_a_system_in_which_nothing_sounds_is_poison() -> None:
    assert recovered("rhythm q | q") == {"rhythm": ["q", "q"], "degrees": ["?", "?"]}
    assert recovered("marks h") == {"rhythm": ["?"], "degrees": ["?"], "marks": ["h"]}


def test_a_second_row_that_sounds_is_left_out() -> None:
    assert recovered("degrees 1", "frets 6:1") == {"degrees": ["1"]}


def test_a_mistyped_word_is_taken_for_the_nearest() -> None:
    assert recovered("rythm q", "Degree 1") == {"rhythm": ["q"], "degrees": ["1"]}


def test_nothing_more_is_said_of_a_system_with_a_line_that_is_not_understood() -> None:
    _, _, found = everything(riff("rhythm q", "qwfp 1 2"))
    assert [each.code.id for each in found] == [codes.UNKNOWN_WORD.id]


def test_a_bad_setting_is_left_out_and_a_second_one_too() -> None:
    study, _, _ = everything("meter 3:4\ntitle A\ntitle B\nkeys X\nscale C3\ntempo fast\n")
    assert study == {"study": 1, "title": "A", "blocks": []}
    study, _, _ = everything(run("layout 3", "path up", "marks (h", "rhythm e zz"))
    assert study["blocks"] == [{"kind": "run", "name": "A", "path": ["up"], "rhythm": "e ?"}]


def test_a_line_at_the_wrong_margin_is_read_all_the_same() -> None:
    study, _, found = everything('  riff "A"\nrhythm q\ndegrees 1\n')
    assert study["blocks"] == [{"kind": "riff", "name": "A", "systems": [{"rhythm": ["q"], "degrees": ["1"]}]}]
    assert len(found) == 2


def test_a_setting_of_the_header_in_a_block_is_read_as_the_headers() -> None:
    study, _, _ = everything(run("path up") + "instrument ukulele\n")
    assert study["instrument"] == "ukulele"


def test_a_name_is_read_without_its_quotes() -> None:
    assert [everything(f"run {name}\n")[0]["blocks"][0]["name"] for name in ("Bay", '"Bay', "“Bay”", '"Bay" x')] == ["Bay"] * 4


@pytest.mark.parametrize("unseen", ["\x00", "\x07", "\x85", "\u2028", "\ud800", "\ufeff", "\uffff"])
def test_characters_that_cannot_be_seen_are_spaces(unseen: str) -> None:
    study, _, found = everything(f'title a{unseen}b\nriff "A{unseen}"\n  degrees 1{unseen}2\n')
    assert not found
    assert study == {"study": 1, "title": "a b", "blocks": [{"kind": "riff", "name": "A ", "systems": [{"degrees": ["1 2"]}]}]}
