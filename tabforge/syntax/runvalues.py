"""Reading the values of settings that only a run has: layout, path, order, tones, from, to, octaves and finish.

Each function returns the document's value, or None when it has reported what is wrong.
"""

from __future__ import annotations

import re
from typing import Final

from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import text as codes
from tabforge.fretboard.shapes import SHAPES
from tabforge.limits import MAX_FRET, MAX_STRINGS
from tabforge.syntax.document import LayoutSetting
from tabforge.syntax.field import Field, Part
from tabforge.syntax.grammar import DEGREE_TEXT
from tabforge.syntax.report import quoted
from tabforge.syntax.spelling import respelled_degree
from tabforge.syntax.values import whole

MAX_STEPS: Final = 64
"""Steps of an order, and directions of a path; see the document's schema."""

MAX_STEP: Final = 30
MAX_TONES: Final = 24
MAX_OCTAVES: Final = 8
MAX_COUNT: Final = 12

_DEGREE: Final = re.compile(DEGREE_TEXT)
LAYOUTS: Final = (
    *("3 per string from string 6", "diagonal from string 6", "fragment 3 per string from string 6"),
    *("position 5", "shape E", "string 4", "open", "free"),
)


def layout(field: Field) -> LayoutSetting | None:
    """A place on the neck."""
    parts = field.parts()
    words = [part.text for part in parts]
    if len(words) == 1 and words[0] in ("open", "free"):
        return {"kind": words[0]}
    if len(words) == 2 and words[0] == "position":
        fret = _number(field, parts[1], 0, MAX_FRET, "a fret")
        return None if fret is None else {"kind": "position", "fret": fret}
    if len(words) == 2 and words[0] == "string":
        string = _number(field, parts[1], 1, MAX_STRINGS, "a string")
        return None if string is None else {"kind": "string", "string": string}
    if words[:1] == ["shape"] and len(words) in (2, 4):
        return _shape(field, parts)
    for kind, beginning in _CLIMBING.items():
        number = beginning.index("#") if "#" in beginning else None
        if len(words) > len(beginning) and all(at == number or words[at] == word for at, word in enumerate(beginning)):
            count = None if number is None else _number(field, parts[number], 1, MAX_COUNT, "a number of notes on a string")
            rest = parts[len(beginning) :]
            if number is None:
                return _climbing(field, {"kind": kind}, rest)
            return None if count is None else _climbing(field, {"kind": kind, "count": count}, rest)
    field.unlike("a layout", suggestion=_near_layout(field.text))
    return None


_CLIMBING: Final = {
    "per string": ("#", "per", "string", "from", "string"),
    "diagonal": ("diagonal", "from", "string"),
    "fragment": ("fragment", "#", "per", "string", "from", "string"),
}
"""Layouts from string to string by their beginnings, ``#`` for the notes on each; the first string follows."""


def _shape(field: Field, parts: list[Part]) -> LayoutSetting | None:
    name = parts[1].text
    if name not in SHAPES:
        near = name.upper() if name.upper() in SHAPES else None
        field.unlike("a shape", parts[1], near, expected="one of the five shapes C, A, G, E and D")
        return None
    if len(parts) == 2:
        return {"kind": "shape", "shape": name}
    if parts[2].text != "fret":
        field.unlike("a further part of this layout", parts[2], "fret", help="after the shape may come: fret 5")
        return None
    fret = _number(field, parts[3], 0, MAX_FRET, "a fret")
    return None if fret is None else {"kind": "shape", "shape": name, "fret": fret}


def _climbing(field: Field, found: LayoutSetting, parts: list[Part]) -> LayoutSetting | None:
    start = _number(field, parts[0], 1, MAX_STRINGS, "a string")
    if start is None:
        return None
    found["from"] = start
    rest = parts[1:]
    while rest:
        word = rest[0].text
        if word == "to" and len(rest) >= 3 and rest[1].text == "string":
            key, number, rest = "to", _number(field, rest[2], 1, MAX_STRINGS, "a string"), rest[3:]
        elif word == "fret" and len(rest) >= 2:
            key, number, rest = "fret", _number(field, rest[1], 0, MAX_FRET, "a fret"), rest[2:]
        elif word == "degree" and len(rest) >= 2:
            key, number, part, rest = "degree", None, rest[1], rest[2:]
            if not _is_degree(field, part):
                return None
        else:
            field.unlike(
                "a further part of this layout",
                rest[0],
                nearest(word, ("to string 3", "fret 5", "degree 3")),
                help="after the first string may come: to string 3, and fret 5 or degree 3",
            )
            return None
        if key in found:
            field.refuse(f"this layout says {key} twice")
            return None
        if key == "degree":
            found["degree"] = part.text
        elif number is None:
            return None
        else:
            found[key] = number  # type: ignore[literal-required]  # one of the two
    if "fret" in found and "degree" in found:
        field.report.add(
            codes.AT_ODDS, field.span, "this layout begins both at a fret and on a degree", expected="fret 5, or degree 3, or neither"
        )
        return None
    return found


