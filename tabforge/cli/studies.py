"""Finding the studies that the command line names, and reading them."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path, PurePath
from typing import Final

from tabforge.cli.screen import reason
from tabforge.diagnostics.render_excerpt import visible
from tabforge.limits import MAX_SOURCE_BYTES
from tabforge.readers import SUFFIXES

STDIN: Final = "-"

_SAYS_STUDY: Final = re.compile(rb'"study"\s*:')


@dataclass(frozen=True, slots=True, kw_only=True)
class Study:
    """A study to be read. ``name`` is what the user is shown.

    ``inside`` is its place under the folder that was named, without suffix: where its exports go under the folder they are written to.
    """

    path: Path
    name: str
    inside: PurePath

    @classmethod
    def stdin(cls) -> Study:
        """Standard input as a study; its exports are called ``study``."""
        return cls(path=Path(STDIN), name="<stdin>", inside=PurePath("study"))


def shown(path: PurePath) -> str:
    """A path as the user is told it."""
    return visible(path.as_posix())


def read_bytes(path: Path) -> bytes:
    """A file's bytes, but no more than one over the limit on a study. Raises OSError."""
    with path.open("rb") as file:
        return file.read(MAX_SOURCE_BYTES + 1)


def read_stdin() -> bytes:
    """Standard input, likewise."""
    return sys.stdin.buffer.read(MAX_SOURCE_BYTES + 1)


def _is_study(path: Path) -> bool:
    """Whether a file found in a folder is a study: every .riff is, a .json if it says so."""
    if path.suffix.lower() != ".json":
        return True
    try:
        return bool(_SAYS_STUDY.search(read_bytes(path)))
    except OSError:
        return True  # reading it again will tell what is wrong with it


@dataclass(slots=True)
class Search:
    """What was found, in the order of the arguments and then by name, and what could not be looked at."""

    studies: list[Study] = field(default_factory=list)
    troubles: list[str] = field(default_factory=list)
    seen: set[str] = field(default_factory=set)

    def add(self, path: Path, inside: PurePath) -> None:
        """Add a study, unless it is there already under this name or another."""
        real = os.path.realpath(path)
        if real not in self.seen:
            self.seen.add(real)
            self.studies.append(Study(path=path, name=path.as_posix(), inside=inside))

    def walk(self, root: Path, suffixes: Sequence[str], skipped: str | None) -> Iterator[Path]:
        """The studies of a folder and all folders in it, hidden ones left out."""

        def unreadable(error: OSError) -> None:
            self.troubles.append(f"{visible(str(error.filename))}: this folder cannot be read: {reason(error)}.")

        for folder, folders, files in os.walk(root, onerror=unreadable):
            folders[:] = sorted(
                name for name in folders if not name.startswith(".") and os.path.realpath(Path(folder, name)) != skipped
            )
            for name in sorted(files):
                path = Path(folder, name)
                if not name.startswith(".") and path.suffix.lower() in suffixes and _is_study(path):
                    yield path


def find(paths: Iterable[str], skipped: Path | None = None, suffixes: Sequence[str] = tuple(SUFFIXES)) -> Search:
    """The studies that files and folders hold, each once. The folder ``skipped`` is left out where it lies in another."""
    search = Search()
    leave_out = os.path.realpath(skipped) if skipped else None
    for given in paths:
        root = Path(given)
        if given and root.is_dir():
            before = len(search.troubles)
            found = list(search.walk(root, suffixes, leave_out))
            for path in found:
                search.add(path, path.relative_to(root).with_suffix(""))
            if not found and len(search.troubles) == before:
                kinds = 'a file *.riff, or a *.json that says "study"' if ".json" in suffixes else "a file *.riff"
                search.troubles.append(f"{shown(root)}: there are no studies in this folder. A study is {kinds}.")
        elif not given or not os.path.lexists(root):
            search.troubles.append(f"{shown(root) if given else repr(given)}: there is no such file or folder.")
        elif root.suffix.lower() == ".json" and ".json" not in suffixes:
            search.troubles.append(f"{shown(root)}: only *.riff files are laid out.")
        else:
            search.add(root, PurePath(root.stem))
    return search
