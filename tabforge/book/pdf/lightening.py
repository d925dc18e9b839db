"""Pictures with fewer elements that look the same: the typesetter keeps every element of a book's pictures in memory at once.

Engraved music is of one ink, so that it does not matter in which order things are drawn.
"""

from __future__ import annotations

import re
from typing import Final

_GROUP: Final = re.compile(r"<g\b[^>]*>|</g>")
_LABELLED: Final = re.compile(r'<g class="[a-zA-Z ]*"(?: data-[a-z]+="[^"]*")*>')
_LINE: Final = re.compile(r'<path d="(M-?\d+ -?\d+ L-?\d+ -?\d+)" (stroke-width="\d+" stroke="#000")/>')


def lighter(svg: str) -> str:
    """The same picture without groups that only label things, and straight black lines of one width between two groups as one path."""
    out: list[str] = []
    kept: list[bool] = []
    run: list[str] = []
    at = 0
    for found in _GROUP.finditer(svg):
        run.append(svg[at : found.start()])
        at = found.end()
        if found[0] == "</g>":
            keep = kept.pop()
        else:
            keep = not _LABELLED.fullmatch(found[0])
            kept.append(keep)
        if keep:
            out += (_merged("".join(run)), found[0])
            run.clear()
    return "".join((*out, *run, svg[at:]))


def _merged(elements: str) -> str:
    lines: dict[str, list[str]] = {}
    for data, how in _LINE.findall(elements):
        lines.setdefault(how, []).append(data)
    rest = _LINE.sub("", elements) if lines else elements
    return rest + "".join(f'<path d="{" ".join(each)}" fill="none" {how}/>' for how, each in lines.items())
