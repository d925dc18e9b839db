"""The whole pipeline on studies that are broken every way: it tells what is wrong, and never stumbles."""

from __future__ import annotations

import json

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.cli.handbook import template, templates
from tabforge.diagnostics import only_errors
from tabforge.diagnostics.render_json import render as render_json
from tabforge.diagnostics.render_sarif import render as render_sarif
from tabforge.diagnostics.render_text import render
from tabforge.limits import MAX_DIAGNOSTICS
from tabforge.pipeline import Outcome, build, export, study_from, tidied
from tabforge.writers import WRITERS
from tests.cli.conftest import GOOD, ROOT
from tests.cli.test_build import JSON

SCHEMA = json.loads((ROOT / "schemas/report.schema.json").read_text())

STUDIES = [GOOD, JSON, *(template(kind, "Lantern Bay") for kind in templates())]

SCRAPS = [
    "", " ", "\n", "\n\n", "|", "||", ":|", "|:", "|[1", "%", "%*9", "*3", "(", ")", "3(", "+", "=", "r", "x", "@9", "b1", "-", ".", "q",
    "voice 2\n", '"', "//", "99", "-1", "{", "}", "[", "]", ",", "\t", "\u0301", "東", "\x00", "\ud800", "999999999999", "é",
]


@st.composite
def broken(draw: st.DrawFn) -> str:
    """A sound study with a few pieces replaced by scraps."""
    text = draw(st.sampled_from(STUDIES))
    for _ in range(draw(st.integers(1, 5))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.sampled_from([0, 0, 1, 2, 5, 30])))
        text = text[:start] + draw(st.sampled_from(SCRAPS)) + text[end:]
    return text


def _well_told(outcome: Outcome) -> None:
    assert outcome.failed is bool(only_errors(outcome.diagnostics) or outcome.score is None)
    assert not outcome.failed or only_errors(outcome.diagnostics), "a study that fails says why"
    assert len(outcome.diagnostics) <= MAX_DIAGNOSTICS
    size = len(outcome.source.text)
    for found in outcome.diagnostics:
        for span in (found.span, *(other.span for other in found.others)):
            assert 0 <= span.start <= span.end <= size
    shown = render(outcome.diagnostics, outcome.source, unshown=outcome.unshown)
    assert all(line.isprintable() for line in shown.split("\n"))
    checked = [(outcome.source, outcome.diagnostics, outcome.unshown)]
    jsonschema.validate(json.loads(render_json(checked, "1")), SCHEMA)
    json.loads(render_sarif(checked, "1"))


@settings(deadline=None)
@given(broken())
def test_a_broken_study_is_told_about_and_never_a_stumble(text: str) -> None:
    data = text.encode("utf-8", "surrogatepass")
    outcome = build("a", data, WRITERS).outcome
    _well_told(outcome)
    tidied("a", data)


@pytest.mark.long
@settings(max_examples=4_000, deadline=None)
@given(broken())
def test_many_broken_studies(text: str) -> None:
    _well_told(build("a", text.encode("utf-8", "surrogatepass"), WRITERS).outcome)


@settings(deadline=None)
@given(broken())
def test_tidying_keeps_what_a_study_is(text: str) -> None:
    data = text.encode("utf-8", "surrogatepass")
    laid_out, _ = tidied("a", data)
    if laid_out is None:
        return
    again, _ = tidied("a", laid_out.encode())
    assert again == laid_out
    if not study_from("a", data).failed:
        assert build("a", laid_out.encode(), WRITERS).files == build("a", data, WRITERS).files


