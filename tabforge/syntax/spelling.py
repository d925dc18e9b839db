"""What a mistyped pitch, duration, degree or meter probably meant: typographic signs, other people's habits, things in the wrong order.

Each function takes a text that is not right and gives one that is, or None. The habits listed here are common practice, from memory.
"""

from __future__ import annotations

import re
from typing import Final

from tabforge.model.values import VALUES
from tabforge.syntax.field import plain_signs
from tabforge.syntax.grammar import METER_TEXT

_NOTE: Final = re.compile(r"([a-hA-H])(is|es|s|##|#|bb|b|x)?(-?[0-9])?((?:[+-][0-9]{1,2})?(?:@.*)?)")
_ALTERED: Final = {"is": "#", "es": "b", "s": "b", "x": "##"}
_DEGREE: Final = re.compile(r"([_^]*)([1-9][0-9]?)(##|#|bb|b|n)((?:@.*)?)")
_METER: Final = re.compile(r"([0-9+]+)\s*[:/\\,.-]?\s*([0-9]+)")
_PER_WHOLE: Final = {str(4 / value.quarters): value.letter for value in VALUES}
"""A value's number as a fraction of a whole note: an eighth note is 8."""


def respelled_pitch(text: str) -> str | None:
    """A pitch or a root with a capital letter and plain accidentals; a German H, Fis or Es put into English."""
    found = _NOTE.fullmatch(plain_signs(text))
    if found is None:
        return None
    letter, sign, octave, pin = found[1].upper(), found[2] or "", found[3] or "", found[4]
    return ("B" if letter == "H" else letter) + _ALTERED.get(sign, sign) + octave + pin


def respelled_duration(text: str) -> str | None:
    """A value by its letter for one by its number (8, 1/8), its name or a capital letter."""
    plain = text.casefold()
    dots = len(plain) - len(plain.rstrip("."))
    body = plain[: len(plain) - dots].removeprefix("1/")
    if body in _PER_WHOLE:
        return _PER_WHOLE[body] + "." * dots
    for value in VALUES:
        if body in (value.letter, value.name, value.spoken, value.spoken.removesuffix(" note")):
            return value.letter + "." * dots
    return None


def respelled_degree(text: str) -> str | None:
    """A degree with its sign before it."""
    plain = dead_note(text) or plain_signs(text)
    found = _DEGREE.fullmatch(plain)
    return f"{found[1]}{found[3]}{found[2]}{found[4]}" if found else plain


def dead_note(text: str) -> str | None:
    """A dead note with its string behind an at sign."""
    found = re.fullmatch(r"[xX]([0-9]{1,2})|([0-9]{1,2})[xX]", text)
    return f"x@{found[1] or found[2]}" if found else None


def respelled_meter(text: str) -> str | None:
    """A meter with its slash; a beat of 4 where none is given."""
    if text.casefold() in ("c", "common", "common time"):
        return "4/4"
    if text.casefold() in ("cut", "cut time", "alla breve"):
        return "2/2"
    found = _METER.fullmatch(text)
    guess = f"{found[1]}/{found[2]}" if found else f"{text}/4"
    return guess if re.fullmatch(METER_TEXT, guess) else None
