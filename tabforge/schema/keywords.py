"""The keywords of JSON Schema 2020-12 that are compiled: each makes a function from its value.

Section numbers are those of JSON Schema Core (C) and Validation (V), draft 2020-12.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import Any, Final

from tabforge.schema.values import TYPES, Check, is_number, key, repeated

Part = Callable[[Any], Check]
"""Compiles a subschema."""


class Unsupported(Exception):  # noqa: N818  # no error: the other validator serves
    """The schema uses a keyword, or a form of one, that is not compiled."""


def always(value: Any) -> bool:
    """The schema ``true``."""
    return True


def never(value: Any) -> bool:
    """The schema ``false``."""
    return False


def both(checks: list[Check]) -> Check:
    """One function for several: C 10.2.1.1, allOf."""
    if len(checks) == 1:
        return checks[0]
    if len(checks) == 2:
        first, second = checks
        return lambda value: first(value) and second(value)

    def every(value: Any) -> bool:
        for check in checks:  # noqa: SIM110  # a generator costs as much as the checks do
            if not check(value):
                return False
        return True

    return every if checks else always


@cache
def searcher(pattern: str) -> Callable[[str], object]:
    """A pattern's search, compiled when first asked for: most documents use few of a schema's patterns."""
    return re.compile(pattern).search


def _type(schema: dict[str, Any], part: Part) -> Check:  # V 6.1.1
    named = schema["type"]
    if isinstance(named, str):
        return TYPES[named]
    checks = [TYPES[each] for each in named]
    return lambda value: any(check(value) for check in checks)


def _enum(schema: dict[str, Any], part: Part) -> Check:  # V 6.1.2
    return _among(schema["enum"])


def _const(schema: dict[str, Any], part: Part) -> Check:  # V 6.1.3
    return _among([schema["const"]])


def _among(values: list[Any]) -> Check:
    keys = frozenset(map(key, values))
    if all(isinstance(each, str) for each in values):
        return lambda value: isinstance(value, str) and value in keys
    if not any(isinstance(each, list | dict) for each in values):
        return lambda value: not isinstance(value, list | dict) and key(value) in keys
    return lambda value: key(value) in keys


def _size(low: str, high: str, kind: type[str] | type[list[Any]]) -> Callable[[dict[str, Any], Part], Check]:
    def make(schema: dict[str, Any], part: Part) -> Check:
        least, most = schema.get(low, 0), schema.get(high, float("inf"))
        return lambda value: not isinstance(value, kind) or least <= len(value) <= most

    return make


def _pattern(schema: dict[str, Any], part: Part) -> Check:  # V 6.3.3
    pattern = schema["pattern"]
    return lambda value: not isinstance(value, str) or searcher(pattern)(value) is not None


def _range(schema: dict[str, Any], part: Part) -> Check:  # V 6.2.2, 6.2.4
    least, most = schema.get("minimum", float("-inf")), schema.get("maximum", float("inf"))
    return lambda value: not is_number(value) or least <= value <= most


def _unique(schema: dict[str, Any], part: Part) -> Check:  # V 6.4.3
    return (lambda value: not isinstance(value, list) or not repeated(value)) if schema["uniqueItems"] else always


def _required(schema: dict[str, Any], part: Part) -> Check:  # V 6.5.3
    wanted = frozenset(schema["required"])
    return lambda value: not isinstance(value, dict) or wanted <= value.keys()


def _members(schema: dict[str, Any], part: Part) -> Check:  # C 10.3.2.1, 10.3.2.3
    known = {name: part(each) for name, each in schema.get("properties", {}).items()}
    other = part(schema.get("additionalProperties", True))

    def check(value: Any) -> bool:
        if not isinstance(value, dict):
            return True
        for name, each in value.items():  # noqa: SIM110  # as above
            if not known.get(name, other)(each):
                return False
        return True

    return check


def _names(schema: dict[str, Any], part: Part) -> Check:  # C 10.3.2.4
    check = part(schema["propertyNames"])
    return lambda value: not isinstance(value, dict) or all(map(check, value))


def _items(schema: dict[str, Any], part: Part) -> Check:  # C 10.3.1.2
    check = part(schema["items"])

    def every(value: Any) -> bool:
        if not isinstance(value, list):
            return True
        if set(map(type, value)) == {str}:
            value = set(value)  # equal texts fare alike, and the bars of a row often are
        return all(map(check, value))

    return every


def _all_of(schema: dict[str, Any], part: Part) -> Check:  # C 10.2.1.1
    return both([part(each) for each in schema["allOf"]])


def _any_of(schema: dict[str, Any], part: Part) -> Check:  # C 10.2.1.2
    checks = [part(each) for each in schema["anyOf"]]
    return lambda value: any(check(value) for check in checks)


def _one_of(schema: dict[str, Any], part: Part) -> Check:  # C 10.2.1.3
    checks = [part(each) for each in schema["oneOf"]]
    return lambda value: sum(check(value) for check in checks) == 1


def _not(schema: dict[str, Any], part: Part) -> Check:  # C 10.2.1.4
    check = part(schema["not"])
    return lambda value: not check(value)


def _if(schema: dict[str, Any], part: Part) -> Check:  # C 10.2.2
    condition = part(schema["if"])
    then, otherwise = part(schema.get("then", True)), part(schema.get("else", True))
    return lambda value: then(value) if condition(value) else otherwise(value)


_LENGTH: Final = _size("minLength", "maxLength", str)  # V 6.3.1, 6.3.2: in characters
_COUNT: Final = _size("minItems", "maxItems", list)  # V 6.4.1, 6.4.2

MAKERS: Final[dict[tuple[str, ...], Callable[[dict[str, Any], Part], Check]]] = {
    ("type",): _type,
    ("const",): _const,
    ("enum",): _enum,
    ("minLength", "maxLength"): _LENGTH,
    ("minItems", "maxItems"): _COUNT,
    ("minimum", "maximum"): _range,
    ("pattern",): _pattern,
    ("required",): _required,
    ("uniqueItems",): _unique,
    ("propertyNames",): _names,
    ("properties", "additionalProperties"): _members,
    ("items",): _items,
    ("not",): _not,
    ("allOf",): _all_of,
    ("anyOf",): _any_of,
    ("oneOf",): _one_of,
    ("if",): _if,
}
"""Keywords that are compiled together → what makes their function. In the order they are asked: sizes before what is dear."""

COMPILED: Final = frozenset(word for words in MAKERS for word in words) | {"then", "else", "$ref"}
"""Keywords that decide."""

ANNOTATIONS: Final = frozenset({"$schema", "$id", "$defs", "title", "description", "examples"})
"""Keywords that decide nothing."""
