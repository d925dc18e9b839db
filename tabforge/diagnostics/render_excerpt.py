"""A line of source made fit to be shown: nothing invisible in it, cut to a width, with the place underlined.

Columns on the screen follow Unicode: a wide or fullwidth character (UAX #11, East Asian Width) takes two, a
combining mark none, any other one. What has no glyph of its own (controls, format characters, separators other
than a space, lone surrogates, unassigned code points: all that ``str.isprintable`` denies) is written as its
code point, ``<U+200B>``, so that it can be seen and cannot steer the terminal.
"""

from __future__ import annotations

from typing import Final, NamedTuple

WIDTH: Final = 100
"""Columns an excerpt may take; a longer line is cut around the place."""

TAB: Final = 4
"""Columns between two tab stops."""

_BEFORE: Final = WIDTH // 3
_CUT: Final = "…"


class Excerpt(NamedTuple):
    """A shown line and, under it, blanks and carets. ``whole`` is False when the line was cut."""

    line: str
    underline: str
    whole: bool


def visible(text: str) -> str:
    """The text with everything that has no glyph written as its code point, for any place but an excerpt."""
    if text.isprintable():
        return text
    return "".join(char if char.isprintable() else f"<U+{ord(char):04X}>" for char in text)


def _width(char: str) -> int:
    if " " <= char <= "~":
        return 1
    if not char.isprintable():
        return len(visible(char))
    import unicodedata  # noqa: PLC0415  # only a line that is not ASCII needs the tables

    if unicodedata.category(char) in ("Mn", "Me") or "\u1160" <= char <= "\u11ff":
        return 0  # U+1160..U+11FF: jamo that join the syllable before them
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1


def _forward(line: str, start: int, room: int) -> int:
    """The end of the longest piece from ``start`` that fits the room, a tab counted in full.

    However many marks are piled on one letter, it looks at a bounded number of characters.
    """
    limit = min(len(line), start + 4 * WIDTH)
    while start < limit:
        room -= TAB if line[start] == "\t" else _width(line[start])
        if room < 0:
            break
        start += 1
    return start


def _backward(line: str, end: int, room: int) -> int:
    """The start of the longest piece before ``end`` that fits the room."""
    limit = max(0, end - 4 * WIDTH)
    while end > limit:
        room -= TAB if line[end - 1] == "\t" else _width(line[end - 1])
        if room < 0:
            break
        end -= 1
    return end


def _window(line: str, place: int) -> tuple[int, int]:
    """The part of a line that is shown: all of it if it fits, else what fits around the place."""
    if _forward(line, 0, WIDTH) == len(line):
        return 0, len(line)
    first = _backward(line, place, _BEFORE)
    last = _forward(line, first, WIDTH)
    if last == len(line):
        first = _backward(line, last, WIDTH)
    return first, last


def excerpt(line: str, start: int, end: int) -> Excerpt:
    """A line with ``line[start:end]`` underlined by at least one caret. Offsets past the line mean its end."""
    start = min(start, len(line))
    end = max(min(end, len(line)), start)
    while 0 < start < len(line) and _width(line[start]) == 0:
        start -= 1  # a combining mark is pointed at where it is seen, on its letter
    first, last = _window(line, start)
    shown = [_CUT] if first else []
    column = len(shown)
    left = right = column
    for at in range(first, last):
        char = line[at]
        piece = " " * (TAB - column % TAB) if char == "\t" else visible(char)
        width = len(piece) if char == "\t" else _width(char)
        if at < start:
            left += width
        if at < end:
            right += width
        column += width
        shown.append(piece)
    if last < len(line):
        shown.append(_CUT)
    underline = " " * left + "^" * max(1, right - left)
    return Excerpt("".join(shown), underline, first == 0 and last == len(line))
