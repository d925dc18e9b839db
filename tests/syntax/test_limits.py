"""Limits: each is stated in its error, and what goes beyond takes neither memory nor time."""

from __future__ import annotations

import tracemalloc

import pytest

from tabforge.diagnostics.catalogue import text as codes
from tabforge.limits import MAX_DIAGNOSTICS, MAX_LINES, MAX_SOURCE_BYTES
from tests.syntax.reading import everything, riff, run
from tests.syntax.test_round_trip import validator

BEYOND = [
    ("8 MiB", "x" * (MAX_SOURCE_BYTES + 1)),
    ("8 MiB", "é" * (MAX_SOURCE_BYTES // 2 + 1)),
    ("250,000 lines", "\n" * (MAX_LINES + 1)),
    ("250,000 lines", "\r" * (MAX_LINES + 1)),
    ("2,000 characters", "title " + "x" * 2001),
    ("60 characters", "instrument " + "x" * 61),
    ("60 characters", "pickup " + "+".join("q" * 31)),
    ("200 characters", f'riff "{"x" * 201}"\n  degrees 1\n'),
    ("10,000 characters", "title x // " + "x" * 10_001),
    ("100,000 comments", "//\n" * 100_001),
    ("5,000 blocks", "run\n" * 5001),
    ("5,000 lines", "text x\n" * 5001),
    ("5,000 lines", 'text "A"\n' + "  x\n" * 5001),
    ("60 further keys", "keys" + " F" * 61),
    ("64 steps", run("order" + " 1" * 65)),
    ("24 degrees", run("tones" + " 1" * 25)),
    ("20,000 characters", riff("degrees" + " 1" * 10_001)),
    ("100,000 bars", riff("degrees 1" + " | %*999" * 101)),
    ("20,000 systems", 'riff "A"\n' + "  degrees 1\n" * 20_001),
    ("1,000,000 bars", "".join(riff("degrees 1" + " | %*999" * 100) for _ in range(11))),
    ("60 characters", riff("signs " + "+".join(["segno"] * 11), "degrees 1")),
    ("100,000 bar lines", "".join(riff("degrees" + " 1 :|" * 10_000) for _ in range(11))),
    ("limit of 999", riff("degrees 1*1000")),
    ("3 deep", riff("rhythm 3(3(3(3(e))))", "degrees 1")),
]


@pytest.mark.parametrize(("stated", "text"), BEYOND, ids=[f"{index}-{stated}" for index, (stated, _) in enumerate(BEYOND)])
def test_a_limit_is_stated_once(stated: str, text: str) -> None:
    _, _, found = everything(text)
    assert [each.headline for each in found if stated in each.headline] == [found[0].headline]
    assert len(found) == 1


def test_the_largest_that_is_allowed_is_read() -> None:
    text = "title " + "x" * 2000 + "\n" + riff("degrees" + " 1" * 10_000 + " | 1" + " | %*999" * 100) + "run\n" * 4999
    study, _, found = everything(text)
    assert not found
    validator().validate(study)


def test_beyond_the_most_findings_they_are_counted() -> None:
    for wrong, shown, more in ((200, 200, None), (201, 200, "2 more errors"), (70_000, 200, "69,801 more errors")):
        _, _, found = everything(riff("degrees" + " zz | 1" * wrong))
        assert len(found) == shown == MAX_DIAGNOSTICS
        assert found[0].code is codes.BAD_CELL
        assert (found[-1].code is codes.LIMIT and found[-1].headline.startswith(more)) if more else found[-1].code is codes.BAD_CELL


SIZE = 60_000
HOSTILE = {
    "spaces": " " * SIZE,
    "one word": "x" * SIZE,
    "a long title": "title " + "x" * SIZE,
    "bad cells": riff("degrees " + "zz " * (SIZE // 3)),
    "one cell": riff("degrees " + "z" * SIZE),
    "joined cells": riff("degrees " + "1+" * (SIZE // 2)),
    "good cells": riff("degrees " + "1 " * (SIZE // 2)),
    "poison repeated": riff("degrees " + "zz*999 " * (SIZE // 7)),
    "opened": riff("degrees " + "(" * SIZE),
    "closed": riff("degrees " + ")" * SIZE),
    "opened and closed": riff("degrees " + "(" * (SIZE // 2) + "1" + ")" * (SIZE // 2)),
    "empty groups": riff("degrees " + "()" * (SIZE // 2)),
    "tuplets": riff("rhythm " + "3(" * (SIZE // 3) + "e" + ")" * (SIZE // 3)),
    "groups over bars": riff("degrees " + "(1 | 2) " * (SIZE // 8)),
    "bar lines": riff("degrees " + "|" * SIZE),
    "bars": riff("degrees " + "| " * (SIZE // 2)),
    "empty bars": riff("degrees 1", "marks " + "| " * (SIZE // 2)),
    "colons": riff("degrees " + ":" * SIZE),
    "colons and lines": riff("degrees " + ":| " * (SIZE // 3)),
    "quotes": riff("degrees 1", "words " + '"' * (SIZE + 1)),
    "quotes and slashes": "title " + '"// ' * (SIZE // 4),
    "slashes": "title " + "/" * SIZE,
    "repeated bars": riff("degrees 1 | " + "%*999 | " * (SIZE // 8)),
    "bad bars again": "".join(riff("degrees zz | " + "%*999 | " * 90) for _ in range(500)),
    "systems": 'riff "A"\n' + "  marks h\n\n" * (SIZE // 12),
    "unknown lines": 'riff "A"\n' + "  zz\n" * (SIZE // 5),
    "unknown words": "qwfpg " * (SIZE // 6),
    "twice": "title x\n" * (SIZE // 8),
    "blocks": 'riff "\n' * (SIZE // 7),
    "comments": riff("degrees 1 // x") * (SIZE // 40),
    "null bytes": "\x00" * SIZE,
    "surrogates": "\ud800" * SIZE,
    "numbers": "capo " + "9" * SIZE + "\nmeter " + "1+" * (SIZE // 2) + "\ntempo " + "9" * SIZE + "\n",
    "scales": "scale C3 " + "x " * (SIZE // 2) + "\n",
    "steps": "scale C3 steps " + "x " * (SIZE // 2) + "\n",
    "keys": "keys " + "x " * (SIZE // 2) + "\n",
    "layouts": run("layout 3 per string from string 6 " + "fret 5 " * (SIZE // 7)),
    "accidentals": riff("degrees " + "b" * SIZE),
    "marks": riff("degrees 1", "marks " + "h+" * (SIZE // 2)),
    "a chord": riff("degrees 1", "chords " + "C" * SIZE),
}


@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_texts_take_memory_in_proportion(kind: str) -> None:
    """A hundred bytes a character at most; that the parser comes to an end at all is the other half of the test."""
    text = HOSTILE[kind]
    _, _, found = everything(text)
    assert len(found) <= MAX_DIAGNOSTICS
    tracemalloc.start()
    everything(text)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 100 * len(text) + 40_000_000
