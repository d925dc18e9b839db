"""Ways to look into a written document."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from lxml import etree

from tabforge.model.score import Score
from tabforge.writers.musicxml import write
from tabforge.writers.options import Staves, WriteOptions


def tree(score: Score, staves: Staves = "both", **more: Any) -> Any:
    """The document as an lxml tree."""
    return etree.fromstring(write(score, WriteOptions(staves=staves, **more))[0])


def notes(document: Any, staff: int | None = 1, part: int = 1) -> list[Any]:
    """The ``note`` elements of a staff; of a part of one staff if None."""
    found = document.iterfind(f"part[@id='P{part}']/measure/note")
    return [each for each in found if staff is None or each.findtext("staff") == str(staff)]


def names(elements: Any) -> list[str]:
    """What an element's children are called."""
    return [each.tag for each in elements]


def beams(note: Any) -> tuple[str, ...]:
    """A note's beam values, from the first line on."""
    found = note.findall("beam")
    assert [each.get("number") for each in found] == [str(number) for number in range(1, len(found) + 1)]
    return tuple(each.text for each in found)


def shown(note: Any) -> str:
    """The accidental of a note: its name, in parentheses for a reminder, or nothing."""
    found = note.find("accidental")
    if found is None:
        return ""
    return f"({found.text})" if found.get("cautionary") == "yes" else str(found.text)


def signs(note: Any) -> set[str]:
    """Paths of everything in the notations of a note, such as ``technical/hammer-on``."""
    return {f"{group.tag}/{each.tag}" for group in note.iterfind("notations/*") for each in group} | {
        each.tag for each in note.iterfind("notations/*") if not len(each)
    }


def words(document: Any) -> list[str]:
    """All words of directions, in order."""
    return [str(each.text) for each in document.iter("words")]


def lines(document: Any) -> Iterator[tuple[str, str, str]]:
    """Everything that begins or ends a numbered line, in document order: element, type, number."""
    kinds = ("slur", "slide", "hammer-on", "pull-off", "wavy-line", "dashes", "tuplet")
    for each in document.iter(*kinds):
        yield each.tag, each.get("type"), each.get("number")
