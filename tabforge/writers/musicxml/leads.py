"""Techniques that lead from one note to the next on its string: hammer-on, pull-off, slides.

Of two layers, notation has the slur and TAB the letter; a slide is on both, and a legato slide is one with a slur.
"""

from __future__ import annotations

from tabforge.model.techniques import Mark, Role
from tabforge.writers.musicxml.ink import Handler, Ink


def _line(ink: Ink, mark: Mark, kind: str, name: str, text: str = "", more: str = "") -> str:
    """A line that begins on one note and ends on the next of its string; numbered among the lines of ``kind``."""
    key = (ink.voice, mark.technique.name, name, ink.note and ink.note.string)
    starts = mark.role is Role.START
    if starts:
        number = ink.numbers.start(kind, key, mark.technique.name, ink.event.span)
    else:
        number = ink.numbers.stop(kind, key) if mark.role is Role.STOP else None
    if number is None:
        ink.lose(mark.technique.name, "left out: too many at once" if starts else "left out: it has no beginning or no end")
        return ""
    attributes = f'type="{mark.role.value}" number="{number}"{more}'
    return f"<{name} {attributes}>{text}</{name}>" if text and starts else f"<{name} {attributes}/>"


def _slur(ink: Ink, mark: Mark) -> None:
    ink.lines += _line(ink, mark, "line", "slur")


def legato(name: str, letter: str) -> Handler:
    """A hammer-on or pull-off: the element's name and the letter on TAB."""

    def write(ink: Ink, mark: Mark) -> None:
        if ink.layer.fingers_strings:
            ink.technical += _line(ink, mark, name, name, letter)
        if not ink.layer.tab:
            _slur(ink, mark)

    return write


def slide(ink: Ink, mark: Mark) -> None:
    """A slide to a note that is struck again."""
    ink.lines += _line(ink, mark, "line", "slide", more=' line-type="solid"')


def legato_slide(ink: Ink, mark: Mark) -> None:
    """A slide to a note that is not struck again."""
    _slur(ink, mark)
    slide(ink, mark)
