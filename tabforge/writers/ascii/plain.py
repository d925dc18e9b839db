"""Words as plain text: ASCII spelling, width on the screen, wrapping."""

from __future__ import annotations

from typing import Final

_SIGNS: Final = str.maketrans(
    {
        "‘": "'", "’": "'", "‚": ",", "‛": "'", "“": '"', "”": '"', "„": '"', "«": '"', "»": '"', "‹": "'", "›": "'",
        "‐": "-", "‑": "-", "‒": "-", "–": "-", "—": "-", "―": "-", "−": "-", "…": "...", "•": "*", "·": ".", "×": "x", "⁄": "/",
        "♯": "#", "♭": "b", "♮": "n", "𝄪": "##", "𝄫": "bb", "Δ": "maj", "△": "maj", "∆": "maj", "ø": "m7b5", "°": "dim", "º": "dim",
        "½": "1/2", "¼": "1/4", "¾": "3/4", "→": "->", "←": "<-",
    }
)  # fmt: skip
"""Typographic and musical signs that ASCII writes otherwise without loss (common practice, no source)."""

_LETTERS: Final = str.maketrans(
    {
        "ß": "ss", "ẞ": "SS", "æ": "ae", "Æ": "AE", "œ": "oe", "Œ": "OE", "Ø": "O", "ł": "l", "Ł": "L", "đ": "d", "Đ": "D",
        "ð": "d", "Ð": "D", "þ": "th", "Þ": "Th", "ı": "i",
    }
)  # fmt: skip
"""Latin letters that Unicode does not decompose."""


def tidy(text: str) -> str:
    """The text with each run of white space as one space."""
    return " ".join(text.split())


def spelled_in_ascii(text: str, symbol: bool = False) -> tuple[str, bool]:
    """The text in ASCII, and whether letters had to change: accents are dropped, what has no likeness becomes ``?``.

    ``symbol``: a chord symbol, in which ``ø`` is half-diminished and not a letter.
    """
    if text.isascii():
        return text, False
    import unicodedata  # noqa: PLC0415  # most studies never need it

    signs = text.translate(_SIGNS) if symbol else text.replace("ø", "o").replace("°", " deg.").translate(_SIGNS)
    if signs.isascii():
        return signs, not symbol and "ø" in text
    parts = unicodedata.normalize("NFKD", signs.translate(_LETTERS))
    kept = (char if char.isascii() else "" if unicodedata.combining(char) else "?" for char in parts)
    return "".join(kept), True


def width_of(text: str) -> int:
    """Columns a text takes in a fixed-width font: two for an East Asian wide character, none for a combining one (Unicode UAX #11)."""
    if text.isascii():
        return len(text)
    import unicodedata  # noqa: PLC0415  # as above

    return sum(
        0 if unicodedata.combining(char) or unicodedata.category(char) == "Cf" else 2 if unicodedata.east_asian_width(char) in "WF" else 1
        for char in text
    )


def cut(text: str, width: int) -> str:
    """The text, or as much of it as fits with ``...`` after it."""
    if width_of(text) <= width:
        return text
    while text and width_of(text) > width - 3:
        text = text[:-1]
    return text.rstrip() + "..."


def wrap(text: str, width: int, indent: int = 0) -> list[str]:
    """The text in lines of at most ``width`` columns, broken at spaces, or inside a word that is longer than a line.

    Lines after the first are indented. An empty text is one empty line.
    """
    lines: list[str] = []
    line, room = "", width
    for word in text.split():
        if line and width_of(line) + 1 + width_of(word) > room:
            lines.append(line)
            line, room = "", width - indent
        while width_of(word) > room:
            at = 1
            while width_of(word[: at + 1]) <= room:
                at += 1
            lines.append(word[:at])
            word, room = word[at:], width - indent  # noqa: PLW2901  # the rest of the same word
        line = f"{line} {word}" if line else word
    lines.append(line)
    return [lines[0], *(" " * indent + each for each in lines[1:])]
