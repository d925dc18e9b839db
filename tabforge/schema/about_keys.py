"""What the failure of a keyword about an object's keys means."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, Final

from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import document as codes
from tabforge.schema.finding import Finding, Tell, objects
from tabforge.schema.naming import Named, listed, named, owners, shown
from tabforge.syntax.origins import Pointer

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError


def _unknown(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    parent, given = objects(error)
    known = list(parent["properties"])
    for key in given:
        if key in known:
            continue
        elsewhere = owners(schema, key)
        yield Finding(
            code=codes.UNKNOWN_KEY,
            headline=f"{place.one} has no {shown(key)}",
            pointer=(*pointer, key),
            key=True,
            expected=listed(known),
            suggestion=nearest(key, [word for word in known if word not in given]),
            help=f"{shown(key)} belongs to {listed(elsewhere, 'and')}" if elsewhere else None,
        )


def _missing(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    parent, given = objects(error)
    for key in parent["required"]:
        if key in given:
            continue
        said = None
        if key in parent.get("properties", {}):
            said = named(schema, [*list(error.absolute_schema_path)[:-1], "properties", key]).description
        expected = f"{shown(key)}: {said}" if said else None
        yield Finding(code=codes.MISSING_KEY, headline=f"{place.one} needs {shown(key)}", pointer=pointer, expected=expected)


def _excluded(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    yield _both(objects(error)[0]["not"]["required"], place, pointer)


def _one_of(schema: dict[str, Any], error: ValidationError, place: Named, pointer: Pointer) -> Iterator[Finding]:
    parent, given = objects(error)
    branches = parent["oneOf"]
    if not isinstance(given, dict):
        return  # its kind is wrong, and told as such
    if error.context:
        keys = [key for branch in branches for key in branch["required"]]
        headline = f"{place.one} needs one of {listed([shown(key) for key in keys], 'and')}"
        yield Finding(code=codes.MISSING_KEY, headline=headline, pointer=pointer, expected=place.description)
    else:
        yield _both([key for branch in branches if "not" not in branch for key in branch["required"] if key in given], place, pointer)


def _both(keys: list[str], place: Named, pointer: Pointer) -> Finding:
    return Finding(
        code=codes.ONE_OR_THE_OTHER,
        headline=f"{place.one} cannot have {listed([shown(key) for key in keys], 'and')} together",
        pointer=(*pointer, keys[-1]),
        key=True,
        help="keep one of them",
    )


ABOUT_KEYS: Final[dict[str, Tell]] = {
    "additionalProperties": _unknown,
    "required": _missing,
    "not": _excluded,
    "oneOf": _one_of,
}
"""A keyword → what its failure means. ``not`` and ``oneOf`` stand for keys that exclude each other."""
