"""Hypothesis strategies of documents that a text can express, whatever they would sound like.

They reach every setting, every kind of cell, groups and tuplets within one another, all bar lines, second voices and comments.
"""

from __future__ import annotations

import re
from typing import Any

from hypothesis import strategies as st

from tabforge.diagnostics.catalogue import CODES
from tabforge.fretboard.frettings import FRETTINGS, HIGHEST
from tabforge.fretboard.players import PLAYERS
from tabforge.syntax.grammar import (
    BAR_LINE_TEXT,
    DEGREE_TEXT,
    DURATION_TEXT,
    INVERSIONS,
    METER_TEXT,
    OWN_DEGREE_TEXT,
    ROOT_TEXT,
    ROWS,
    STEPS,
    UNSEEN_TEXT,
    VOICINGS,
)
from tabforge.syntax.lines import comment_start
from tests.strategies import Document

_UNSEEN = re.compile(f"[{UNSEEN_TEXT}]")
_ANY = st.characters(codec="utf-8").filter(lambda char: not _UNSEEN.match(char) and char not in "\r\n")
_COMMON = st.sampled_from('abc XYZ019 "/:*()#|+.-  äÉ中')
_TEXT = st.text(st.one_of(_COMMON, _COMMON, _COMMON, _ANY), max_size=20)


def _is_line(text: str) -> bool:
    return text == text.strip() and comment_start(" " + text, 0, len(text) + 1) < 0


LINES = _TEXT.map(str.strip).filter(_is_line)
"""Words to the end of a line."""

FULL_LINES = LINES.filter(bool)
PHRASES = FULL_LINES.map(lambda text: " ".join(text.split())).filter(_is_line)
NAMES = _TEXT.map(lambda text: text.replace('"', ""))
"""What may stand in quotes."""

COMMENTS = _TEXT.map(lambda text: text.replace('"', "").rstrip())


def _matching(pattern: str) -> st.SearchStrategy[str]:
    return st.from_regex(re.compile(pattern, re.ASCII), fullmatch=True)


DEGREES = _matching(DEGREE_TEXT)
ROOTS = _matching(ROOT_TEXT)
PITCHES = _matching(r"[A-G](?:##|#|bb|b)?-?[0-9]")


def _is_tuning(text: str) -> bool:
    words = text.split()
    return not any(re.fullmatch(r"[A-G](?:##|#|bb|b)?(?:-?[0-9])?", word) for word in words)


@st.composite
def scales(draw: st.DrawFn) -> Document:
    scale: Document = {"root": draw(ROOTS)}
    kind = draw(st.integers(0, 3))
    if kind == 0:
        own = ("steps", "semitones", "degrees")
        scale["name"] = draw(PHRASES.filter(lambda text: '"' not in text and not set(text.split()) & set(own)))
        return scale
    if draw(st.booleans()):
        scale["name"] = draw(NAMES.filter(bool))
    if kind == 1:
        scale["steps"] = draw(st.lists(st.sampled_from(STEPS), min_size=1, max_size=12))
    elif kind == 2:
        scale["semitones"] = draw(st.lists(st.integers(0, 11), min_size=1, max_size=12, unique=True))
    else:
        scale["degrees"] = draw(st.lists(_matching(OWN_DEGREE_TEXT), min_size=1, max_size=12))
    return scale


_BPM = st.one_of(st.integers(10, 500), st.integers(1000, 50000).map(lambda number: number / 100))
TEMPOS = st.fixed_dictionaries({"bpm": _BPM}, optional={"beat": _matching(r"[whqest]\.{0,2}"), "words": NAMES})
SWINGS = st.one_of(
    st.just("off"),
    st.fixed_dictionaries({"value": st.sampled_from("es")}, optional={"ratio": st.lists(st.integers(1, 9), min_size=2, max_size=2)}),
)
DURATIONS = _matching(DURATION_TEXT).filter(lambda text: len(text) <= 60)
METERS = _matching(METER_TEXT)
_STRING, _FRET = st.integers(1, 12), st.integers(0, 36)
_COUNT = {"count": st.integers(1, 12)}
LAYOUTS = st.one_of(
    st.sampled_from(({"kind": "open"}, {"kind": "free"})),
    st.builds(lambda fret: {"kind": "position", "fret": fret}, _FRET),
    st.builds(lambda string: {"kind": "string", "string": string}, _STRING),
    st.fixed_dictionaries({"kind": st.just("shape"), "shape": st.sampled_from("CAGED")}, optional={"fret": _FRET}),
    *(
        st.fixed_dictionaries({"kind": st.just(kind), **count, "from": _STRING}, optional={"to": _STRING, **more})
        for kind, count in (("per string", _COUNT), ("fragment", _COUNT), ("diagonal", {}))
        for more in ({"fret": _FRET}, {"degree": DEGREES})
    ),
)

