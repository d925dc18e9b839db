"""The value of a setting as it stands in the text, while it is read."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from tabforge.diagnostics.catalogue import text as codes
from tabforge.source import Span
from tabforge.syntax.grammar import QUOTED_TEXT, SETTINGS
from tabforge.syntax.origins import Pointer
from tabforge.syntax.report import Report, quoted
from tabforge.syntax.textorigins import TextOrigins

MAX_PHRASE: Final = 60
"""Characters of an instrument, a named tuning, a scale's name or words of a tempo; see the document's schema."""

MAX_LINE: Final = 2000
"""Characters of a line of words; see the document's schema."""

_PARTS: Final = re.compile(rf"{QUOTED_TEXT}|\S+")
_LOOKALIKES: Final = str.maketrans({"♭": "b", "♯": "#", "♮": "n", "–": "-", "—": "-", "−": "-", "×": "*", "“": '"', "”": '"', "„": '"'})


def plain_signs(text: str) -> str:
    """Text with typographic signs as a keyboard has them: a flat sign as ``b``, a sharp sign as ``#``."""
    return text.translate(_LOOKALIKES)


@dataclass(frozen=True, slots=True)
class Part:
    """One word of a value, or a phrase in quotes, with its place in the source."""

    text: str
    at: int

    @property
    def span(self) -> Span:
        """Its place."""
        return Span(self.at, self.at + len(self.text))

    @property
    def is_quoted(self) -> bool:
        """Whether it stands in quotes."""
        return len(self.text) >= 2 and self.text[0] == self.text[-1] == '"'


@dataclass(frozen=True, slots=True)
class Field:
    """A setting's value: ``text``, which begins at ``at``. ``pointer`` is its place in the document."""

    word: str
    text: str
    at: int
    pointer: Pointer
    report: Report
    origins: TextOrigins

    @property
    def span(self) -> Span:
        """The place of the whole value."""
        return Span(self.at, self.at + len(self.text))

    @property
    def says(self) -> str:
        """What a value of this setting is."""
        return SETTINGS[self.word].says

    def parts(self) -> list[Part]:
        """The value's words; what stands in quotes is one."""
        return [Part(found[0], self.at + found.start()) for found in _PARTS.finditer(self.text)]

    def refuse(
        self,
        headline: str,
        part: Part | None = None,
        *,
        label: str = "",
        expected: str | None = None,
        suggestion: str | None = None,
        help: str | None = None,  # the diagnostic's own word
    ) -> None:
        """Report that the value, or one part of it, is not what it should be."""
        self.report.add(
            codes.BAD_VALUE,
            part.span if part else self.span,
            headline,
            label=label,
            expected=expected or self.says,
            suggestion=suggestion,
            help=help,
        )

    def unlike(
        self,
        noun: str,
        part: Part | None = None,
        suggestion: str | None = None,
        help: str | None = None,  # the diagnostic's own word
        expected: str | None = None,
    ) -> None:
        """Report that a part is not a ``noun``, such as “a tempo”."""
        wrong = part.text if part else self.text
        near = suggestion if suggestion != wrong else None
        self.refuse(f"{quoted(wrong)} is not {noun}", part, expected=expected, suggestion=near, help=help)

    def note(self, key: str | int, part: Part) -> None:
        """Keep the place of a part of the value."""
        self.origins.put((*self.pointer, key), part.at, part.at + len(part.text))

    def within(self, limit: int, noun: str, part: Part | None = None) -> bool:
        """Whether a part is no longer than a limit; reports it otherwise."""
        if len(part.text if part else self.text) <= limit:
            return True
        self.report.limit(part.span if part else self.span, f"{noun} has at most {limit:,} characters")
        return False
