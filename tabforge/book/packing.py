"""A Made exercise as bytes and back, for the way between processes and for the store.

Bytes from a store are not trusted: only the classes a Made consists of are brought to life, whatever else they ask for, and what is cut
short or damaged is told from what is whole (zlib, RFC 1950, ends with a checksum).
"""

from __future__ import annotations

import pickle
import zlib
from io import BytesIO
from typing import Any, Final

from tabforge.book.model import Facts, Made, Part, Picture
from tabforge.pages.sheets import Sheet, System
from tabforge.source import Span

_HEAD: Final = b"tabforge made 1\n"
_PROTOCOL: Final = 5
_LEVEL: Final = 1
"""The quickest: a sixth of the size for a millisecond an exercise."""

_LARGEST: Final = 1 << 28
"""Bytes that an exercise may have, so that a few bytes do not unfold to fill the memory."""

_KNOWN: Final[dict[tuple[str, str], type]] = {
    (each.__module__, each.__qualname__): each for each in (Made, Facts, Part, Picture, Sheet, System, Span)
}


def pack(made: Made) -> bytes:
    """An exercise as bytes."""
    return _HEAD + zlib.compress(pickle.dumps(made, _PROTOCOL), _LEVEL)


def unpack(data: bytes) -> Made | None:
    """The exercise that ``pack`` made these bytes of, or None if they are damaged or were made by nobody we know."""
    if not data.startswith(_HEAD):
        return None
    unfolding = zlib.decompressobj()
    try:
        unfolded = unfolding.decompress(data[len(_HEAD) :], _LARGEST)
        if not unfolding.eof:
            return None
        made = _Reader(BytesIO(unfolded)).load()
    except Exception:  # a pickle that is none may raise anything
        return None
    return made if isinstance(made, Made) else None


class _Reader(pickle.Unpickler):
    """Reads nothing but the classes of a Made."""

    def find_class(self, module_name: str, global_name: str, /) -> Any:
        """The class of a name. Raises UnpicklingError for all others."""
        try:
            return _KNOWN[module_name, global_name]
        except KeyError:
            raise pickle.UnpicklingError(f"{module_name}.{global_name}") from None