_SHARED: dict[str, st.SearchStrategy[Any]] = {
    "text": st.lists(LINES, min_size=1, max_size=3),
    "tuning": st.one_of(PHRASES.filter(_is_tuning), st.lists(PITCHES, min_size=3, max_size=12)),
    "fretting": st.one_of(st.sampled_from(sorted(FRETTINGS)), st.lists(st.integers(1, HIGHEST), min_size=1, max_size=36)),
    "capo": st.one_of(
        st.integers(0, 12),
        st.fixed_dictionaries({"fret": st.integers(1, 12), "strings": st.lists(st.integers(1, 12), min_size=1, max_size=12, unique=True)}),
    ),
    "scale": scales(),
    "meter": METERS,
    "tempo": TEMPOS,
    "pickup": DURATIONS,
    "player": st.sampled_from(sorted(PLAYERS)),
    "fingering": st.sampled_from(("show", "hide")),
    "strokes": st.sampled_from(("alternate", "economy", "legato", "written")),
    "swing": SWINGS,
    "allow": st.lists(st.sampled_from(sorted(CODES)), min_size=1, max_size=5),
}
_HEADER: dict[str, st.SearchStrategy[Any]] = {
    "title": FULL_LINES,
    "subtitle": FULL_LINES,
    "author": FULL_LINES,
    "instrument": PHRASES,
    "hand": st.sampled_from(("right", "left")),
    "keys": st.one_of(st.sampled_from(("fifths", "fourths", "chromatic")), st.lists(ROOTS, min_size=1, max_size=12)),
    **_SHARED,
}

_CELLS: dict[str, st.SearchStrategy[str]] = {
    word: _matching(row.cell) for word, row in ROWS.items() if word not in ("chords", "progression", "words", "tempo")
}
for _word in ("signs", "key"):
    _CELLS[_word] = _CELLS[_word].filter(lambda cell: len(cell) <= 60)
_CELLS["tempo"] = st.one_of(st.just("."), _matching(r"(?:[whqest]\.{0,2}=)?(?:[1-9][0-9]|[1-4][0-9][0-9])(?:\.[0-9]{1,2})?"))
_CELLS["chords"] = st.one_of(st.sampled_from((".", "Am7", "C/E", "N.C.")), _TEXT.map(lambda text: re.sub(r'[\s|"()*%]', "", text))).filter(
    lambda cell: cell != "" and not cell.startswith("//")
)
_CELLS["progression"] = st.one_of(st.sampled_from((".", "ii7", "bVI/3", "C@x32010", "N.C.")), _CELLS["chords"])
_CELLS["words"] = st.one_of(
    st.sampled_from((".", "lan-", "%", "(2)*3")), _TEXT.map(lambda text: re.sub(r'[\s|"]', "", text)), NAMES.map(lambda text: f'"{text}"')
).filter(lambda cell: cell != "" and not cell.startswith("//"))
_COUNTS = st.one_of(st.just(""), st.just(""), st.integers(1, 999).map(lambda count: f"*{count}"))


@st.composite
def bars(draw: st.DrawFn, word: str, depth: int = 0) -> str:
    """A bar of a row that is not empty."""
    row = ROWS[word]
    if row.per_bar:
        return draw(_CELLS[word])
    if row.plain:
        return " ".join(draw(st.lists(_CELLS[word], min_size=1, max_size=5)))
    if not depth and draw(st.integers(0, 7)) == 0:
        return "%"
    parts = []
    for _ in range(draw(st.integers(1, 4))):
        if depth < 3 and draw(st.integers(0, 5)) == 0:
            ratio = draw(st.sampled_from(("", "3", "5:4", "32:31", "2"))) if word == "rhythm" else ""
            parts.append(f"{ratio}({draw(bars(word, depth + 1))}){draw(_COUNTS)}")
        else:
            parts.append(draw(_CELLS[word]) + draw(_COUNTS))
    return " ".join(parts)


