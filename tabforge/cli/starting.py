"""What a new study is called."""

from __future__ import annotations

import re
from pathlib import Path


def study_path(name: str) -> Path | None:
    """The file for a name that was given with or without its suffix; None for a name that is none."""
    path = Path(name)
    if path.name in ("", "..") or not path.name.isprintable():
        return None
    return path if path.suffix == ".riff" else path.with_name(path.name + ".riff")


def study_title(path: Path, title: str | None = None) -> str:
    """A title on one line: the one given, or the file's name in words (``lantern-bay.riff``: Lantern Bay)."""
    if title is not None:
        return " ".join(title.split())
    words = re.sub(r"[-_.]+", " ", path.stem).split()
    return " ".join(word[:1].upper() + word[1:] for word in words)


def can_be_title(title: str) -> bool:
    """Whether the language can hold this title: something that can be seen, and no comment in it."""
    return bool(title) and title.isprintable() and not re.search(r"(?:^| )//", title)
