"""A finding of the guard, and the errors of ``jsonschema`` it is made from."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tabforge.diagnostics import Code
from tabforge.schema.naming import Named
from tabforge.syntax.origins import Pointer

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError

Tell = Callable[["dict[str, Any]", "ValidationError", Named, Pointer], Iterator["Finding"]]
"""Says what an error means: the whole schema, the error, what its place is called, and its place in the document."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """A diagnostic without its place in the source. ``pointer`` is its place in the document.

    ``key``: it is about the name of the last step rather than about its value. ``token`` is the number of the bar's token it is
    about, ``length`` that token's.
    """

    code: Code
    headline: str
    pointer: Pointer
    key: bool = False
    token: int | None = None
    length: int = 0
    expected: str | None = None
    suggestion: str | None = None
    help: str | None = None


def objects(error: ValidationError) -> tuple[dict[str, Any], Any]:
    """The schema the error's keyword stands in, and what fails it: for a keyword that only objects can fail, an object."""
    parent: Any = error.schema
    return parent, error.instance
