"""Signs of the way through a piece: jumps to signs that are not there, and signs that nothing leads to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tabforge.check.view import View
from tabforge.diagnostics.catalogue.advice import SIGN_UNUSED
from tabforge.diagnostics.catalogue.music import SIGN_MISSING
from tabforge.diagnostics.core import Code, Diagnostic
from tabforge.model.score import SIGNS
from tabforge.source import Span
from tabforge.syntax.origins import written

_NAMES: Final = {"segno": "a segno", "coda": "a coda sign", "tocoda": "“To Coda”", "fine": "“Fine”"}
_BEFORE: Final[dict[str, tuple[str, ...]]] = {
    "ds": ("segno",), "dsfine": ("segno", "fine"), "dscoda": ("segno", "tocoda"), "dcfine": ("fine",), "dccoda": ("tocoda",),
}  # fmt: skip
"""What must stand before a sign, or in its bar: what is jumped back to, and what is met on the second way."""
_AFTER: Final[dict[str, tuple[str, ...]]] = {"dscoda": ("coda",), "dccoda": ("coda",), "tocoda": ("coda",)}
"""What must stand in a later bar, to be jumped forward to."""
_JUMPS: Final = frozenset({"dc", "ds", "dcfine", "dsfine", "dccoda", "dscoda"})
_LED_TO: Final[dict[str, tuple[frozenset[str], str]]] = {
    "segno": (frozenset({"ds", "dsfine", "dscoda"}), "no D.S. leads back to it"),
    "tocoda": (_JUMPS, "no D.C. or D.S. sends the player back to come upon it again"),
    "coda": (frozenset({"tocoda", "dccoda", "dscoda"}), "no “To Coda” leads to it"),
    "fine": (_JUMPS, "no D.C. or D.S. sends the player back to stop there"),
}
"""What makes use of a sign, and what is to be said if nothing does."""


def signs_that_lead_nowhere(view: View) -> Iterator[Diagnostic]:
    """Every sign that needs another, and every sign that no other needs. A way may lead through several blocks."""
    placed = [
        (number, bar.span, sign)
        for number, bar in enumerate(bar for section in view.score.sections for bar in section.bars)
        for sign in bar.signs
    ]
    said: set[tuple[Span, str]] = set()
    for number, span, sign in placed:
        if (span, sign) not in said:
            said.add((span, sign))
            yield from _missing(view, number, span, sign, placed)


def _missing(view: View, number: int, bar: Span, sign: str, placed: Sequence[tuple[int, Span, str]]) -> Iterator[Diagnostic]:
    for needed in _BEFORE.get(sign, ()):
        if not any(other == needed and at <= number for at, _, other in placed):
            later = any(other == needed for _, _, other in placed)
            where = "stands only after it" if later else "stands before it"
            headline = f"{SIGNS[sign]} is written here, but {'' if later else 'no '}{_named(needed, not later)} {where}"
            yield _found(view, SIGN_MISSING, bar, sign, headline, f"{needed} in the signs of an earlier bar")
    for needed in _AFTER.get(sign, ()):
        if not any(other == needed and at > number for at, _, other in placed):
            headline = f"{_words(sign)} is written here, but no {_named(needed, True)} follows"
            yield _found(view, SIGN_MISSING, bar, sign, headline, f"{needed} in the signs of a later bar")
    if sign in _LED_TO:
        users, why = _LED_TO[sign]
        if not any(other in users for _, _, other in placed):
            yield _found(view, SIGN_UNUSED, bar, sign, f"{_NAMES[sign]} stands here, but {why}", None)


def _named(sign: str, bare: bool) -> str:
    return _NAMES[sign].removeprefix("a ") if bare else _NAMES[sign].replace("a ", "the ", 1)


def _words(sign: str) -> str:
    return _NAMES.get(sign, SIGNS[sign])


def _found(view: View, code: Code, bar: Span, sign: str, headline: str, expected: str | None) -> Diagnostic:
    span, pointer = view.places.sign(bar, sign)
    return Diagnostic(
        code=code, headline=headline, span=span, expected=expected, pointer=written(pointer) if pointer is not None else None
    )
