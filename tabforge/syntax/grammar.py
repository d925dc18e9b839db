"""The words of the language, each in one table: settings, rows, run lines, bar lines and what a cell may be.

The parser, the printer, the schema (proved by a test), the compiler and the reference all start from here.
"""

from __future__ import annotations

import re
from array import array
from dataclasses import dataclass
from functools import cache
from typing import Final

from tabforge.model.events import DYNAMICS
from tabforge.model.meter import TEMPO_CHANGES
from tabforge.model.pitch import CENTS_TEXT, PITCH_CLASS_TEXT, PITCH_TEXT
from tabforge.model.score import SIGNS
from tabforge.model.techniques import MARK_TEXT
from tabforge.model.values import BY_LETTER

STRING_TEXT: Final = r"(?:1[0-2]|[1-9])"
FRET_TEXT: Final = r"(?:3[0-6]|[12][0-9]|[0-9])"
PIN_TEXT: Final = rf"(?:@{STRING_TEXT}(?::{FRET_TEXT})?)?"
VALUE_TEXT: Final = rf"[{''.join(BY_LETTER)}]\.{{0,2}}"
DEGREE_TEXT: Final = r"[_^]{0,4}(?:##|#|bb|b|n)?[1-9][0-9]?"

UNSEEN_TEXT: Final = r"\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff"
"""What no text may hold, as the inside of a regular expression's character class: control characters but for tab and line
breaks, the line separators of Unicode, half characters (surrogates), and what XML 1.0 (section 2.2, Char) cannot carry. With
these gone, ``\\s`` means the same to Python and to the regular expressions of JSON Schema (ECMA-262)."""

LINE_TEXT: Final = rf"[^\r\n{UNSEEN_TEXT}]*"
"""A line of words."""

REPEAT_TEXT: Final = r"\*[1-9][0-9]{0,2}"
TUPLET_TEXT: Final = r"[1-9][0-9]?(?::[1-9][0-9]?)?"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row of a riff or of a chord block. ``cell`` is the regular expression of one cell without repeat count; ``says`` tells the user what a
    cell is.

    ``where`` holds "riff", "chords": the blocks it may stand in. ``per_bar``: one cell a bar. ``sounds``: one of the rows of which a system
    has exactly one. ``pattern``: begun again until the row that sounds ends. ``shares``: a bar's cells share it, and are no columns of the
    other rows. ``plain``: cells are words, in which ``*``, parentheses and ``%`` have no meaning. ``voice2``: may stand in a second voice.
    ``samples`` help an error name something near.
    """

    word: str
    cell: str
    says: str
    samples: tuple[str, ...]
    where: frozenset[str] = frozenset({"riff"})
    per_bar: bool = False
    sounds: bool = False
    pattern: bool = False
    shares: bool = False
    plain: bool = False
    voice2: bool = False

    @property
    def never_empty(self) -> bool:
        """Whether each of its bars must have a cell."""
        return self.sounds or self.pattern


_BOTH: Final = frozenset({"riff", "chords"})
_CHORDS: Final = frozenset({"chords"})


def _joined(part: str) -> str:
    return rf"{part}(?:\+{part})*"


CHORD_TEXT: Final = rf'[^\s|"()*%{UNSEEN_TEXT}]+'
"""A chord's name or numeral, which the compiler reads, or a dot."""

METER_TEXT: Final = r"[1-9][0-9]?(?:\+[1-9][0-9]?){0,7}/(?:32|16|8|4|2|1)"
TEMPO_TEXT: Final = rf"(?:{VALUE_TEXT}=)?[1-9][0-9]{{1,2}}(?:\.[0-9]{{1,2}})?"
DURATION_TEXT: Final = _joined(VALUE_TEXT)
ROOT_TEXT: Final = rf"{PITCH_CLASS_TEXT}(?:-?[0-9])?"
"""A root, with its octave if need be."""

CODE_TEXT: Final = r"[A-Z][0-9]{3}"
"""A code of tabforge's findings."""

OWN_DEGREE_TEXT: Final = r"(?:##|#|bb|b)?[1-7]"
"""A degree of a scale of one's own, against the major scale on its root."""

STEPS: Final = ("H", "W", "W+H", "W+W")
"""Steps of a scale of one's own."""

KEY_TEXT: Final = rf"{ROOT_TEXT}(?:-[A-Za-z0-9#]+)+"
"""A root and a named scale in one cell, hyphens for spaces: ``A-dorian``, ``Bb2-lydian-dominant``."""