@settings(deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    _well_told(build("a", data, WRITERS).outcome)


def test_one_mistake_does_not_hide_another_nor_make_one() -> None:
    text = (
        "titel x\nscale C3 lydain\n\n"
        'riff "one"\n  rhythm   q q q q\n  degrees  1 2 zz 4\n\n'
        'riff "two"\n  meter    3/\n  rhythm   q q q\n  degrees  1 2 3\n\n'
        'riff "three"\n  rhythm   q q q q q\n  degrees  1 2 3 4 5\n\n'
        'run "four"\n  layout   6 per strin\n'
    )
    outcome = study_from("a.riff", text.encode())
    lines = [outcome.source.position(each.span.start).line for each in outcome.diagnostics]
    assert lines == [1, 2, 6, 9, 14, 18]


def test_a_fault_in_one_block_of_a_document_leaves_the_others_to_be_looked_at() -> None:
    systems = ['{"rhythm": ["q q q k"], "degrees": ["1 2 3 4"]}', '{"rhythm": ["q q q"], "degrees": ["1 2 3"]}']
    blocks = ", ".join(f'{{"kind": "riff", "systems": [{system}]}}' for system in systems)
    outcome = study_from("a.json", f'{{"study": 1, "scale": {{"root": "C3", "name": "major"}}, "blocks": [{blocks}]}}'.encode())
    assert [each.code.id for each in outcome.diagnostics] == ["D225", "M302"]


def test_a_broken_header_leaves_its_blocks_alone() -> None:
    text = 'scael C3 major\n\nriff "one"\n  rhythm   q q q q\n  degrees  1 2 3 4\n'
    assert [each.code.id for each in study_from("a.riff", text.encode()).diagnostics] == ["T101"]


def test_only_so_many_findings_are_kept() -> None:
    rows = "".join(f'riff "{number}"\n  rhythm   q\n  frets    6:1\n' for number in range(MAX_DIAGNOSTICS + 50))
    outcome = study_from("a.riff", rows.encode())
    assert len(outcome.diagnostics) == MAX_DIAGNOSTICS
    assert "51 more findings are not shown" in render(outcome.diagnostics, outcome.source, unshown=outcome.unshown)
    wrong = "".join(f"wrong{number}\n" for number in range(MAX_DIAGNOSTICS + 50))
    outcome = study_from("a.riff", wrong.encode())
    assert len(outcome.diagnostics) == MAX_DIAGNOSTICS
    assert "51 more errors are not shown" in render(outcome.diagnostics, outcome.source, unshown=outcome.unshown)
    chords = "".join(f'riff "{number}"\n  rhythm   w\n  frets    5:3+4:5\n  fingers  1+1\n' for number in range(MAX_DIAGNOSTICS + 7))
    outcome = study_from("a.riff", chords.encode())
    assert not outcome.failed
    assert (len(outcome.diagnostics), outcome.unshown) == (MAX_DIAGNOSTICS, 7)


def test_alike_losses_are_told_once() -> None:
    text = 'riff "a"\n  rhythm   q q q q\n  frets    6:1 2 3 4\n  marks    tr5 tr5 tr5 tr6\n'
    outcome = study_from("a.riff", text.encode())
    assert outcome.score is not None
    _, lost = export(outcome.score, "musicxml")
    assert [each.help for each in lost] == ["the same in 2 more places", None]


_WIDE = " | ".join("{0}*999 " * 249 + f"{{0}}*{number + 1}" for number in range(3))

HOSTILE = {
    "bars repeated": 'riff "x"\n  rhythm   q*999\n  frets    6:1*999 ' + "| %*999 " * 300 + "\n",
    "long bars of rhythm": f'riff "x"\n  rhythm   {_WIDE.format("t")}\n  frets    6:1 | 1 | 1\n',
    "long bars of frets": f'riff "x"\n  rhythm   w\n  frets    {_WIDE.format("6:1")}\n',
    "long bars of marks": f'riff "x"\n  rhythm   w\n  frets    {" | ".join(["6:1"] * 3)}\n  marks    {_WIDE.format(".")}\n',
    "runs without end": "scale E2 chromatic\n"
    + ('run "a"\n  octaves 4\n  path ' + ", ".join(["up", "down"] * 32) + "\n  order " + "1 2 " * 16 + "\n  rhythm t\n") * 60,
    "keys": 'scale C3 major\nkeys fifths\nriff "x"\n  rhythm   t*32\n  degrees  1*32 ' + "| %*999 " * 2 + "\n",
}


SLOW = ("long bars of rhythm",)
"""It takes some ten seconds to be refused, which is soon enough for what nobody writes."""


@pytest.mark.parametrize("text", [pytest.param(text, id=name, marks=[pytest.mark.long] * (name in SLOW)) for name, text in HOSTILE.items()])
def test_what_would_be_too_much_is_refused_before_it_is_done(text: str) -> None:
    outcome = study_from("a.riff", text.encode())
    assert "M335" in {each.code.id for each in outcome.diagnostics}
    assert outcome.failed
