"""The checks against naive statements of their rules, on small riffs that are made at random.

A rule here is stated on the cells as they were written, one string and one fret each, and knows nothing of the score: it is a second
telling of the same fact of playing technique (common practice, no source), not of the code.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tabforge.pipeline import study_from
from tests.check.studies import riff
from tests.strategies import studies

LAST = 24
"""Frets of the instrument that a study is for if it names none."""


@dataclass(frozen=True)
class Cell:
    """One note: its string, its fret (None for a dead note), its mark."""

    string: int
    fret: int | None
    mark: str


MARKS = (
    *(".", ".", "h", "p", "sl", "ss", "b1", "pb1/2", "b1r", "v", "wv"),
    *("in/", "out\\", "t", "lt", "tr2", "th12", "ah12", "gh", "ph", "ac"),
)
CELLS = st.builds(
    Cell,
    string=st.sampled_from((3, 3, 3, 2)),
    fret=st.one_of(st.none(), *[st.integers(0, 5)] * 5, st.integers(10, 24)),
    mark=st.sampled_from(MARKS),
)
LINES = st.lists(CELLS, min_size=2, max_size=8)


def leads(mark: str) -> bool:
    return mark in ("h", "p", "sl", "ss")


def sensible(line: list[Cell]) -> bool:
    """Whether every mark that leads has a note on its own string to lead to: what compiling sees to."""
    if leads(line[-1].mark):
        return False
    return all(here.string == after.string for here, after in pairwise(line) if leads(here.mark))


def expected(line: list[Cell]) -> set[tuple[int, str]]:
    """Column and code of everything wrong with a line."""
    found = set()
    for column, cell in enumerate(line):
        fret, mark = cell.fret, cell.mark
        following = line[column + 1].fret if column + 1 < len(line) else None
        if fret is None:
            if mark[:1] == "b" or mark[:2] in ("pb", "tr", "th", "ah") or mark in ("v", "wv", "ph"):
                found.add((column, "M360"))
            if mark == "gh":
                found.add((column, "A516"))
            continue
        if fret == 0:
            for code, marks in (("M350", "b1 pb1/2 b1r"), ("A510", "v wv"), ("M355", "in/ out\\"), ("M356", "t lt")):
                if mark in marks.split():
                    found.add((column, code))
        if mark == "tr2" and fret > LAST - 2:
            found.add((column, "M357"))
        if mark == "th12" and fret > LAST - 12:
            found.add((column, "M357"))
        if mark == "ah12" and fret > LAST - 12:
            found.add((column, "A512"))
        if following is None:
            continue
        if mark == "h" and not following > fret:
            found.add((column, "M351"))
        if mark == "p" and fret == 0:
            found.add((column, "M353"))
        if mark == "p" and fret > 0 and not following < fret:
            found.add((column, "M352"))
        if mark in ("sl", "ss"):
            if following == fret:
                found.add((column, "M354"))
            elif 0 in (fret, following):
                found.add((column, "A511"))
    return found


def told(line: list[Cell]) -> set[tuple[int, str]]:
    """What the pipeline says of a line, by column."""
    value = "w e*8" if len(line) > 8 else "e"
    rests = 8 - len(line)
    sounds = [f"{cell.string}:{'x' if cell.fret is None else cell.fret}" for cell in line] + ["r"] * rests
    marks = [cell.mark for cell in line] + ["."] * rests
    text = riff(f"rhythm {value}*8; frets {' '.join(sounds)}; marks {' '.join(marks)}")
    outcome = study_from("lathe.riff", text.encode())
    start = text.index("marks") + len("marks ")
    columns = {}
    for column, mark in enumerate(marks):
        columns[start] = column
        start += len(mark) + 1
    return {(columns.get(found.span.start, -1), found.code.id) for found in outcome.diagnostics}


@settings(max_examples=300, deadline=None)
@given(LINES.filter(sensible))
def test_a_line_is_told_what_the_rules_say_and_no_more(line: list[Cell]) -> None:
    assert told(line) == expected(line)


GRIPS = st.lists(st.tuples(st.integers(0, 4), st.sampled_from("1234T0.")), min_size=2, max_size=4)


@settings(max_examples=200, deadline=None)
@given(GRIPS)
def test_a_grip_is_told_what_no_hand_does(grip: list[tuple[int, str]]) -> None:
    strings = range(5, 5 - len(grip), -1)
    frets = "+".join(f"{string}:{fret}" for string, (fret, _) in zip(strings, grip, strict=True))
    fingers = "+".join(finger if finger != "." else "0" for _, finger in grip)
    held = [(fret, int(finger)) for fret, finger in grip if finger in "1234" and fret]
    expect = set()
    if any(one < other and low > high for low, one in held for high, other in held):
        expect.add("A519")
    named = [(fret, finger) for fret, finger in grip if finger not in "0."]
    if any(one == other and low != high for low, one in named for high, other in named):
        expect.add("A502")
    one_finger = len(named) == len(grip) and len({finger for _, finger in named}) == 1
    if any(fret == 0 for fret, _ in named) and not one_finger:
        expect.add("A518")
    zeros = sum(finger in "0." for _, finger in grip)
    if zeros > sum(fret == 0 for fret, _ in grip):
        expect.add("M363")
    outcome = study_from("lathe.riff", riff(f"rhythm w; frets {frets}; fingers {fingers}").encode())
    found = {each.code.id for each in outcome.diagnostics} - {"N451"}
    if len(grip) == 1:
        found -= {"A502", "A519"}
    assert found == expect


LEVELS = ("pppp", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "ffff")


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(LEVELS), st.sampled_from("<>"), st.sampled_from(LEVELS))
def test_a_hairpin_is_judged_by_its_ends(begins: str, sign: str, ends: str) -> None:
    text = riff(f"rhythm q q q q; frets 3:5 7 5 4; dynamics {begins} {sign} - {ends}")
    louder, softer = LEVELS.index(ends) > LEVELS.index(begins), LEVELS.index(ends) < LEVELS.index(begins)
    wrong = softer if sign == "<" else louder
    assert [found.code.id for found in study_from("lathe.riff", text.encode()).diagnostics] == (["A523"] if wrong else [])


OF_THE_CHECKS = {f"M{number}" for number in range(350, 364)}
"""The errors of this room."""

SIGNS = (".", ".", "segno", "coda", "tocoda", "fine", "dc", "ds", "dcfine", "dsfine", "dccoda", "dscoda")
WAYS = st.lists(st.sampled_from(SIGNS), min_size=2, max_size=6)


@settings(max_examples=200, deadline=None)
@given(WAYS)
def test_a_way_through_the_piece_is_walked(way: list[str]) -> None:
    """Walks from every jump and looks for each sign on the way, which the check does by order alone."""
    missing: set[int] = set()
    unused: set[int] = set()
    for bar, sign in enumerate(way):
        before, after = way[: bar + 1], way[bar + 1 :]
        if sign.startswith("ds") and "segno" not in before:
            missing.add(bar)
        if sign.endswith("fine") and sign != "fine" and "fine" not in before:
            missing.add(bar)
        if sign.endswith("coda") and sign not in ("coda", "tocoda") and ("tocoda" not in before or "coda" not in after):
            missing.add(bar)
        if sign == "tocoda" and "coda" not in after:
            missing.add(bar)
        jumps = [other for other in way if other[:2] in ("dc", "ds")]
        if sign in ("tocoda", "fine") and not jumps:
            unused.add(bar)
        if sign == "segno" and not any(other.startswith("ds") for other in way):
            unused.add(bar)
        if sign == "coda" and not any(other in ("tocoda", "dccoda", "dscoda") for other in way):
            unused.add(bar)
    text = riff(f"signs {' | '.join(way)}; rhythm w; frets {' | '.join(['3:5'] * len(way))}")
    start, places = text.index("signs") + len("signs "), {}
    for bar, sign in enumerate(way):
        places[start] = bar
        start += len(sign) + 3
    found = study_from("lathe.riff", text.encode()).diagnostics
    assert {places[each.span.start] for each in found if each.code.id == "M362"} == missing
    assert {places[each.span.start] for each in found if each.code.id == "A524"} == unused
    assert {each.code.id for each in found} <= {"M362", "A524"}


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(studies())
def test_a_study_that_is_right_earns_no_error(study: dict[str, object]) -> None:
    import json

    outcome = study_from("lathe.json", json.dumps(study).encode())
    # Whether a run's layout and rhythm work out is decided before anything is looked over.
    assert [found.headline for found in outcome.diagnostics if found.code.id in OF_THE_CHECKS] == []
