"""Reading the value of a scale setting: a root, then a name or a scale of one's own."""

from __future__ import annotations

import re
from typing import Final

from tabforge.syntax.document import ScaleSetting
from tabforge.syntax.field import MAX_PHRASE, Field, Part, plain_signs
from tabforge.syntax.grammar import OWN_DEGREE_TEXT, ROOT_TEXT, STEPS
from tabforge.syntax.values import missing, root, whole

OWN: Final = ("steps", "semitones", "degrees")
MOST: Final = 12
"""Notes of a scale of one's own."""

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
        missing(field, "a scale’s name")
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
    glued = re.match(rf"({ROOT_TEXT})([a-z].{{2,}})", text)
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
            missing(field, "its steps, semitones or degrees")
            return False
        if not name:
            field.refuse("the scale’s name is empty", whole_name)
            return False
    elif own or '"' in written:
        plain = written.replace('"', "")
        rest = field.text[end - field.at :].strip()
        field.refuse(
            "the name of a scale of one’s own stands in quotes", whole_name, suggestion=f'{setting["root"]} "{plain}" {rest}'.strip()
        )
        return False
    else:
        name = " ".join(part.text for part in parts)
    if not field.within(MAX_PHRASE + 2 * own, "a scale’s name", whole_name):
        return False
    field.origins.put((*field.pointer, "name"), start, end)
    setting["name"] = name
    return True


def _items(field: Field, setting: ScaleSetting, kind: str, items: list[Part]) -> bool:
    if len(items) > MOST:
        field.refuse(f"this scale has {len(items)} {kind}", items[MOST], expected=f"at most {MOST}")
        return False
    before = field.report.count
    texts = [item.text for item in items]
    if kind == "steps":
        for item in items:
            if item.text not in STEPS:
                near = item.text.strip(",-").upper()
                field.unlike("a step", item, near if near in STEPS else None, help="H is a half step, W a whole step, W+H three half steps")
        setting["steps"] = texts
    elif kind == "semitones":
        numbers = [whole(text) for text in texts]
        for index, item in enumerate(items):
            number = numbers[index]
            if number is None or number > 11:
                field.unlike(
                    "a number of semitones from 0 to 11", item, item.text.strip(",") if whole(item.text.strip(",")) is not None else None
                )
            elif number in numbers[:index]:
                field.refuse(f"{number} semitones stand here twice", item)
        setting["semitones"] = [number for number in numbers if number is not None]
    else:
        for item in items:
            if not _DEGREE.fullmatch(item.text):
                near = plain_signs(item.text).strip(",")
                near = near[1:] + near[:1] if near[:1].isdigit() and len(near) > 1 else near
                field.unlike("a degree from 1 to 7", item, near if _DEGREE.fullmatch(near) else None)
        setting["degrees"] = texts
    return field.report.count == before
