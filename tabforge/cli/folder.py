"""The folder of a book: its files by the paths a manifest names them with, and none from outside."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Final

from tabforge.book.manifest import Absent, near_file
from tabforge.cli.screen import reason
from tabforge.limits import MAX_SOURCE_BYTES

_FONTS: Final = (".ttf", ".otf", ".ttc", ".otc")
_MOST: Final = 10_000
"""Files that are looked through for one with a name like that of a missing one."""


class Folder:
    """Reads each file once. ``files`` has what was read, by path."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._real = os.path.realpath(root)
        self.files: dict[str, bytes] = {}

    def fetch(self, file: str) -> bytes | Absent:
        """A file's bytes; of a text no more than one over the limit on a study, so that it is told that it is too long."""
        if file not in self.files:
            path = self._root / file
            real = os.path.realpath(path)
            if os.path.commonpath((real, self._real)) != self._real:
                return Absent("", outside=True)
            try:
                with path.open("rb") as opened:
                    self.files[file] = opened.read(-1 if file.lower().endswith(_FONTS) else MAX_SOURCE_BYTES + 1)
            except (FileNotFoundError, NotADirectoryError):
                return Absent("there is no such file in the book's folder", near=self._near(file))
            except (OSError, ValueError) as error:  # ValueError: a name that cannot be one
                return Absent(f"it cannot be read: {reason(error)}" if isinstance(error, OSError) else "no file can be called so")
        return self.files[file]

    def _near(self, file: str) -> str | None:
        names: list[str] = []
        for folder, folders, files in os.walk(self._root):
            folders[:] = sorted(name for name in folders if not name.startswith("."))
            names += [Path(folder, name).relative_to(self._root).as_posix() for name in sorted(files) if not name.startswith(".")]
            if len(names) > _MOST:
                break
        return near_file(file, names)
