"""Reading the value of a scale setting: a root, then a name or a scale of one's own."""

from __future__ import annotations

import re
from typing import Final

from tabforge.syntax.document import ScaleSetting
from tabforge.syntax.field import MAX_PHRASE, Field, Part, plain_signs
from tabforge.syntax.grammar import OWN_DEGREE_TEXT, ROOT_TEXT, STEPS
from tabforge.syntax.spelling import respelled_degree
from tabforge.syntax.values import missing, root, whole

OWN: Final = ("steps", "semitones", "degrees")
MOST: Final = 12
"""Notes of a scale of one's own."""

LAST_SEMITONE: Final = 11

_ROOT: Final = re.compile(ROOT_TEXT)
_DEGREE: Final = re.compile(OWN_DEGREE_TEXT)


def scale(field: Field) -> ScaleSetting | None:
    """A root and a named scale, or one's own."""
    parts = field.parts()
    first = parts[0]
    if not _ROOT.fullmatch(first.text) and _disordered(field, parts):
        return None
    tonic = root(field, first)
    if tonic is None:
        return None
    if len(parts) == 1:
        missing(field, "a scale’s name", f"{tonic} and the name of a scale, such as {tonic} major")
        return None
    field.note("root", first)
    setting: ScaleSetting = {"root": tonic}
    rest = parts[1:]
    own = next((index for index, part in enumerate(rest) if part.text in OWN), None)
    named = rest[:own]
    if named and not _name(field, setting, named, own is not None):
        return None
    if own is None:
        return setting
    kind, items = rest[own], rest[own + 1 :]
    if not items:
        missing(field, f"the {kind.text} themselves")
        return None
    if not _items(field, setting, kind.text, items):
        return None
    field.origins.put((*field.pointer, kind.text), items[0].at, items[-1].at + len(items[-1].text))
    for index, item in enumerate(items):
        field.origins.put((*field.pointer, kind.text, index), item.at, item.at + len(item.text))
    return setting


def _disordered(field: Field, parts: list[Part]) -> bool:
    """Whether the root stands last, or runs into the name; reports it."""
    text = plain_signs(field.text)
    if len(parts) > 1 and _ROOT.fullmatch(parts[-1].text) and len(parts[0].text) > 3:
        name = text[: parts[-1].at - field.at].strip()
        field.refuse("the root of a scale stands before its name", suggestion=f"{parts[-1].text} {name}")
        return True
    minor = re.fullmatch(rf"({ROOT_TEXT})m(?:in)?((?:\s.*)?)", text)
    if minor:
        field.refuse("a scale is named in words", parts[0], suggestion=f"{minor[1]} minor{minor[2]}")
        return True
    first = plain_signs(parts[0].text)
    glued = re.fullmatch(rf"({ROOT_TEXT})([a-z]{{3,}}.*)", first)
    if glued:
        field.refuse(
            f"a space is missing between the root and the scale’s name in “{parts[0].text[:40]}”",
            parts[0],
            suggestion=f"{glued[1]} {glued[2]}",
        )
        return True
    return False


def _name(field: Field, setting: ScaleSetting, parts: list[Part], own: bool) -> bool:
    start, end = parts[0].at, parts[-1].at + len(parts[-1].text)
    written = field.text[start - field.at : end - field.at]
    whole_name = Part(written, start)
    if parts[0].is_quoted and len(parts) == 1:
        name = parts[0].text[1:-1]
        if not own:
            missing(field, "its steps, semitones or degrees", f"{field.text} steps W W H W W W H, for example")
            return False
        if not name:
            field.refuse("the scale’s name is empty", whole_name)
            return False
    elif own or '"' in written:
        if own:
            plain = written.replace('"', "")
            field.refuse("the name of a scale of one’s own stands in quotes", whole_name, suggestion=f'"{plain}"')
        else:
            field.refuse("there is a stray quotation mark in this scale", whole_name)
        return False
    else:
        name = " ".join(part.text for part in parts)
    if not field.within(MAX_PHRASE + 2 * own, "a scale’s name", whole_name):
        return False
    field.origins.put((*field.pointer, "name"), start, end)
    setting["name"] = name
    return True


def _items(field: Field, setting: ScaleSetting, kind: str, items: list[Part]) -> bool:
    """Put the steps, semitones or degrees into the setting; False if they are reported."""
    if len(items) > MOST:
        field.refuse(f"this scale has {len(items)} {kind}", items[MOST], expected=f"at most {MOST}")
        return False
    before = field.report.count
    if kind == "steps":
        setting["steps"] = [_step(field, item) for item in items]
    elif kind == "degrees":
        setting["degrees"] = [_degree(field, item) for item in items]
    else:
        setting["semitones"] = _semitones(field, items)
    return field.report.count == before


def _step(field: Field, item: Part) -> str:
    if item.text not in STEPS:
        near = item.text.strip(",-").upper()
        field.unlike(
            "a step", item, near if near in STEPS else None, expected="H a half step, W a whole step, W+H three half steps, W+W four"
        )
    return item.text


def _degree(field: Field, item: Part) -> str:
    if not _DEGREE.fullmatch(item.text):
        near = respelled_degree(item.text.strip(",")) or ""
        field.unlike(
            "a degree of an octave", item, near if _DEGREE.fullmatch(near) else None, expected="degrees from 1 to 7 such as 2 b3 #4"
        )
    return item.text


def _semitones(field: Field, items: list[Part]) -> list[int]:
    numbers: list[int] = []
    for item in items:
        number = whole(item.text)
        if number is None or number > LAST_SEMITONE:
            near = whole(item.text.strip(","))
            suggestion = None if near is None or near > LAST_SEMITONE else str(near)
            field.unlike("a number of semitones", item, suggestion, expected="semitones above the root, from 0 to 11")
        elif number in numbers:
            field.refuse(f"{number} semitones stand here twice", item, expected="each number once")
        else:
            numbers.append(number)
    return numbers
