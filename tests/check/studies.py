"""Small studies for the checks, and the codes they earn."""

from __future__ import annotations

from tabforge.pipeline import Outcome, study_from


def riff(rows: str, header: str = "") -> str:
    """A riff of rows that are parted by semicolons, under a header likewise."""
    head = "".join(f"{line.strip()}\n" for line in header.split(";") if line)
    return f'{head}\nriff "Lathe"\n' + "".join(f"  {row.strip()}\n" for row in rows.split(";"))


def looked_over(text: str) -> Outcome:
    return study_from("lathe.riff", text.encode())


def codes(text: str) -> list[str]:
    """The codes of a study, in the order of their places."""
    return [found.code.id for found in looked_over(text).diagnostics]


def places(text: str) -> list[tuple[str, str]]:
    """The codes of a study, each with the words it points at."""
    outcome = looked_over(text)
    return [(found.code.id, outcome.source.text[found.span.start : found.span.end]) for found in outcome.diagnostics]
