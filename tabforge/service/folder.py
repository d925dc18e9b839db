"""The watched folder: which studies it has, and what they say. It is only read, and nothing outside it is.

A study is known by an opaque id; what a request names is looked up among the ids, and never made into a path. A link is followed if it
leads to a file inside. Files are opened step by step from the folder itself, no step being a link, so that nothing can be put in its way
between the look and the opening.
"""

from __future__ import annotations

import hashlib
import os
import re
import stat
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Final

from tabforge.limits import MAX_SOURCE_BYTES
from tabforge.readers import SUFFIXES
from tabforge.service.settings import MAX_STUDIES

_SAYS_STUDY: Final = re.compile(rb'"study"\s*:')
_FLAGS: Final = os.O_RDONLY | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
_BY_STEPS: Final = os.open in os.supports_dir_fd


@dataclass(frozen=True, slots=True)
class Watched:
    """A study of the folder. ``name`` is its path in the folder, as it is shown; ``revision`` is another with other bytes.

    ``inside`` is the same path as the system has it, ``stamp`` what tells without reading that it has changed.
    """

    id: str
    name: str
    revision: str
    size: int
    inside: PurePosixPath
    stamp: tuple[int, ...]

    def told(self) -> dict[str, object]:
        """It as it is listed."""
        return {"id": self.id, "name": self.name, "revision": self.revision, "bytes": self.size}


class Folder:
    """The folder itself. Raises OSError if it is not there."""

    def __init__(self, root: Path) -> None:
        self.root = Path(os.path.realpath(root))
        if not self.root.is_dir():
            raise NotADirectoryError(20, "not a folder", str(root))

    def scan(self, before: dict[str, Watched]) -> dict[str, Watched]:
        """All studies by id, in the order of their names. What has the stamp it had ``before`` is not read again."""
        found: dict[str, Watched] = {}
        for inside in self._names():
            made = self._look(inside, before)
            if made is not None:
                found[made.id] = made
                if len(found) == MAX_STUDIES:
                    break
        return found

    def _names(self) -> list[PurePosixPath]:
        names: list[PurePosixPath] = []
        for folder, folders, files in os.walk(self.root):  # links to folders are not walked into
            folders[:] = sorted(name for name in folders if not name.startswith("."))
            for name in sorted(files):
                if not name.startswith(".") and Path(name).suffix.lower() in SUFFIXES:
                    names.append(PurePosixPath(Path(folder, name).relative_to(self.root).as_posix()))
        return sorted(names)

    def _look(self, inside: PurePosixPath, before: dict[str, Watched]) -> Watched | None:
        known = hashlib.sha256(str(inside).encode("utf-8", "surrogateescape")).hexdigest()[:20]
        old = before.get(known)
        try:
            opened = self._open(inside)
        except (OSError, ValueError):
            return None
        with os.fdopen(opened, "rb") as file:
            about = os.fstat(opened)
            stamp = (about.st_ino, about.st_mtime_ns, about.st_ctime_ns, about.st_size)
            if not stat.S_ISREG(about.st_mode):
                return None
            if old is not None and old.stamp == stamp:
                return old
            data = file.read(MAX_SOURCE_BYTES + 1)
        if inside.suffix.lower() == ".json" and not _SAYS_STUDY.search(data):
            return None
        name = str(inside).encode("utf-8", "surrogateescape").decode("utf-8", "replace")
        return Watched(known, name, hashlib.sha256(data).hexdigest()[:20], len(data), inside, stamp)

    def read(self, study: Watched) -> bytes | None:
        """What a study of the listing says now, no more than one byte over the limit; None if it is gone."""
        try:
            opened = self._open(study.inside)
        except (OSError, ValueError):
            return None
        with os.fdopen(opened, "rb") as file:
            return file.read(MAX_SOURCE_BYTES + 1) if stat.S_ISREG(os.fstat(opened).st_mode) else None

    def _open(self, inside: PurePosixPath) -> int:
        """A file of the folder, opened. Raises OSError, also if it lies outside."""
        real = Path(os.path.realpath(self.root / inside))
        steps = real.relative_to(self.root).parts  # ValueError: it leads out
        if not _BY_STEPS:
            return os.open(real, _FLAGS)
        at = os.open(self.root, os.O_RDONLY)
        try:
            for step in steps[:-1]:
                below = os.open(step, _FLAGS | getattr(os, "O_DIRECTORY", 0), dir_fd=at)
                os.close(at)
                at = below
            return os.open(steps[-1], _FLAGS, dir_fd=at)
        finally:
            os.close(at)