@st.composite
def voices(draw: st.DrawFn, count: int, second: bool, first_system: bool) -> Document:
    """The rows of one voice in a number of bars."""
    voice: Document = {draw(st.sampled_from(("degrees", "frets", "notes"))): [draw(bars("degrees")) for _ in range(count)]}
    (kind,) = voice
    voice[kind] = [draw(bars(kind)) for _ in range(count)]
    if draw(st.booleans()):
        voice["rhythm"] = [draw(bars("rhythm")) for _ in range(draw(st.integers(1, count)))]
    for word, row in ROWS.items():
        if "riff" not in row.where or row.sounds or word == "rhythm" or (second and not row.voice2) or draw(st.integers(0, 2)):
            continue
        size = draw(st.integers(1 if row.per_bar and first_system else 0, count))
        blank = st.just(".") if row.per_bar else st.just("")
        voice[word] = [draw(st.one_of(bars(word), blank)) for _ in range(size)]
    return voice


@st.composite
def systems(draw: st.DrawFn, first: bool) -> Document:
    """A system."""
    count = draw(st.integers(1, 4))
    system: Document = draw(voices(count, False, first))
    signs = _matching(BAR_LINE_TEXT).filter(lambda sign: sign != "|")
    if draw(st.booleans()):
        system["barlines"] = {str(at): draw(signs) for at in draw(st.lists(st.integers(0, count), min_size=1, max_size=3, unique=True))}
    if draw(st.integers(0, 3)) == 0:
        system["voice2"] = draw(voices(count, True, False))
    return system


@st.composite
def chord_systems(draw: st.DrawFn, first: bool) -> Document:
    """A system of a chord block."""
    count = draw(st.integers(1, 4))
    system: Document = {"progression": [draw(bars("progression")) for _ in range(count)]}
    pattern = draw(st.sampled_from(("strum", "picking", "")))
    for word, row in ROWS.items():
        if "chords" not in row.where or row.sounds or word in {"strum", "picking"} - {pattern} or draw(st.booleans()):
            continue
        size = draw(st.integers(1 if first or row.pattern else 0, count))
        blank = st.just(".") if row.per_bar else bars(word)
        system[word] = [draw(st.one_of(bars(word), blank)) for _ in range(size)]
    if draw(st.booleans()):
        signs = _matching(BAR_LINE_TEXT).filter(lambda sign: sign != "|")
        system["barlines"] = {str(at): draw(signs) for at in draw(st.lists(st.integers(0, count), min_size=1, max_size=3, unique=True))}
    return system


_VOICINGS = st.fixed_dictionaries(
    {"kind": st.sampled_from(VOICINGS)},
    optional={
        "strings": st.lists(st.integers(1, 12), min_size=1, max_size=12, unique=True),
        "inversion": st.integers(0, len(INVERSIONS) - 1),
    },
)
_CHORDS: dict[str, st.SearchStrategy[Any]] = {"voicing": _VOICINGS, "diagrams": st.sampled_from(("show", "hide"))}
_RUN: dict[str, st.SearchStrategy[Any]] = {
    "layout": LAYOUTS,
    "path": st.lists(st.sampled_from(("up", "down")), min_size=1, max_size=6),
    "order": st.lists(st.integers(1, 30), min_size=1, max_size=6),
    "tones": st.lists(DEGREES, min_size=1, max_size=6),
    "from": DEGREES,
    **{word: bars(word, depth=1) for word in ("rhythm", "marks", "fingers", "picks")},
    "finish": st.sampled_from(("hold", "rest")),
}


