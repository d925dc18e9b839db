"""What a mistyped cell or value probably meant: typographic signs, other people's habits, things in the wrong order.

Each function takes a text that is not right and gives one that is, or None. The habits listed here are common practice, from memory.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import Final

from tabforge.diagnostics import nearest
from tabforge.limits import MAX_FRET
from tabforge.model.score import SIGNS
from tabforge.model.techniques import TECHNIQUES, Amount
from tabforge.model.values import VALUES
from tabforge.syntax.field import plain_signs
from tabforge.syntax.grammar import METER_TEXT, ROWS, cell_regex

LONGEST: Final = 80
"""Characters of a text that is worth a guess."""

_NOTE: Final = re.compile(r"([a-hA-H])(is|es|s|##|#|bb|b|x)?(-?[0-9])?((?:@.*)?)")
_ALTERED: Final = {"is": "#", "es": "b", "s": "b", "x": "##"}
_DEGREE: Final = re.compile(r"([_^]*)([1-9][0-9]?)(##|#|bb|b|n)((?:@.*)?)")
_FRET: Final = re.compile(r"([1-9][0-9]?)[-/.,;|]([0-9]{1,2})")
_METER: Final = re.compile(r"([0-9+]+)\s*[:/\\,.-]?\s*([0-9]+)")
_PER_WHOLE: Final = {str(4 / value.quarters): value.letter for value in VALUES}
"""A value's number as a fraction of a whole note: an eighth note is 8."""

_MARK_SIGNS: Final = {
    "/": "sl",
    "\\": "sl",
    "~": "v",
    "~~": "wv",
    ">": "ac",
    "^": "ma",
    "b": "b1",
    "br": "b1r",
    "pb": "pb1",
    "bend": "b1",
    "()": "gh",
}
_STROKES: Final = {"down": "d", "up": "u", "v": "u", "n": "d", "thumb": "p", "index": "i", "middle": "m", "ring": "a"}
_DYNAMICS: Final = {
    "forte": "f",
    "piano": "p",
    "mezzoforte": "mf",
    "mezzopiano": "mp",
    "fortissimo": "ff",
    "pianissimo": "pp",
    "cresc": "<",
    "crescendo": "<",
    "dim": ">",
    "decresc": ">",
    "diminuendo": ">",
    "decrescendo": ">",
}
_RESTS: Final = {"-": "=", "~": "=", ".": "r", "z": "r", "rest": "r"}


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
    plain = _dead(text) or plain_signs(text)
    found = _DEGREE.fullmatch(plain)
    return f"{found[1]}{found[3]}{found[2]}{found[4]}" if found else plain


def _dead(text: str) -> str | None:
    """A dead note with its string behind an at sign."""
    found = re.fullmatch(r"[xX]([0-9]{1,2})|([0-9]{1,2})[xX]", text)
    return f"x@{found[1] or found[2]}" if found else None


def respelled_fret(text: str) -> str | None:
    """A string and a fret joined by a colon."""
    dead = _dead(text)
    if dead:
        return f"{dead[2:]}:x"
    found = _FRET.fullmatch(text)
    return f"{found[1]}:{found[2]}" if found and int(found[2]) <= MAX_FRET else None


def respelled_meter(text: str) -> str | None:
    """A meter with its slash; a beat of 4 where none is given."""
    if text.casefold() in ("c", "common", "common time"):
        return "4/4"
    if text.casefold() in ("cut", "cut time", "alla breve"):
        return "2/2"
    found = _METER.fullmatch(text)
    guess = f"{found[1]}/{found[2]}" if found else f"{text}/4"
    return guess if re.fullmatch(METER_TEXT, guess) else None


@cache
def _mark_names() -> dict[str, str]:
    names: dict[str, str] = {}
    for technique in TECHNIQUES:
        amount = "" if technique.default is not None or technique.amount is Amount.NONE else "1"
        form = technique.form.replace("#", amount)
        names[form] = form
        names[technique.name] = form
        names.setdefault(technique.name.replace(" ", "-"), form)
        names.setdefault(technique.name.replace("-", ""), form)
    return names


def respelled_mark(text: str) -> str | None:
    """A technique's mark for its name, for a sign that players draw, or for a near miss."""
    sign = _MARK_SIGNS.get(text.casefold())
    if sign is not None:
        return sign
    near = nearest(text, _mark_names()) if len(text) > 1 or text.lower() in _mark_names() else None
    return _mark_names()[near] if near else None


def _respelled_stroke(text: str) -> str | None:
    return _STROKES.get(text.casefold(), text.lower() if len(text) == 1 else None)


def _respelled_finger(text: str) -> str | None:
    return "T" if text.casefold() in ("t", "p", "thumb") else None


def _respelled_sign(text: str) -> str | None:
    """A sign of the way for its usual writing with dots, such as D.S. al Coda; a rehearsal letter in its brackets."""
    bare = re.sub(r"[^a-z]", "", text.casefold().replace("al", ""))
    return bare if bare in SIGNS else f"[{text}]"


def _respelled_dynamic(text: str) -> str | None:
    return _DYNAMICS.get(text.casefold().rstrip("."), text.casefold())


def _unpinned(respell: Callable[[str], str | None]) -> Callable[[str], str | None]:
    def cell(text: str) -> str | None:
        return _RESTS.get(text) or respell(text)

    return cell


_CELLS: Final[dict[str, Callable[[str], str | None]]] = {
    "meter": respelled_meter,
    "tempo": lambda text: text.casefold().removesuffix("bpm"),
    "chords": lambda text: plain_signs(text).replace("(", "").replace(")", ""),
    "rhythm": respelled_duration,
    "degrees": _unpinned(respelled_degree),
    "frets": _unpinned(respelled_fret),
    "notes": _unpinned(respelled_pitch),
    "marks": respelled_mark,
    "fingers": _respelled_finger,
    "picks": _respelled_stroke,
    "signs": _respelled_sign,
    "dynamics": _respelled_dynamic,
}


def respelled_cell(word: str, cell: str) -> str | None:
    """What a cell of a row probably meant, spelled rightly; None for no idea. Cells joined by plus are mended each for itself."""
    respell = _CELLS.get(word)
    if respell is None or len(cell) > LONGEST:
        return None
    right = cell_regex(word)
    lower = cell.lower()
    if right.fullmatch(lower):
        return lower
    pieces: list[str] = []
    for piece in re.split(r"[+,&]" if ROWS[word].sounds else r"\+", plain_signs(cell)):
        mended = piece if right.fullmatch(piece) else respell(piece)
        if mended is None:
            return nearest(cell, ROWS[word].samples)
        pieces.append(mended)
    whole = "+".join(pieces)
    return whole if whole != cell and right.fullmatch(whole) else nearest(cell, ROWS[word].samples)


def rows_of(cell: str, other_than: str) -> list[str]:
    """The rows in which a cell with letters in it would be right."""
    if cell.isdecimal():
        return []
    rows = ("rhythm", "degrees", "frets", "notes", "marks", "picks")
    return [word for word in rows if word != other_than and cell_regex(word).fullmatch(cell)]