SIGN_TEXT: Final = rf"(?:{'|'.join(sorted(SIGNS, key=len, reverse=True))}|newline|\[[A-Za-z][A-Za-z0-9]{{0,7}}\])"

QUOTED_TEXT: Final = rf'"[^"\r\n{UNSEEN_TEXT}]*"'

ROWS: Final[dict[str, Row]] = {
    row.word: row
    for row in (
        Row(word="meter", cell=rf"\.|{METER_TEXT}", says="a meter such as 3/4, or . for no change", samples=("3/4", "."), where=_BOTH, per_bar=True),
        Row(word="key", cell=rf"\.|{KEY_TEXT}", says="a root and a named scale joined with hyphens such as A-dorian or Bb2-lydian-dominant, or . for no change",
            samples=("A-dorian", "C-major", "."), where=_BOTH, per_bar=True),
        Row(word="tempo", cell=rf"\.|{'|'.join(TEMPO_CHANGES)}|{TEMPO_TEXT}", says="a tempo such as 96 or q.=60, a change of it (rit, rall, accel, atempo), or .",
            samples=("96", "q=96", ".", *TEMPO_CHANGES), where=_BOTH, per_bar=True),
        Row(word="signs", cell=rf"\.|{_joined(SIGN_TEXT)}", says="signs joined with +: segno coda tocoda fine dc ds dcfine dsfine dccoda dscoda, a rehearsal mark [A], newline; or .",
            samples=(".", *SIGNS, "newline", "[A]"), where=_BOTH, per_bar=True),
        Row(word="chords", cell=CHORD_TEXT, says="a chord symbol such as Bbmaj7, a numeral such as V7, or .", samples=("Am7", ".")),
        Row(word="progression", cell=CHORD_TEXT, says="a chord: a numeral such as ii7 or bVI, or a name such as Am7; or . where the chord before goes on",
            samples=("I", "V7", "Am7", "."), where=_CHORDS, sounds=True, shares=True),
        Row(word="rhythm", cell=rf"g[qest]?!?|{DURATION_TEXT}", says="a duration: w h q e s t, dotted (q.), a sum (q+e), a tuplet 3(e e e), or a grace note g",
            samples=(*BY_LETTER, *(f"{letter}." for letter in BY_LETTER), "g"), where=_BOTH, pattern=True, voice2=True),
        Row(word="degrees", cell=rf"r|=|{_joined(rf'(?:x(?:@{STRING_TEXT})?|{DEGREE_TEXT}{PIN_TEXT})')}",
            says="a degree such as 5, #4 or ^3, degrees joined with +, a rest r, a hold = or a dead note x", samples=("1", "#4", "b3", "r", "=", "x"), sounds=True, voice2=True),
        Row(word="frets", cell=rf"r|=|{_joined(rf'(?:{STRING_TEXT}:)?(?:{FRET_TEXT}|x)')}",
            says="a fret such as 5 or 6:5 (string:fret), frets joined with +, a rest r, a hold = or a dead note x", samples=("6:3", "5", "r", "=", "x"), sounds=True, voice2=True),
        Row(word="notes", cell=rf"r|=|{_joined(rf'(?:x(?:@{STRING_TEXT})?|{PITCH_TEXT}(?:{CENTS_TEXT})?{PIN_TEXT})')}",
            says="a pitch such as C4 or Bb2, or one off by cents (C4+50), pitches joined with +, a rest r, a hold = or a dead note x", samples=("C4", "Bb2", "F#3", "r", "=", "x"), sounds=True, voice2=True),
        Row(word="marks", cell=rf"\.|(?:-|{MARK_TEXT})(?:\+{MARK_TEXT})*", says="a technique, techniques joined with +, - to carry on (-+h: and more), or . for nothing", samples=(".", "-"), voice2=True),
        Row(word="dynamics", cell=rf"\.|-|<|>|{'|'.join(sorted(DYNAMICS, key=len, reverse=True))}", says="a dynamic such as mf, a hairpin < or > and - to carry it on, or .",
            samples=(".", "-", "<", ">", *DYNAMICS), voice2=True),
        Row(word="fingers", cell=rf"\.|{_joined('[0-4T]')}", says="a finger 1 2 3 4 T, 0 for an open string, or .", samples=("1", "T", "."), voice2=True),
        Row(word="picks", cell=rf"\.|{_joined('[dupima]')}", says="d or u, a plucking finger p i m a, or .", samples=("d", "u", "p", "i", "m", "a", "."), voice2=True),
        Row(word="words", cell=rf'{QUOTED_TEXT}|[^\s|"{UNSEEN_TEXT}]+', says='a word, words in quotes, or .', samples=(".",), plain=True, voice2=True),
        Row(word="strum", cell=r"\.|r|[gx]?[du]", says="a stroke: d or u, ghost strokes gd gu, muffled ones xd xu, a rest r, or . to let it ring on",
            samples=("d", "u", "gd", "gu", "xd", "xu", "r", "."), where=_CHORDS, pattern=True),
        Row(word="picking", cell=rf"\.|r|{_joined(rf'[pima](?:@{STRING_TEXT})?')}",
            says="plucking fingers p i m a, joined with + where they pluck together, on a string of their own p@5; a rest r, or . to let it ring on",
            samples=("p", "i", "m", "a", "p+a", "r", "."), where=_CHORDS, pattern=True),
    )
}
"""In canonical order: the order the printer writes them in."""

