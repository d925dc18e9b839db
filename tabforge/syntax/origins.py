"""Where each value of a document stands in the source it was read from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol, runtime_checkable

from tabforge.source import Span

Pointer = tuple[str | int, ...]
"""A JSON pointer (RFC 6901) as its steps: ``("blocks", 0, "systems", 1, "degrees", 2)``."""


class Origins(Protocol):
    """The places of a document's values. Asked for a value without a place of its own, it gives its nearest ancestor's."""

    def span(self, pointer: Pointer) -> Span:
        """The place of a value; for a bar of a row, from its first cell to its last."""

    def starts(self, pointer: Pointer) -> Sequence[int]:
        """The offsets of a bar's tokens (see ``grammar.tokens``) in order, one for each; empty if they are not known."""


@runtime_checkable
class KeyOrigins(Protocol):
    """Origins of a source in which the keys of objects have places of their own."""

    def key(self, pointer: Pointer) -> Span:
        """The place of the key that is the last step of ``pointer``."""


def written(pointer: Pointer) -> str:
    """A pointer in RFC 6901's writing: ``/blocks/0``; the whole document is the empty text."""
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in pointer)
