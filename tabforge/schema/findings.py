"""Errors of ``jsonschema`` as findings: what they mean to the person who wrote the document."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from tabforge.diagnostics.catalogue import document as codes
from tabforge.schema.about_keys import ABOUT_KEYS
from tabforge.schema.about_values import ABOUT_VALUES, miswritten
from tabforge.schema.bars import faults
from tabforge.schema.finding import Finding
from tabforge.schema.naming import cut, named
from tabforge.syntax.origins import Pointer

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError


def findings(schema: dict[str, Any], error: ValidationError) -> Iterator[Finding]:
    """What one error says, in document order."""
    where = list(error.absolute_schema_path)
    place = named(schema, where[:-1])
    pointer: Pointer = tuple(error.absolute_path)
    if error.validator == "pattern" and place.row and isinstance(error.instance, str):
        for fault in faults(place.row, error.instance):
            yield Finding(
                code=codes.MISWRITTEN,
                headline=fault.headline,
                pointer=pointer,
                token=fault.token,
                length=fault.length,
                expected=fault.expected,
                suggestion=fault.suggestion,
                help=fault.help,
            )
        return
    if "propertyNames" in where:
        yield miswritten(str(error.instance), place, (*pointer, str(error.instance)), key=True)
        return
    tell = (ABOUT_KEYS | ABOUT_VALUES).get(str(error.validator))
    if tell is None:
        message = f"the {place.title} does not fit its schema: {cut(error.message)}"
        yield Finding(code=codes.WRONG_KIND, headline=message, pointer=pointer, expected=place.description)
    else:
        yield from tell(schema, error, place, pointer)