def _played(required: str, what: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.one_of(st.just("off"), st.fixed_dictionaries({required: what}, optional={"every": DURATIONS}))


_PLAIN_CHORDS = bars("progression").filter(lambda bar: not {"advised", "off", "every"} & set(re.split(r"[\s()*]", bar)))
_SHARED.update({
    "drone": _played("degrees", st.lists(DEGREES, min_size=1, max_size=4, unique=True)),
    "vamp": _played("chords", st.one_of(st.just("advised"), st.lists(_PLAIN_CHORDS, min_size=1, max_size=4))),
    "backing": st.sampled_from(("show", "hide")),
    "click": st.sampled_from(("on", "off")),
    "count-in": st.integers(0, 8),
})
_HEADER.update(_SHARED)


@st.composite
def blocks(draw: st.DrawFn) -> Document:
    """A block of any kind."""
    block: Document = {"kind": draw(st.sampled_from(("riff", "riff", "run", "chords", "text")))}
    if draw(st.integers(0, 3)):
        block["name"] = draw(NAMES)
    if block["kind"] == "text":
        lines = draw(st.lists(LINES, max_size=5))
        while lines and not lines[-1]:
            lines.pop()
        block["lines"] = lines[next((index for index, line in enumerate(lines) if line), 0) :]
        return block
    block.update(draw(st.fixed_dictionaries({}, optional=_SHARED)))
    if block["kind"] == "run":
        ends: dict[str, st.SearchStrategy[Any]] = draw(st.sampled_from(({"to": DEGREES}, {"octaves": st.integers(1, 8)})))
        block.update(draw(st.fixed_dictionaries({}, optional={**_RUN, **ends})))
    elif block["kind"] == "chords":
        block.pop("strokes", None)  # its rows of strokes say it all
        block.update(draw(st.fixed_dictionaries({}, optional=_CHORDS)))
        block["systems"] = [draw(chord_systems(index == 0)) for index in range(draw(st.integers(1, 3)))]
    else:
        block["systems"] = [draw(systems(index == 0)) for index in range(draw(st.integers(1, 3)))]
    return block


def anchors(study: Document) -> list[tuple[str, str]]:
    """The places that comments may have, as a text gives them: pointer and side."""
    found = [("", "end")]

    def settings(part: Document, at: str) -> None:
        for word in _HEADER | _RUN | _CHORDS | {"to": None, "octaves": None}:
            if word in part and word != "text":
                found.extend(((f"{at}/{word}", "before"), (f"{at}/{word}", "beside")))
        for index in range(len(part.get("text", ()))):
            found.extend(((f"{at}/text/{index}", "before"), (f"{at}/text/{index}", "beside")))

    settings(study, "")
    for number, block in enumerate(study["blocks"]):
        at = f"/blocks/{number}"
        found.extend(((at, "before"), (at, "beside"), (at, "end")))
        settings(block, at)
        lines = [f"{at}/lines/{index}" for index, line in enumerate(block.get("lines", ())) if line]
        found.extend((line, side) for line in lines for side in ("before", "beside"))
        for index, system in enumerate(block.get("systems", ())):
            here = f"{at}/systems/{index}"
            found.append((here, "before"))
            if index < len(block["systems"]) - 1:
                found.append((here, "end"))
            rows = [word for word in ROWS if word in system]
            found.extend((f"{here}/{word}", "before") for word in rows[1:])
            found.extend((f"{here}/{word}", "beside") for word in rows)
            if "voice2" in system:
                found.extend(((f"{here}/voice2", "before"), (f"{here}/voice2", "beside")))
                found.extend((f"{here}/voice2/{word}", side) for word in system["voice2"] for side in ("before", "beside"))
    return found


def sorted_comments(study: Document) -> Document:
    """The study with its comments in one order: a text has them in its own."""
    if "comments" not in study:
        return study
    return {**study, "comments": sorted(study["comments"], key=lambda each: (each["at"], each["place"]))}


@st.composite
def documents(draw: st.DrawFn) -> Document:
    """A study that a text can express."""
    study: Document = {"study": 1, **draw(st.fixed_dictionaries({}, optional=_HEADER)), "blocks": draw(st.lists(blocks(), max_size=3))}
    if draw(st.booleans()):
        places = draw(st.lists(st.sampled_from(anchors(study)), min_size=1, max_size=6))
        seen: set[tuple[str, str]] = set()
        comments = []
        for at, place in places:
            if place == "beside" and (at, place) in seen:
                continue
            seen.add((at, place))
            comments.append({"at": at, "place": place, "text": draw(COMMENTS)})
        study["comments"] = comments
    return study
