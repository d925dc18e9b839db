"""Settings about second parts and counting. What is right is read and printed; what is not is told where it is."""

from __future__ import annotations

from typing import Any

import pytest

from tabforge.diagnostics import Code
from tabforge.diagnostics.catalogue import text as codes
from tabforge.syntax.printvalues import printed
from tests.syntax.reading import document, everything, findings, riff, run, unmarked


@pytest.mark.parametrize(
    ("line", "value", "canonical"),
    [
        ("drone     1", {"degrees": ["1"]}, "1"),
        ("drone     1+5  held", {"degrees": ["1", "5"]}, "1+5"),
        ("drone     _5+1+^b3  every   h.+e", {"degrees": ["_5", "1", "^b3"], "every": "h.+e"}, "_5+1+^b3 every h.+e"),
        ("drone     off", "off", "off"),
        ("vamp      advised", {"chords": "advised"}, "advised"),
        ("vamp      advised every q", {"chords": "advised", "every": "q"}, "advised every q"),
        ("vamp      I*2  II I|vii I", {"chords": ["I*2 II I", "vii I"]}, "I*2 II I | vii I"),
        ("vamp      (Am7 D9)*2 | %*2 | C@x32010 . every e", {"chords": ["(Am7 D9)*2", "%", "%", "C@x32010 ."], "every": "e"},
         "(Am7 D9)*2 | % | % | C@x32010 . every e"),
        ("vamp      off", "off", "off"),
        ("backing   hide", "hide", "hide"),
        ("click     on", "on", "on"),
        ("count-in  2", 2, "2"),
        ("count-in  0", 0, "0"),
    ],
)  # fmt: skip
def test_read_and_printed(line: str, value: Any, canonical: str) -> None:
    word = line.split(maxsplit=1)[0]
    assert document(line)[word] == value
    assert printed(word, value) == canonical
    assert document(f"{word} {canonical}")[word] == value
    assert document(run(line))["blocks"][0][word] == value
    assert document(riff(line, "degrees 1"))["blocks"][0][word] == value
    assert document(f'chords "A"\n  {line}\n  progression I\n')["blocks"][0][word] == value


@pytest.mark.parametrize(
    ("code", "text", "suggestion"),
    [
        (codes.BAD_VALUE, "drone ⟦E2⟧\n", None),
        (codes.BAD_VALUE, "drone 1+⟦h⟧\n", None),
        (codes.BAD_VALUE, "drone ⟦1+⟧\n", None),
        (codes.BAD_VALUE, "drone 1+5+⟦1⟧\n", None),
        (codes.LIMIT, "drone ⟦1+2+3+4+5⟧\n", None),
        (codes.BAD_VALUE, "drone 1 ⟦evry⟧ h\n", "every"),
        (codes.BAD_VALUE, "drone 1 every ⟦8⟧\n", "e"),
        (codes.BAD_VALUE, "drone ⟦1 every⟧\n", None),
        (codes.BAD_VALUE, "drone 1 every h ⟦q⟧\n", None),
        (codes.BAD_VALUE, "drone 1 held ⟦q⟧\n", None),
        (codes.NO_VALUE, "⟦vamp⟧\n", None),
        (codes.BAD_VALUE, "vamp ⟦every q⟧\n", None),
        (codes.BAD_VALUE, "vamp advised ⟦I⟧\n", None),
        (codes.BAD_VALUE, "vamp I | V every ⟦quarter⟧\n", "q"),
        (codes.BAD_VALUE, "vamp I ⟦||⟧ V\n", None),
        (codes.BAD_VALUE, "vamp ⟦|:⟧ I | V :|\n", None),
        (codes.BAD_VALUE, "backing ⟦shown⟧\n", "show"),
        (codes.BAD_VALUE, "click ⟦On⟧\n", "on"),
        (codes.BAD_VALUE, "click ⟦yes⟧\n", "on"),
        (codes.BAD_VALUE, "count-in ⟦9⟧\n", None),
        (codes.BAD_VALUE, "count-in ⟦2 bars⟧\n", "2"),
        (codes.UNKNOWN_WORD, "⟦metronome⟧ on\n", "click"),
        (codes.UNKNOWN_WORD, "⟦countin⟧ 1\n", "count-in"),
        (codes.TWICE, "drone 1\n⟦drone⟧ off\n", None),
    ],
)
def test_mistakes(code: Code, text: str, suggestion: str | None) -> None:
    plain, (span,) = unmarked(text)
    (found,) = findings(plain)
    assert (found.code, plain[slice(*found.span)], found.suggestion) == (code, plain[slice(*span)], suggestion)


def test_the_chords_of_a_vamp_have_places() -> None:
    text = "vamp  I II |  (vii  I)*2 every q\n"
    study, origins, _ = everything(text)
    assert study["vamp"]["chords"] == ["I II", "(vii I)*2"]
    at = ("vamp", "chords", 1)
    assert text[slice(*origins.span(at))] == "(vii  I)*2"
    assert [text[start] for start in origins.starts(at)] == ["(", "v", "I", ")"]
