"""Where exports go: pure reckoning with paths."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from tabforge.cli.studies import Study, shown


def target(study: Study, suffix: str, into: Path) -> Path:
    """The file one export of a study is written to. ``suffix`` has its dot."""
    return into / study.inside.with_name(study.inside.name + suffix)


def clashes(studies: Sequence[Study], into: Path) -> list[str]:
    """What to say of every two studies whose exports would have one name, or names that differ in letter case alone.

    Such names are one file on many machines.
    """
    first: dict[str, Study] = {}
    said: list[str] = []
    for study in studies:
        other = first.setdefault(study.inside.as_posix().casefold(), study)
        if other is not study:
            said.append(f"{shown(other.path)} and {shown(study.path)} would both be written to {shown(into / study.inside)}.*")
    return said


def leftovers(into: Path, suffixes: Iterable[str], expected: Iterable[Path]) -> list[Path]:
    """Files under a folder that end like an export but are not among the expected ones."""
    endings = tuple(suffixes)
    known = set(expected)
    return sorted(
        path
        for path in into.rglob("*")
        if path.name.endswith(endings) and not path.name.startswith(".") and path not in known and path.is_file()
    )
