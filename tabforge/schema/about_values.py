"""What the failure of a keyword about one value means."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, Final

from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import document as codes
from tabforge.schema.alternatives import choices
from tabforge.schema.finding import Finding, Tell
from tabforge.schema.naming import KINDS, Named, kind, listed, shown
from tabforge.schema.values import repeated
from tabforge.syntax.grammar import UNSEEN_TEXT
from tabforge.syntax.origins import Pointer

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError

_NUMBER: Final = re.compile(r"-?[0-9]{1,9}(?:\.[0-9]{1,9})?")
_UNSEEN: Final = re.compile(rf"[\r\n{UNSEEN_TEXT}]")


def _type(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    value: Any = error.validator_value
    yield _wrong_kind(listed([KINDS[each] for each in ([value] if isinstance(value, str) else value)]), error, place, pointer)


def _any_of(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    branches: Any = error.validator_value
    wanted = dict.fromkeys(KINDS[branch["type"]] if "type" in branch else _offered(branch) for branch in branches)
    yield _wrong_kind(listed(list(wanted)), error, place, pointer)


def _offered(branch: dict[str, Any]) -> str:
    return shown(branch["const"]) if "const" in branch else kind(branch["enum"][0])


def _wrong_kind(wanted: str, error: ValidationError, place: Named, pointer: Pointer) -> Finding:
    given: Any = error.instance
    number = any(KINDS[each] in wanted for each in ("integer", "number")) and isinstance(given, str) and _NUMBER.fullmatch(given)
    return Finding(
        code=codes.WRONG_KIND,
        headline=f"the {place.title} must be {wanted}, not {kind(given)}",
        pointer=pointer,
        expected=place.description,
        suggestion=given if number else None,
    )


def _choice(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    values = choices(error)
    given: Any = error.instance
    only = len(values) == 1
    yield Finding(
        code=codes.NO_SUCH_CHOICE,
        headline=f"the {place.title} must be {shown(values[0])}, not {shown(given)}" if only else f"{shown(given)} is not {place.one}",
        pointer=pointer,
        expected=listed([str(value) for value in values]) if not only else place.description,
        suggestion=nearest(given, [value for value in values if isinstance(value, str)]) if isinstance(given, str) else None,
    )


def _pattern(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    text = str(error.instance)
    unseen = _UNSEEN.search(text)
    if unseen:
        headline = f"the {place.title} has a character that cannot be seen (U+{ord(unseen[0]):04X})"
        if unseen[0] in "\r\n":
            headline = f"the {place.title} goes over more than one line"
        yield Finding(code=codes.MISWRITTEN, headline=headline, pointer=pointer, expected=place.description)
    else:
        yield miswritten(text, place, pointer)


def miswritten(text: str, place: Named, pointer: Pointer, key: bool = False) -> Finding:
    """A text, or a key, that does not match its pattern."""
    return Finding(
        code=codes.MISWRITTEN,
        headline=f"{shown(text)} is not {place.one}",
        pointer=pointer,
        key=key,
        expected=place.description,
        suggestion=nearest(text, place.examples),
    )


def _range(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    bounds, given = _bounds(error, "minimum", "maximum"), shown(error.instance)
    yield Finding(
        code=codes.OUT_OF_RANGE,
        headline=f"the {place.title} must be {bounds}, not {given}",
        pointer=pointer,
        expected=place.description,
    )


def _length(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    given: Any = error.instance
    if isinstance(given, str):
        unit, bounds = "characters", _bounds(error, "minLength", "maxLength")
    else:
        unit, bounds = "entries", _bounds(error, "minItems", "maxItems")
    headline = f"the {place.title} must not be empty" if not given else f"the {place.title} must have {bounds} {unit}, not {len(given):,}"
    yield Finding(code=codes.WRONG_LENGTH, headline=headline, pointer=pointer, expected=place.description)


def _bounds(error: ValidationError, low: str, high: str) -> str:
    parent: Any = error.schema
    least, most = parent.get(low), parent.get(high)
    if least is not None and most is not None:
        return f"exactly {least:,}" if least == most else f"from {least:,} to {most:,}"
    return f"at most {most:,}" if least is None else f"at least {least:,}"


def _twice(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    values: Any = error.instance
    again = repeated(values)[0]
    at = max(index for index, value in enumerate(values) if value == again)
    yield Finding(code=codes.TWICE, headline=f"the {place.title} have {shown(again)} twice", pointer=(*pointer, at))


ABOUT_VALUES: Final[dict[str, Tell]] = {
    "type": _type,
    "anyOf": _any_of,
    "enum": _choice,
    "const": _choice,
    "pattern": _pattern,
    "minimum": _range,
    "maximum": _range,
    "minLength": _length,
    "maxLength": _length,
    "minItems": _length,
    "maxItems": _length,
    "uniqueItems": _twice,
}
"""A keyword → what its failure means. ``anyOf`` stands for values of several kinds."""
