"""JSON values as JSON Schema 2020-12 sees them: their types, and when two of them are equal."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, Final

Check = Callable[[Any], bool]
"""Whether a JSON value is valid."""


def is_number(value: Any) -> bool:
    """An integer or a float; true and false are no numbers."""
    return isinstance(value, int | float) and not isinstance(value, bool)


def _is_integer(value: Any) -> bool:
    # 2.0 is an integer (Validation 2020-12, 6.1.1)
    return is_number(value) and (isinstance(value, int) or value.is_integer())


TYPES: Final[dict[str, Check]] = {
    "object": lambda value: isinstance(value, dict),
    "array": lambda value: isinstance(value, list),
    "string": lambda value: isinstance(value, str),
    "number": is_number,
    "integer": _is_integer,
    "boolean": lambda value: isinstance(value, bool),
    "null": lambda value: value is None,
}
"""A type's name → whether a value has it."""


def key(value: Any) -> object:
    """Something hashable, equal for equal JSON values and for no others: 1 and 1.0 are one value, 1 and true are two (Core, 4.2.2)."""
    if isinstance(value, bool) or value is None:
        return (str(value),)
    if isinstance(value, list):
        return ("[", *map(key, value))
    if isinstance(value, dict):
        return ("{", frozenset((name, key(each)) for name, each in value.items()))
    return value


def repeated(values: Iterable[Any]) -> Any:
    """The first value that stands for the second time, in a list of one; an empty list if there is none. Linear in the values' size."""
    seen: set[object] = set()
    for value in values:
        known = key(value)
        if known in seen:
            return [value]
        seen.add(known)
    return []
