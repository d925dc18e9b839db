"""Advice that a study does not want: ``allow A542`` in its header or in a block."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from tabforge.diagnostics.allowance import Allowance
from tabforge.diagnostics.catalogue import CODES
from tabforge.diagnostics.catalogue.music import NO_SUCH_ADVICE
from tabforge.diagnostics.core import Diagnostic, Severity, nearest
from tabforge.source import Span
from tabforge.syntax.document import Study
from tabforge.syntax.origins import Origins, Pointer, written


def allowance(document: Study, origins: Origins) -> Allowance:
    """What a document allows. A block ends where the next begins."""
    blocks = document.get("blocks", [])
    if not any("allow" in block for block in blocks):
        return Allowance(frozenset(document.get("allow", ())))
    spans = [origins.span(("blocks", index)) for index in range(len(blocks))]
    ends = [*(span.start for span in spans[1:]), inf]
    found = [
        (span.start, end, frozenset(block["allow"])) for block, span, end in zip(blocks, spans, ends, strict=True) if "allow" in block
    ]
    return Allowance(frozenset(document.get("allow", ())), tuple(found))


def codes_that_are_none(document: Study, origins: Origins) -> Iterator[Diagnostic]:
    """Allowed codes that stand for no advice: an unknown one is told the nearest, an error's that it cannot be allowed."""
    places: list[tuple[Pointer, list[str]]] = [(("allow",), document.get("allow", []))]
    places += [(("blocks", index, "allow"), block.get("allow", [])) for index, block in enumerate(document.get("blocks", []))]
    advice = [code.id for code in CODES.values() if code.severity is Severity.ADVICE]
    for at, codes in places:
        for index, text in enumerate(codes):
            if text in advice:
                continue
            known = CODES.get(text)
            pointer: Pointer = (*at, index)
            span: Span = origins.span(pointer)
            yield Diagnostic(
                code=NO_SUCH_ADVICE,
                headline=f"{text} is an error, and only advice can be allowed" if known else f"there is no advice {text}",
                span=span,
                label=known.title if known else "",
                expected="a code of advice: `tabforge list codes` tells which are",
                suggestion=None if known else nearest(text, advice),
                pointer=written(pointer),
            )