SOUNDING: Final = tuple(row.word for row in ROWS.values() if row.sounds)


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """A setting line. ``where`` holds "header", "run", "riff", "chords": the places it may stand. ``says`` tells what its value is."""

    word: str
    where: frozenset[str]
    says: str
    many: bool = False


def _s(word: str, where: str, says: str, many: bool = False) -> Setting:
    return Setting(word=word, where=frozenset(where.split()), says=says, many=many)


SETTINGS: Final[dict[str, Setting]] = {
    setting.word: setting
    for setting in (
        _s("title", "header", "words"),
        _s("subtitle", "header", "words"),
        _s("author", "header", "words"),
        _s("instrument", "header", "a named instrument such as guitar"),
        _s("tuning", "header run riff chords", "a named tuning, or pitches from the lowest string: E2 A2 D3 G3 B3 E4"),
        _s("fretting", "header run riff chords", "chromatic, diatonic or diatonic+, or for each fret the half steps above the open string: 2 4 5 7 9 10 12, or 0.5 1 1.5"),
        _s("capo", "header run riff chords", "a fret from 0 to 12, or a fret and the strings it lies on: 2 on 5 4 3"),
        _s("hand", "header", "the hand that picks: right or left"),
        _s("scale", "header run riff chords", 'a root and a scale such as Bb2 lydian, or one\'s own: D3 "Kiln" steps W W H W W W H'),
        _s("meter", "header run riff chords", "a meter such as 4/4 or 3+2+2/8"),
        _s("tempo", "header run riff chords", 'beats a minute: 96, q.=60 or "Slowly" q=60'),
        _s("pickup", "header run riff chords", "a duration such as q or e+s"),
        _s("player", "header run riff chords", "who plays: usual, beginner, small hand, classical or lead"),
        _s("fingering", "header run riff chords", "show or hide"),
        _s("strokes", "header run riff", "how the pick goes where no row says: alternate, economy, legato, or written for what is written alone"),
        _s("swing", "header run riff chords", "e or s, with a ratio if need be (e 3:2), or off"),
        _s("drone", "header run riff chords", "degrees that sound below, with held or every and a duration: 1, 1+5 every h; or off"),
        _s("vamp", "header run riff chords", "advised, or chords begun again until the block ends: I*2 II I | vii I, perhaps every and a duration; or off"),
        _s("backing", "header run riff chords", "whether the drone and the vamp are printed: show or hide"),
        _s("click", "header run riff chords", "whether the beats are clicked: on or off"),
        _s("count-in", "header run riff chords", "bars that are counted before it is played, 0 to 8"),
        _s("allow", "header run riff chords", "codes of advice that is not wanted: A541 A543"),
        _s("keys", "header", "roots such as F A, or fifths, fourths or chromatic"),
        _s("text", "header run riff chords", "words", many=True),
        _s("layout", "run", "a place on the neck: 3 per string from string 6, diagonal from string 6, position 5, shape E, string 4, open or free"),
        _s("path", "run", "directions: up, down, or up, down"),
        _s("order", "run", "steps of a melodic sequence: 1 3"),
        _s("tones", "run", "degrees: 1 3 4 5"),
        _s("from", "run", "a degree"),
        _s("to", "run", "a degree"),
        _s("octaves", "run", "a number of octaves"),
        _s("rhythm", "run", "durations: e, or 3(e e e)"),
        _s("marks", "run", "techniques, begun again until the line ends"),
        _s("fingers", "run", "fingers, begun again until the line ends"),
        _s("picks", "run", "strokes, begun again until the line ends"),
        _s("finish", "run", "hold or rest"),
        _s("voicing", "chords", "a kind such as open, barre, triads or drop 2, perhaps its strings and inversion: triads on 3 2 1 first inversion"),
        _s("diagrams", "chords", "show or hide"),
    )
}
"""In canonical order."""

