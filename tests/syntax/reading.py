"""What the tests of the parser share: reading texts, and texts that show with ⟦ ⟧ where an error is."""

from __future__ import annotations

from typing import Any, cast

from tabforge.diagnostics import Diagnostic
from tabforge.source import Source, Span
from tabforge.syntax.origins import Origins
from tabforge.syntax.parse import parse

SCALE = "scale C3 major\n"


def everything(text: str) -> tuple[dict[str, Any], Origins, tuple[Diagnostic, ...]]:
    study, origins, found = parse(Source("test.riff", text))
    return cast(dict[str, Any], study), origins, found


def document(text: str) -> dict[str, Any]:
    """The document of a text that must be without errors."""
    study, _, found = everything(text)
    assert [(each.headline, text[slice(*each.span)]) for each in found] == []
    return study


def findings(text: str) -> tuple[Diagnostic, ...]:
    return everything(text)[2]


def riff(*rows: str, header: str = "") -> str:
    return header + 'riff "A"\n' + "".join(f"  {row}\n" for row in rows)


def run(*lines: str) -> str:
    return 'run "A"\n' + "".join(f"  {line}\n" for line in lines)


def system(*rows: str) -> dict[str, Any]:
    """The one system of a riff that must be without errors."""
    (block,) = document(riff(*rows))["blocks"]
    (found,) = block["systems"]
    return cast(dict[str, Any], found)


def unmarked(text: str) -> tuple[str, list[Span]]:
    """A text without its ⟦ ⟧, and the places between them."""
    spans: list[Span] = []
    while "⟦" in text:
        start = text.index("⟦")
        end = text.index("⟧") - 1
        text = text.replace("⟦", "", 1).replace("⟧", "", 1)
        spans.append(Span(start, end))
    return text, spans
