"""The typesetter's language, as far as it is written here: calls of functions with values.

Words never stand in markup: each is a literal, so that nothing anybody writes is taken for a command.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Final

_UNSEEN: Final = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")
_ESCAPES: Final = str.maketrans({"\\": "\\\\", '"': '\\"', "\n": "\\n", "\r": "\\r", "\t": "\\t"})


class Code(str):
    """An expression of the typesetter's language."""

    __slots__ = ()


Value = str | float | int | bool | None | Sequence["Value"]


def value(given: Value) -> Code:
    """A value as an expression: text as a literal, a sequence as an array, None as ``none``; Code as it is."""
    if isinstance(given, Code):
        return given
    if isinstance(given, str):
        return Code(f'"{_UNSEEN.sub("", given).translate(_ESCAPES)}"')
    if given is None or isinstance(given, bool):
        return Code({None: "none", True: "true", False: "false"}[given])
    if isinstance(given, int | float):
        return Code(f"{given:.10g}")
    return Code("(" + "".join(f"{value(each)}, " for each in given) + ")")


def call(name: str, *given: Value, **named: Value) -> Code:
    """A call of a function; underscores in the names of arguments are hyphens there."""
    shown = [value(each) for each in given]
    shown += [Code(f"{word.replace('_', '-')}: {value(each)}") for word, each in named.items()]
    return Code(f"{name}({', '.join(shown)})")


def content(pieces: Iterable[Code | str]) -> Code:
    """Expressions and plain words one after another, as content."""
    return Code("[" + "".join(f"#{value(each)};" for each in pieces) + "]")


def millimetres(length: float) -> Code:
    """A length."""
    return Code(f"{length:.3f}mm")
