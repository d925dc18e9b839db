"""Reading the values of settings about second parts and what is counted: drone, vamp, backing, click and count-in.

Each function returns the document's value, or None when it has reported what is wrong.
"""

from __future__ import annotations

import re
from typing import Final, Literal

from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import text as codes
from tabforge.source import Span
from tabforge.syntax.bars import row_bars
from tabforge.syntax.document import DroneSetting, VampSetting
from tabforge.syntax.field import MAX_PHRASE, Field, Part
from tabforge.syntax.grammar import DEGREE_TEXT, DURATION_TEXT, ROWS
from tabforge.syntax.reading import Reading
from tabforge.syntax.report import quoted
from tabforge.syntax.spelling import respelled_duration
from tabforge.syntax.values import fitting, missing, whole

MAX_DRONES: Final = 4
"""Notes of a drone, MAX_COUNT_IN bars of a count-in and MAX_VAMP bars of a vamp; see the document's schema."""

MAX_COUNT_IN: Final = 8
MAX_VAMP: Final = 256

SWITCH: Final = ("on", "off")
BACKINGS: Final = ("show", "hide")

_DEGREE: Final = re.compile(DEGREE_TEXT)
_DURATION: Final = re.compile(DURATION_TEXT)
_VAMP: Final = "advised, or chords as in a progression: I | bVII IV every h"


def drone(field: Field) -> Literal["off"] | DroneSetting | None:
    """Degrees that sound together, then whether they are held or how often they are struck; or off."""
    parts = field.parts()
    if field.text == "off":
        return "off"
    found = _degrees(field, parts[0])
    if found is None:
        return None
    if len(parts) > 1 and parts[1].text not in ("held", "every"):
        near = nearest(parts[1].text, ("held", "every"))
        field.unlike("a way to play a drone", parts[1], near, expected="held, or every and a duration: every h")
        return None
    if len(parts) > 1 and parts[1].text == "every":
        every = _every(field, parts[1:])
        return {"degrees": found, "every": every} if every else None
    if len(parts) > 2:
        field.refuse(f"nothing stands behind {parts[1].text}", parts[2], expected="the end of the line")
        return None
    return {"degrees": found}


def _degrees(field: Field, part: Part) -> list[str] | None:
    found = part.text.split("+")
    at = part.at
    for index, text in enumerate(found):
        if not _DEGREE.fullmatch(text):
            wanted = "a degree of the scale, or degrees joined with +: 1, 1+5, 1+^1"
            field.unlike("a degree", Part(text, at) if text else part, expected=wanted, help=_named(text))
            return None
        if text in found[:index]:
            twice = "each degree once; an octave apart they are 1 and ^1"
            field.refuse(f"the degree {text} is named twice", Part(text, at), expected=twice)
            return None
        field.origins.put((*field.pointer, "degrees", index), at, at + len(text))
        at += len(text) + 1
    if len(found) > MAX_DRONES:
        field.report.limit(part.span, f"a drone has at most {MAX_DRONES} notes")
        return None
    return found


def _named(text: str) -> str | None:
    letter = re.match(r"[A-Ga-g](?:#|b)?(?![a-z])", text)
    return "a drone moves with the scale, so it is named by degrees: 1 is the scale's root, 5 its fifth" if letter else None


def _every(field: Field, parts: list[Part]) -> str | None:
    """The duration behind ``every``, which is the first of the parts."""
    if len(parts) < 2:
        missing(field, "a duration behind every", "a duration: every h")
        return None
    if len(parts) > 2:
        field.refuse(f"nothing stands behind every {quoted(parts[1].text)}", parts[2], expected="the end of the line")
        return None
    text = parts[1].text
    if not field.within(MAX_PHRASE, "a duration", parts[1]):
        return None
    if not _DURATION.fullmatch(text):
        field.unlike("a duration", parts[1], fitting(_DURATION, respelled_duration(text)), expected="a duration such as h, q. or w+w")
        return None
    field.note("every", parts[1])
    return text


def vamp(field: Field, reading: Reading) -> Literal["off"] | VampSetting | None:
    """The advised chords or bars of one's own, then perhaps how often they are struck; or off."""
    parts = field.parts()
    if field.text == "off":
        return "off"
    at = next((index for index, part in enumerate(parts) if part.text == "every"), len(parts))
    if at == 0:
        missing(field, "its chords", _VAMP)
        return None
    every = _every(field, parts[at:]) if at < len(parts) else None
    if at < len(parts) and every is None:
        return None
    chords: Literal["advised"] | list[str] | None
    if parts[0].text == "advised":
        if at > 1:
            field.refuse("the advised chords are all of a vamp", parts[1], expected="advised alone, or with every and a duration")
            return None
        chords = "advised"
    else:
        last = parts[at - 1]
        chords = _bars(field, reading, last.at + len(last.text))
    if chords is None:
        return None
    return {"chords": chords, "every": every} if every else {"chords": chords}


def _bars(field: Field, reading: Reading, end: int) -> list[str] | None:
    before = reading.report.count
    found = row_bars(reading, ROWS["progression"], field.at, end)
    if reading.report.count > before:
        return None
    for _, sign, at in found.signs:
        span = Span(at, at + len(sign))
        said = f"a vamp has no bar line {quoted(sign)}"
        reading.report.add(codes.BAD_VALUE, span, said, expected="a plain | between its bars: it is begun again until the block ends")
        return None
    if len(found.bars) > MAX_VAMP:
        field.report.limit(field.span, f"a vamp has at most {MAX_VAMP} bars")
        return None
    if not found.bars:
        missing(field, "its chords", _VAMP)
        return None
    reading.origins.rows[(*field.pointer, "chords")] = found.places
    return found.bars


def backing(field: Field) -> str | None:
    """Whether second parts are printed."""
    if field.text in BACKINGS:
        return field.text
    field.unlike("a way to treat second parts", suggestion=nearest(field.text[:MAX_PHRASE], BACKINGS))
    return None


def click(field: Field) -> str | None:
    """Whether beats are clicked."""
    if field.text in SWITCH:
        return field.text
    text = field.text.casefold()
    field.unlike("on or off", suggestion=text if text in SWITCH else {"yes": "on", "no": "off", "show": "on", "hide": "off"}.get(text))
    return None


def count_in(field: Field) -> int | None:
    """Bars of clicks."""
    number = whole(field.text)
    if number is not None and number <= MAX_COUNT_IN:
        return number
    digits = re.search(r"[0-9]+", field.text)
    near = whole(digits[0]) if digits else None
    field.unlike("a number of bars to count in", suggestion=str(near) if near is not None and near <= MAX_COUNT_IN else None)
    return None
