"""Diagnostics as data. Stages return them beside their result; an exception means a bug in tabforge, never a mistake of the user's."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from tabforge.source import Span


class Severity(Enum):
    """An ERROR keeps the study from being exported; ADVICE does not."""

    ERROR = "error"
    ADVICE = "advice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Code:
    """A kind of diagnostic. ``id`` never changes its meaning once released.

    ``title`` is a short name; ``explanation`` is what ``tabforge explain`` prints, in a player's words. ``wrong`` and
    ``right`` are whole small studies (in the riff language unless they begin with ``{``): the first earns this
    code, the second shows the mend and earns nothing.
    Both are empty where no text can show the mistake, for it lies in how the file is stored.
    """

    id: str
    severity: Severity
    title: str
    explanation: str
    wrong: str
    right: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A further place that belongs to a diagnostic, with what is to be said of it."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnostic:
    """One finding.

    ``headline`` stands alone: it says what is wrong without the excerpt. ``label`` is what stands beside the caret, ``expected`` what would
    have been right, ``suggestion`` the nearest valid spelling of what was written, ``help`` any further advice.
    ``pointer`` is the JSON pointer (RFC 6901) of the place in the document, where there is one.
    """

    code: Code
    headline: str
    span: Span
    label: str = ""
    expected: str | None = None
    suggestion: str | None = None
    help: str | None = None
    others: tuple[Label, ...] = ()
    pointer: str | None = None

    @property
    def is_error(self) -> bool:
        """Whether it keeps the study from being exported."""
        return self.code.severity is Severity.ERROR


def only_errors(diagnostics: Iterable[Diagnostic]) -> list[Diagnostic]:
    """Those that keep a study from being exported."""
    return [each for each in diagnostics if each.is_error]


def ordered(diagnostics: Iterable[Diagnostic]) -> list[Diagnostic]:
    """By place, then by code: the order they are shown in. The same finding at the same place is kept once."""
    unique = dict.fromkeys(diagnostics)
    return sorted(unique, key=lambda each: (each.span.start, each.span.end, each.code.id, each.headline))


def nearest(word: str, candidates: Iterable[str]) -> str | None:
    """The candidate most like ``word`` (by difflib's ratio, at least 0.6; a difference of case alone always counts), or None."""
    pool = list(candidates)
    folded = word.casefold()
    for candidate in pool:
        if candidate.casefold() == folded:
            return candidate
    from difflib import get_close_matches  # noqa: PLC0415  # only a mistake pays for the import

    by_folded = {candidate.casefold(): candidate for candidate in reversed(pool)}
    close = get_close_matches(folded, by_folded, n=1, cutoff=0.6)
    return by_folded[close[0]] if close else None
