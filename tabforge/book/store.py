"""Where made exercises are kept between builds: a folder beside the book, the one place of this room that touches the disk.

Each entry's name is the key of a Fingerprint, so an entry that is there is what would be made again; nothing is ever changed in place.
Everything in the folder may be deleted at any time: it is made again.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from contextlib import suppress
from pathlib import Path
from typing import Final

from tabforge.book.ledger import Ledger, from_json, to_json
from tabforge.book.model import Made
from tabforge.book.packing import unpack

HOME: Final = ".tabforge"
"""The folder beside the books; each has one of its own in it."""

_LEDGER: Final = "ledger.json"
_ENTRY: Final = ".made"


class Store:
    """The store in a folder, which need not be there. ``write`` writes a file in one step, makes its folder, and raises OSError."""

    def __init__(self, folder: Path, write: Callable[[Path, bytes], None]) -> None:
        self._folder = folder
        self._write = write

    def keys(self) -> frozenset[str]:
        """The keys of all entries, whole or damaged."""
        try:
            return frozenset(path.stem for path in self._folder.iterdir() if path.suffix == _ENTRY)
        except OSError:
            return frozenset()

    def put(self, key: str, entry: bytes) -> None:
        """Keep a packed exercise. Raises OSError."""
        self._write(self._path(key), entry)

    def get(self, key: str) -> Made | None:
        """The exercise of a key; None if there is none or it is damaged."""
        try:
            return unpack(self._path(key).read_bytes())
        except OSError:
            return None

    def ledger(self) -> Ledger:
        """What the last build wrote down; an empty ledger if it cannot be had."""
        try:
            return from_json((self._folder / _LEDGER).read_bytes())
        except OSError:
            return Ledger()

    def keep(self, ledger: Ledger) -> None:
        """Write down how things are now. Raises OSError."""
        self._write(self._folder / _LEDGER, to_json(ledger))

    def prune(self, wanted: Collection[str]) -> None:
        """Take away entries that are not wanted any more, and what a killed build left half-written."""
        names = {f"{key}{_ENTRY}" for key in wanted} | {_LEDGER}
        with suppress(OSError):
            for path in list(self._folder.iterdir()):
                if path.name not in names and path.suffix in (_ENTRY, ".part"):
                    with suppress(OSError):
                        path.unlink()

    def _path(self, key: str) -> Path:
        return self._folder / f"{key}{_ENTRY}"
