"""Reading the values of settings about the neck and the hands on it: tuning, fretting, capo, hand, player and fingering.

Each function returns the document's value, or None when it has reported what is wrong.
"""

from __future__ import annotations

import re
from typing import Final

from tabforge.diagnostics import nearest
from tabforge.fretboard.frettings import FRETTINGS, HIGHEST
from tabforge.fretboard.players import PLAYERS
from tabforge.limits import MAX_FRET, MAX_STRINGS, MIN_STRINGS
from tabforge.model.pitch import PITCH_CLASS_TEXT, PITCH_TEXT
from tabforge.syntax.document import CapoSetting
from tabforge.syntax.field import MAX_PHRASE, Field, Part
from tabforge.syntax.spelling import respelled_pitch
from tabforge.syntax.values import fitting, missing, phrase, whole

MAX_CAPO: Final = 12
HANDS: Final = ("right", "left")
FINGERINGS: Final = ("show", "hide")
STROKES: Final = ("alternate", "economy", "legato", "written")

_PITCH: Final = re.compile(PITCH_TEXT)
_CLASS: Final = re.compile(PITCH_CLASS_TEXT)
_STEPS: Final = re.compile(r"[0-9]{1,2}(?:\.[0-9]{1,2})?")


def tuning(field: Field) -> str | list[str] | None:
    """A tuning's name, or its pitches from the lowest string."""
    parts = field.parts()
    pitches = [part for part in parts if _PITCH.fullmatch(part.text)]
    meant = len(parts) >= MIN_STRINGS and all(fitting(_PITCH, respelled_pitch(part.text)) for part in parts)
    if not pitches and not meant:
        classes = sum(bool(_CLASS.fullmatch(part.text)) for part in parts)
        if classes >= MIN_STRINGS and classes == len(parts):
            field.refuse("these strings have no octaves", help="a pitch has its octave: E2 is a guitar's lowest string, E4 its highest")
            return None
        return phrase(field)
    for part in parts:
        if not _PITCH.fullmatch(part.text):
            help_ = "a pitch has its octave: E2 is a guitar’s lowest string, E4 its highest" if _CLASS.fullmatch(part.text) else None
            field.unlike("a pitch with its octave", part, fitting(_PITCH, respelled_pitch(part.text)), help_)
    if len(pitches) < len(parts):
        return None
    if not MIN_STRINGS <= len(parts) <= MAX_STRINGS:
        field.refuse(f"this tuning has {len(parts)} strings", expected=f"from {MIN_STRINGS} to {MAX_STRINGS} strings")
        return None
    for index, part in enumerate(parts):
        field.note(index, part)
    return [part.text for part in parts]


def capo(field: Field) -> int | CapoSetting | None:
    """A fret, and the strings if it does not lie on all of them."""
    parts = field.parts()
    number = whole(parts[0].text)
    if number is not None and number <= MAX_CAPO:
        if len(parts) == 1:
            return number
        if parts[1].text == "on" and number:
            return _on_strings(field, number, parts[2:])
        if number and all(whole(part.text) for part in parts[1:]):
            field.unlike("a capo", suggestion=f"{number} on " + " ".join(part.text for part in parts[1:]))
            return None
    digits = re.search(r"[0-9]+", field.text)
    near = whole(digits[0]) if digits else None
    field.unlike("a fret for a capo", suggestion=str(near) if near is not None and near <= MAX_CAPO else None)
    return None


def _on_strings(field: Field, fret: int, parts: list[Part]) -> CapoSetting | None:
    strings: list[int] = []
    if not parts:
        missing(field, "the strings it lies on", "numbers of strings: 5 4 3")
        return None
    for part in parts:
        string = whole(part.text)
        if string is None or not 1 <= string <= MAX_STRINGS:
            near = part.text.strip(",;")
            field.unlike("a string", part, near if near.isdecimal() else None, expected=f"a string from 1 to {MAX_STRINGS}")
            return None
        if string in strings:
            field.refuse(f"the capo lies on string {string} twice", part, expected="each string once")
            return None
        strings.append(string)
    field.note("fret", field.parts()[0])
    for index, part in enumerate(parts):
        field.origins.put((*field.pointer, "strings", index), part.at, part.at + len(part.text))
    return {"fret": fret, "strings": strings}


def hand(field: Field) -> str | None:
    """The hand that picks."""
    if field.text in HANDS:
        return field.text
    text = field.text.casefold()
    field.unlike("a hand", suggestion=next((each for each in HANDS if each in text), None))
    return None


def player(field: Field) -> str | None:
    """Who plays, one of PLAYERS."""
    name = " ".join(part.text for part in field.parts())
    if name in PLAYERS:
        return name
    field.unlike("a player", suggestion=nearest(name, PLAYERS))
    return None


def fingering(field: Field) -> str | None:
    """Whether fingers that were not written are shown."""
    if field.text in FINGERINGS:
        return field.text
    text = field.text.casefold()
    field.unlike("show or hide", suggestion=next((each for each in FINGERINGS if text.startswith(each)), None))
    return None


def strokes(field: Field) -> str | None:
    """How the pick goes where the writer does not say."""
    if field.text in STROKES:
        return field.text
    text = field.text.casefold()
    field.unlike("a way of picking", suggestion=nearest(text, STROKES), expected="alternate, economy, legato or written")
    return None


def fretting(field: Field) -> str | list[float] | None:
    """The half steps of every fret, or a name for them."""
    if field.text in FRETTINGS:
        return field.text
    parts = field.parts()
    steps = [_half_steps(part.text) for part in parts]
    if steps[0] is None:
        field.unlike("a fretting", suggestion=nearest(field.text[:MAX_PHRASE], FRETTINGS))
        return None
    if len(parts) > MAX_FRET:
        field.report.limit(field.span, f"a neck has at most {MAX_FRET} frets")
        return None
    good = []
    for part, step in zip(parts, steps, strict=True):
        if step is None or not _STEPS.fullmatch(part.text) or not 0 < step <= HIGHEST:
            near = f"{step:g}" if step is not None and 0 < step <= HIGHEST else None
            field.unlike(
                "a number of half steps",
                part,
                near,
                expected=f"a number up to {HIGHEST}, with two decimals at most, each more than the one before",
            )
            return None
        good.append(step)
    for index, part in enumerate(parts):
        field.note(index, part)
    return good


def _half_steps(text: str) -> float | None:
    """A number of half steps with at most two decimals, whatever sign stands before them; None for anything else."""
    bare = text.strip(",;").replace(",", ".")
    if not _STEPS.fullmatch(bare):
        return None
    number = float(bare)
    return int(number) if number.is_integer() else number
