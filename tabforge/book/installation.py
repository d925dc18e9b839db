"""The program as it is installed: its own files, and the versions of the libraries it uses. Read, never written."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Final

from tabforge.book.fingerprints import Tool, tool_from
from tabforge.schema import names, text

EXTRAS: Final = {"verovio": "pages", "typst": "book", "markdown-it-py": "book", "numpy": "sound", "soundfile": "sound"}
"""The libraries that bytes depend on, and the extra that brings each: any may be missing."""

_ROOT: Final = Path(__file__).parents[1]
_PASSED: Final = frozenset({"__pycache__"})


class StrangerError(Exception):
    """A worker runs another program than the one that gave the task, and would make other bytes; its text says what differs."""


@cache
def tool() -> Tool:
    """The program that runs here. It is looked at once in a process."""
    import zlib  # noqa: PLC0415

    files = {**dict(_sources(_ROOT, "")), **dict(_schemas())}
    return tool_from(files.items(), {**installed(), "zlib": zlib.ZLIB_RUNTIME_VERSION})


def installed() -> dict[str, str]:
    """The versions of those libraries that are there."""
    from importlib.metadata import PackageNotFoundError, version  # noqa: PLC0415  # the standard library's own, but not cheap

    found = {}
    for name in EXTRAS:
        try:
            found[name] = version(name)
        except PackageNotFoundError:
            continue
    return found


@cache
def must_be(making: str, packages: tuple[str, ...]) -> None:
    """See that the program that runs here is that one: ``making`` as Tool has it, ``packages`` each ``name version``.

    Raises StrangerError.
    """
    own = tool()
    wanted = dict(each.split(" ", 1) for each in packages)
    differ = [] if own.making == making else ["another tabforge"]
    differ += [
        f"{name} {own.packages[name]} instead of {version}" if name in own.packages else f"no {name}"
        for name, version in wanted.items()
        if own.packages.get(name) != version
    ]
    if differ:
        why = "Install the same versions where workers run, and change nothing of them while a book is built."
        raise StrangerError(f"A worker has {', '.join(differ)}. {why}")


def _sources(folder: Path, above: str) -> Iterator[tuple[str, bytes]]:
    for path in folder.iterdir():
        if path.is_dir():
            if path.name not in _PASSED:
                yield from _sources(path, f"{above}{path.name}/")
        elif not path.name.startswith("."):
            yield above + path.name, path.read_bytes()


def _schemas() -> Iterator[tuple[str, bytes]]:
    """They lie elsewhere in a source tree than in an installed package."""
    for name in names():
        yield f"schema/files/{name}.schema.json", text(name).encode()
