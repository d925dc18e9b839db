"""Writing files so that there is never half a file, whatever happens meanwhile."""

from __future__ import annotations

import os
from contextlib import suppress
from errno import ENOTDIR
from pathlib import Path


def same(path: Path, data: bytes) -> bool | None:
    """Whether a file holds these bytes; None if there is no such file. Raises OSError if it cannot be read."""
    try:
        if path.stat().st_size != len(data):
            return False
        return path.read_bytes() == data
    except FileNotFoundError:
        return None


def write(path: Path, data: bytes) -> None:
    """Write a file beside its place and move it there in one step. Folders are made as needed. A pipe or a device is written into.

    An existing file keeps its permissions, and a link to it stays a link. Raises OSError; then, and when the program is stopped, the
    old file is untouched and no other is left behind.
    """
    if path.exists() and not path.is_file() and not path.is_dir():
        with path.open("wb") as file:
            file.write(data)
        return
    path = Path(os.path.realpath(path))
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".tabforge-{os.getpid()}.part")
    try:
        with beside.open("wb") as file:
            file.write(data)
        with suppress(FileNotFoundError):
            beside.chmod(path.stat().st_mode & 0o7777)
        beside.replace(path)
    except BaseException:
        with suppress(OSError):
            beside.unlink()
        raise


def create(path: Path, data: bytes) -> None:
    """Write a file that does not exist yet. Raises FileExistsError if it does, and OSError."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except FileExistsError as error:
        raise NotADirectoryError(ENOTDIR, os.strerror(ENOTDIR), str(path.parent)) from error
    with path.open("xb") as file:
        try:
            file.write(data)
        except BaseException:
            path.unlink()
            raise