def _near_layout(text: str) -> str | None:
    words = text.casefold().replace("-", " ").replace("three", "3").replace("two", "2").replace("four", "4").split()
    named = [word.upper() for word in words if word.upper() in SHAPES]
    if len(named) == 1 and len(words) == 2 and nearest(words[words[0].upper() == named[0]], ("shape",)):
        return f"shape {named[0]}"
    numbers = [word.rstrip("nps") for word in words if word.rstrip("nps").isdecimal()]
    climbing = nearest(words[0], ("diagonal", "fragment")) if words else None
    if climbing and len(numbers) <= 2:
        string = numbers[-1] if len(numbers) == (1 if climbing == "diagonal" else 2) else "6"
        count = f" {numbers[0] if numbers else 3} per string" if climbing == "fragment" else ""
        return f"{climbing}{count} from string {string}"
    if any(word in ("per", "nps") or word.endswith("nps") for word in words) and 1 <= len(numbers) <= 2:
        string = numbers[1] if len(numbers) == 2 else "6"
        return f"{numbers[0]} per string from string {string}"
    if len(words) == 2 and len(numbers) == 1:
        word = words[0] if words[1] in numbers else words[1]
        near = next((each for each in ("position", "string") if each.startswith(word)), None) or nearest(word, ("position", "string"))
        return f"{near} {numbers[0]}" if near else None
    return nearest(text, LAYOUTS)


def path(field: Field) -> list[str] | None:
    """Directions, with commas or spaces between."""
    parts = [Part(found[0], field.at + found.start()) for found in re.finditer(r"[^\s,]+", field.text)]
    if not _few(field, parts, MAX_STEPS, "directions"):
        return None
    bad = [part for part in parts if part.text not in ("up", "down")]
    for part in bad:
        near = {"both": "up, down", "ascending": "up", "descending": "down"}.get(part.text.casefold()) or nearest(part.text, ("up", "down"))
        field.unlike("a direction", part, near)
    if not parts:
        field.unlike("a direction")
    return None if bad or not parts else [part.text for part in parts]


def order(field: Field) -> list[int] | None:
    """Steps of a melodic sequence."""
    parts = field.parts()
    if not _few(field, parts, MAX_STEPS, "steps"):
        return None
    steps = [_number(field, part, 1, MAX_STEP, "a step") for part in parts]
    return None if None in steps else [step for step in steps if step is not None]


def tones(field: Field) -> list[str] | None:
    """Degrees."""
    parts = field.parts()
    if not _few(field, parts, MAX_TONES, "degrees"):
        return None
    good = [_is_degree(field, part) for part in parts]
    for index, part in enumerate(parts):
        field.note(index, part)
    return [part.text for part in parts] if all(good) else None


def degree(field: Field) -> str | None:
    """One degree."""
    return field.text if _is_degree(field, Part(field.text, field.at)) else None


def octaves(field: Field) -> int | None:
    """A number of octaves."""
    return _number(field, Part(field.text, field.at), 1, MAX_OCTAVES, "a number of octaves")


def finish(field: Field) -> str | None:
    """What fills the last bar."""
    if field.text in ("hold", "rest"):
        return field.text
    field.unlike("a way to finish", suggestion=nearest(field.text, ("hold", "rest")))
    return None


def _is_degree(field: Field, part: Part) -> bool:
    if _DEGREE.fullmatch(part.text):
        return True
    near = respelled_degree(part.text.strip(","))
    field.unlike("a degree", part, near if near and _DEGREE.fullmatch(near) else None)
    return False


def _number(field: Field, part: Part, low: int, high: int, noun: str) -> int | None:
    number = whole(part.text)
    if number is None or not low <= number <= high:
        near = part.text.strip(",;.")
        near_number = whole(near)
        suggestion = near if near_number is not None and low <= near_number <= high else None
        field.refuse(f"{quoted(part.text)} is not {noun}", part, expected=f"a number from {low} to {high}", suggestion=suggestion)
        return None
    return number


def _few(field: Field, parts: list[Part], most: int, noun: str) -> bool:
    if len(parts) <= most:
        return True
    field.report.limit(field.span, f"{field.word} takes at most {most} {noun}")
    return False
