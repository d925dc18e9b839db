"""Settings about the neck and the hands: fretting, capo, hand. What is right is read and printed; what is not is told where it is."""

from __future__ import annotations

from typing import Any

import pytest

from tabforge.diagnostics import Code
from tabforge.diagnostics.catalogue import text as codes
from tabforge.syntax.printvalues import printed
from tests.syntax.reading import document, findings, riff, run, unmarked


@pytest.mark.parametrize(
    ("line", "value"),
    [
        ("fretting  diatonic", "diatonic"),
        ("fretting  diatonic+", "diatonic+"),
        ("fretting  chromatic", "chromatic"),
        ("fretting  2 4 5 7 9 10 12 14 16 17 19 21 22 24", [2, 4, 5, 7, 9, 10, 12, 14, 16, 17, 19, 21, 22, 24]),
        ("fretting  60", [60]),
        ("capo  2 on 5 4 3", {"fret": 2, "strings": [5, 4, 3]}),
        ("capo  12  on  12", {"fret": 12, "strings": [12]}),
        ("hand  left", "left"),
        ("hand  right", "right"),
    ],
)
def test_read_and_printed(line: str, value: Any) -> None:
    word, _, text = line.partition("  ")
    assert document(line)[word] == value
    assert document(f"{word} {printed(word, value)}")[word] == value
    assert printed(word, value) == " ".join(text.split())
    if word != "hand":
        assert document(run(line))["blocks"][0][word] == value
        assert document(riff(line, "degrees 1"))["blocks"][0][word] == value


@pytest.mark.parametrize(
    ("code", "text", "suggestion"),
    [
        (codes.BAD_VALUE, "fretting ⟦diatonik⟧\n", "diatonic"),
        (codes.BAD_VALUE, "fretting ⟦Diatonic⟧\n", "diatonic"),
        (codes.BAD_VALUE, "fretting 2 ⟦4,⟧ 5\n", "4"),
        (codes.BAD_VALUE, "fretting 2 4 ⟦x⟧\n", None),
        (codes.BAD_VALUE, "fretting ⟦0⟧ 2 4\n", None),
        (codes.BAD_VALUE, "fretting 2 ⟦61⟧\n", None),
        (codes.BAD_VALUE, "fretting 2 ⟦6.555⟧\n", None),
        (codes.LIMIT, "fretting ⟦" + " ".join(map(str, range(1, 38))) + "⟧\n", None),
        (codes.BAD_VALUE, "capo ⟦2 on⟧\n", None),
        (codes.BAD_VALUE, "capo ⟦2 5 4⟧\n", "2 on 5 4"),
        (codes.BAD_VALUE, "capo ⟦0 on 5⟧\n", "0"),
        (codes.BAD_VALUE, "capo ⟦13 on 5⟧\n", None),
        (codes.BAD_VALUE, "capo 2 on ⟦5,⟧ 4\n", "5"),
        (codes.BAD_VALUE, "capo 2 on 5 ⟦13⟧\n", None),
        (codes.BAD_VALUE, "capo 2 on 5 ⟦0⟧\n", None),
        (codes.BAD_VALUE, "capo 2 on 5 4 ⟦5⟧\n", None),
        (codes.BAD_VALUE, "hand ⟦Left-handed⟧\n", "left"),
        (codes.BAD_VALUE, "hand ⟦both⟧\n", None),
        (codes.WRONG_PLACE, riff("⟦hand⟧ left", "degrees 1"), None),
        (codes.UNKNOWN_WORD, "⟦frettings⟧ diatonic\n", "fretting"),
        (codes.UNKNOWN_WORD, "⟦lefty⟧ left\n", "hand"),
        (codes.TWICE, "capo 2\n⟦capo⟧ 2 on 5\n", None),
    ],
)
def test_mistakes(code: Code, text: str, suggestion: str | None) -> None:
    plain, (span,) = unmarked(text)
    (found,) = findings(plain)
    assert (found.code, plain[slice(*found.span)], found.suggestion) == (code, plain[slice(*span)], suggestion)
