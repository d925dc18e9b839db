"""What can be listed and explained: one topic a table of the program. Each is loaded when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib import import_module
from typing import Final, NamedTuple


class Entry(NamedTuple):
    """One thing of a topic: how it is written and what it is, in one line."""

    name: str
    about: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """A topic. ``explain`` gives the page on one of its things, however the user wrote its name, or None."""

    name: str
    about: str
    entries: Callable[[], list[Entry]]
    explain: Callable[[str], str | None]


TOPICS: Final[dict[str, str]] = {
    "scales": "scales",
    "chords": "chords",
    "tunings": "instruments",
    "instruments": "instruments",
    "frettings": "instruments",
    "layouts": "language",
    "voicings": "language",
    "marks": "marks",
    "durations": "language",
    "settings": "language",
    "rows": "language",
    "signs": "language",
    "formats": "program",
    "templates": "program",
    "schemas": "program",
    "codes": "program",
}
"""Topics in the order they are listed, each with the module here that holds it, in its tuple ``TOPICS``."""


def topic(name: str) -> Topic:
    """The topic of a name in ``TOPICS``."""
    topics: tuple[Topic, ...] = import_module(f"tabforge.cli.topics.{TOPICS[name]}").TOPICS
    return next(each for each in topics if each.name == name)


def columns(entries: list[Entry]) -> str:
    """Entries in two columns."""
    width = max((len(entry.name) for entry in entries), default=0)
    return "\n".join(f"{entry.name:<{width}}  {entry.about}".rstrip() for entry in entries)


def topics_explaining(words: str) -> Iterator[tuple[str, str]]:
    """Every topic that has a page on these words, with the page: a word may be a row and a setting."""
    for name in TOPICS:
        page = topic(name).explain(words)
        if page is not None:
            yield name, page


def pages(words: str) -> Iterator[str]:
    """The pages alone."""
    for _, page in topics_explaining(words):
        yield page


def names() -> Iterator[str]:
    """Everything that has a page, to find what was nearly written."""
    for name in TOPICS:
        for entry in topic(name).entries():
            yield entry.name
