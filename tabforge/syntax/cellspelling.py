"""What a mistyped cell of a row probably meant.

The habits listed here are common practice, from memory.
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
from tabforge.syntax.field import plain_signs
from tabforge.syntax.grammar import ROOT_TEXT, ROWS, cell_regex
from tabforge.syntax.spelling import dead_note, respelled_degree, respelled_duration, respelled_meter, respelled_pitch

LONGEST: Final = 80
"""Characters of a cell that is worth a guess."""

_FRET: Final = re.compile(r"([1-9][0-9]?)[-/.,;|]([0-9]{1,2})")
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
_STRUMS: Final = {"↓": "d", "↑": "u", "-": ".", "=": ".", "dg": "gd", "ug": "gu", "dx": "xd", "ux": "xu", "x": "xd", "g": "gd", "rest": "r"}
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


def respelled_fret(text: str) -> str | None:
    """A string and a fret joined by a colon."""
    dead = dead_note(text)
    if dead:
        return f"{dead[2:]}:x"
    found = _FRET.fullmatch(text)
    return f"{found[1]}:{found[2]}" if found and int(found[2]) <= MAX_FRET else None


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


def _respelled_strum(text: str) -> str | None:
    """A stroke for its name or its arrow, ghost and muffled ones too; a dot for a sign of going on."""
    word = text.casefold()
    return _STRUMS.get(word, _STROKES.get(word) if _STROKES.get(word) in ("d", "u") else None)


def _respelled_finger(text: str) -> str | None:
    return "T" if text.casefold() in ("t", "p", "thumb") else None


def _respelled_key(text: str) -> str | None:
    """A root and a scale's name with a hyphen between, for another sign or none."""
    found = re.fullmatch(rf"({ROOT_TEXT})[-_:/,.]*(?:(m|min|maj)(?![a-z]))?([A-Za-z0-9#_-]*)", plain_signs(text))
    if found is None:
        return None
    name = {"m": "minor", "min": "minor", "maj": "major"}.get(found[2], "") + found[3].replace("_", "-")
    return f"{found[1]}-{name or 'major'}"


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
    "key": _respelled_key,
    "tempo": lambda text: text.casefold().removesuffix("bpm"),
    "chords": lambda text: plain_signs(text).replace("(", "").replace(")", ""),
    "progression": lambda text: plain_signs(text).replace("(", "").replace(")", ""),
    "rhythm": respelled_duration,
    "degrees": _unpinned(respelled_degree),
    "frets": _unpinned(respelled_fret),
    "notes": _unpinned(respelled_pitch),
    "marks": respelled_mark,
    "fingers": _respelled_finger,
    "picks": _respelled_stroke,
    "strum": _respelled_strum,
    "picking": _respelled_stroke,
    "signs": _respelled_sign,
    "dynamics": _respelled_dynamic,
}


def respelled_cell(word: str, cell: str) -> str | None:
    """What a cell of a row probably meant, spelled rightly; None for no idea. Cells joined by plus are mended each for itself."""
    respell = _CELLS.get(word)
    if respell is None or len(cell) > LONGEST:
        return None
    right = cell_regex(word)
    if word == "key" and right.fullmatch(cell):
        return cell  # several words, put together
    lower = cell.lower()
    if right.fullmatch(lower):
        return lower
    pieces: list[str] = []
    joints = r"[+,&](?![0-9])" if word == "notes" else r"[+,&]" if ROWS[word].sounds and ROWS[word].voice2 else r"\+"
    for piece in re.split(joints, plain_signs(cell)):
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