BLOCKS: Final = {"run": "run", "riff": "riff", "chords": "chord block", "text": "text"}
"""Kinds of blocks, and what a message calls one."""

VOICINGS: Final = ("open", "barre", "shell", "triads", "drop 2", "drop 3", "spread", "power", "free")
"""Kinds of voicings of a chord block."""

INVERSIONS: Final = ("root position", "first inversion", "second inversion", "third inversion")
"""How an inversion is written behind a voicing, by its number."""

BAR_LINE_TEXT: Final = r"(?::\|(?:\*[1-9][0-9]{0,2})?:?|\|\||\|:|\|)(?:\[[1-9](?:,[1-9])*)?"
"""``|``, ``||``, ``|:``, ``:|``, ``:|*3``, ``:|:``, each with an ending ``[1`` or ``[1,2``."""

OPEN_TEXT: Final = rf"(?:{TUPLET_TEXT})?\("
CLOSE_TEXT: Final = rf"\)(?:{REPEAT_TEXT})?"


END: Final = r"$(?!\n)"
"""The end of the text. A bare ``$`` would let Python, and Python alone, pass over one last line break."""


POISON: Final = "?"
"""What the parser leaves where a cell could not be read, and alone in a bar where the whole bar could not: its error has been
reported, so later stages pass over it in silence. The schema knows no such cell: a document that holds one is not valid."""


@cache
def cell_regex(word: str) -> re.Pattern[str]:
    """One cell of a row, with its repeat count where the row takes one."""
    row = ROWS[word]
    return re.compile(rf"(?:{row.cell})" if row.plain or row.per_bar else rf"(?:{row.cell})(?:{REPEAT_TEXT})?")


@cache
def bar_pattern(word: str) -> str:
    """A whole bar of a row as it stands in the document: cells and groups with single spaces; empty, or ``%``.

    An anchored pattern that Python's ``re`` and JSON Schema read alike (see ``END``). Whether parentheses match
    is not its business. Every cell can be read in one way only, so matching is linear.
    """
    row = ROWS[word]
    if row.per_bar:
        return rf"^(?:{row.cell}){END}"
    cell = f"(?:{row.cell})"
    if row.plain:
        return rf"^(?:{cell}(?: (?!$)|$))*{END}"
    opening = rf"(?:(?:{TUPLET_TEXT})?\()*" if word == "rhythm" else r"\(*"
    return rf"^(?:%|(?:{opening}{cell}(?:{REPEAT_TEXT})?(?:\)(?:{REPEAT_TEXT})?)*(?: (?!$)|$))*){END}"


_TOKEN: Final = re.compile(rf"{OPEN_TEXT}|{CLOSE_TEXT}|[^\s()]+")
_SOLID: Final = re.compile(r"\S+")
_WORD: Final = re.compile(rf"{QUOTED_TEXT}|\S+")


def tokens(bar: str, plain: bool = False) -> list[str]:
    """A document's bar as its tokens: cells, openings such as ``3:2(`` and closings such as ``)*2``, in order."""
    if plain:
        return _WORD.findall(bar)
    if "(" in bar or ")" in bar:
        return _TOKEN.findall(bar)
    return bar.split()


def token_starts(text: str, start: int, end: int, plain: bool = False) -> array[int]:
    """The offsets of the tokens of ``text[start:end]``, a bar as it was written: one for each of ``tokens``."""
    pattern = _WORD if plain else _TOKEN if "(" in text[start:end] else _SOLID
    return array("I", [found.start() for found in pattern.finditer(text, start, end)])


def joined(parts: list[str]) -> str:
    """Tokens as a document's bar: the reverse of ``tokens``."""
    text = ""
    for part in parts:
        if text and not text.endswith("(") and not part.startswith(")"):
            text += " "
        text += part
    return text
