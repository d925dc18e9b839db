"""What the bytes of an exercise and of a bound book hang on, as short hashes. Pure.

A fingerprint has a part for each kind of cause, so that a rebuild can say why (``reasons``). Places in the manifest and numbers in the book
are left out of an exercise's: a study that is put before others does not make them anew.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from hashlib import blake2b
from typing import TYPE_CHECKING, Final

from tabforge.source import NOWHERE, Span

if TYPE_CHECKING:
    from tabforge.book.making import Making
    from tabforge.book.model import Book, Exercise

MAKERS: Final = ("book/describing.py", "book/making.py", "book/model.py", "book/packing.py", "book/picturing.py", "book/working.py")
"""The modules of this room that an exercise is made by; the others plan, run and bind."""

_NOT_MAKING: Final = ("book/", "cli/", "handbook/", "service/", "__main__.py")
_NOT_BINDING: Final = ("cli/", "service/", "__main__.py")

_BYTES: Final = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """The program as far as bytes hang on it. ``making`` and ``binding`` are hashes of its own files; ``packages`` has the version of each
    library that a result depends on, by name.
    """

    making: str
    binding: str
    packages: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fingerprint:
    """All that an exercise hangs on: hashes of its text, its options, what is made of every exercise, and the program; and versions of
    libraries, each ``name version``.
    """

    text: str
    options: str
    making: str
    tool: str
    packages: tuple[str, ...]

    @property
    def key(self) -> str:
        """All of it in one hash, safe as the name of a file."""
        return digest(self.text, self.options, self.making, self.tool, *self.packages)


def digest(*parts: str | bytes) -> str:
    """A hash of some parts, each told apart from its neighbours: BLAKE2b (RFC 7693) of 16 bytes, in hexadecimal."""
    found = blake2b(digest_size=_BYTES)
    for part in parts:
        data = part.encode("utf-8", "surrogatepass") if isinstance(part, str) else part
        found.update(b"%d:" % len(data))
        found.update(data)
    return found.hexdigest()


def told(value: object) -> str:
    """Data as a text that is alike for like data, places in a source left out. Raises TypeError for what is no data."""
    if isinstance(value, Span):
        return "."
    if is_dataclass(value) and not isinstance(value, type):
        inside = ",".join(f"{field.name}={told(getattr(value, field.name))}" for field in fields(value))
        return f"{type(value).__name__}({inside})"
    if isinstance(value, tuple | list):
        return f"[{','.join(map(told, value))}]"
    if value is None or isinstance(value, str | int | float | bool | bytes):
        return repr(value)
    raise TypeError(f"{type(value).__name__} has no fingerprint")


def tool_from(sources: Iterable[tuple[str, bytes]], packages: Mapping[str, str]) -> Tool:
    """The program, from its files, each by its path in the package with ``/`` between the steps."""
    making: list[str | bytes] = []
    binding: list[str | bytes] = []
    for name, data in sorted(sources):
        if name in MAKERS or not name.startswith(_NOT_MAKING):
            making += [name, data]
        if not name.startswith(_NOT_BINDING):
            binding += [name, data]
    return Tool(making=digest(*making), binding=digest(*binding), packages=packages)


def plain(exercise: Exercise) -> Exercise:
    """An exercise without what its making must not hang on."""
    return replace(exercise, id="", number="", chapter=0, span=NOWHERE)


def fingerprint(exercise: Exercise, data: bytes, making: Making, tool: Tool) -> Fingerprint:
    """What making an exercise of the study in ``data`` hangs on."""
    tracks = bool(making.tracks and exercise.options.tracks)
    needed = [*(["verovio"] if making.engraved else ()), *(["numpy", "soundfile"] if tracks else ())]
    return Fingerprint(
        text=digest(data),
        options=digest(told(plain(exercise))),
        making=digest(told(replace(making, tracks=tracks))),
        tool=tool.making,
        packages=tuple(f"{name} {tool.packages[name]}" for name in needed if name in tool.packages),
    )


def bound_print(
    form: str, book: Book, exercises: Sequence[Exercise], keys: Iterable[str], files: Mapping[str, bytes], tool: Tool, needed: Iterable[str]
) -> str:
    """What a bound file hangs on. ``keys`` are the keys of its exercises, ``files`` what else of the book's folder goes into it, ``needed``
    the libraries that bind it.
    """
    more = [f"{name} {tool.packages.get(name)}" for name in needed]
    beside = [part for name in sorted(files) for part in (name, digest(files[name]))]
    return digest(form, told(book), told(tuple(exercises)), *keys, *beside, tool.binding, *more)
