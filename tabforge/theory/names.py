"""How a name written by a person is compared with the names of a table: case, hyphens and spelled-out accidentals aside."""

from __future__ import annotations

import re
from functools import cache
from typing import Final

_SIGNS: Final = str.maketrans({"♯": "#", "♭": "b", "♮": " natural ", "’": "'", "–": "-"})
_GAPS: Final = re.compile(r"[-_\s/,]+")
_DOUBLE: Final = re.compile(r"\bdouble (sharp|flat) ?(?=\d)")
_WORD: Final = re.compile(r"\b(sharp|flat) ?(?=\d)")
_NATURAL: Final = re.compile(r"\b(?:natural|nat\.?|n) ?(?=\d)")
_LOOSE: Final = re.compile(r"(?<![a-z#])(#{1,2}|b{1,2}) (?=\d)")
_CLOSE: Final = re.compile(r"(?<=[a-z0-9])(?=#+\d)|(?<=\d)(?=b+\d)")
_LETTER: Final = re.compile(r"\b([a-g]) (sharp|flat)\b")
_COUNT: Final = re.compile(r"\b(\d+) (?=strings?\b)")
_COUNTS: Final = {"3": "three ", "4": "four ", "5": "five ", "6": "six ", "7": "seven ", "8": "eight ", "12": "twelve "}
_SIGN: Final = {"sharp": "#", "flat": "b"}


@cache
def fold(name: str) -> str:
    """The form in which two spellings of one name are equal.

    Letter case goes; hyphens, underscores, slashes and runs of spaces become one space; ``sharp 5``, ``# 5`` and ``♯5`` become
    ``#5`` (flats likewise, also doubled), ``nat 6``, ``n6`` and ``♮6`` become ``natural 6``, ``c sharp`` becomes ``c#``, and
    ``7 string`` becomes ``seven string``.
    """
    text = _GAPS.sub(" ", name.translate(_SIGNS).casefold()).strip()
    text = _DOUBLE.sub(lambda found: _SIGN[found[1]] * 2, text)
    text = _WORD.sub(lambda found: _SIGN[found[1]], text)
    text = _NATURAL.sub("natural ", text)
    text = _LOOSE.sub(r"\1", text)
    text = _CLOSE.sub(" ", text)
    text = _COUNT.sub(lambda found: _COUNTS.get(found[1], found[0]), text)
    return _LETTER.sub(lambda found: found[1] + _SIGN[found[2]], text)


def without_last_word(folded: str, *words: str) -> str:
    """A folded name without a last word that says only what kind of thing it is: ``dorian mode`` → ``dorian``."""
    head, _, last = folded.rpartition(" ")
    return head if head and last in words else folded
