"""The program as it is installed: its own files, and the versions of the libraries it uses. Read, never written."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Final

from tabforge.book.fingerprints import Tool, tool_from
from tabforge.schema import names, text

PACKAGES: Final = ("verovio", "typst", "numpy", "soundfile")
"""The libraries that bytes depend on; each is brought by an extra and may be missing."""

_ROOT: Final = Path(__file__).parents[1]
_PASSED: Final = frozenset({"__pycache__"})


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
    for name in PACKAGES:
        try:
            found[name] = version(name)
        except PackageNotFoundError:
            continue
    return found


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
