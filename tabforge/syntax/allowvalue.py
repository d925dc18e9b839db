"""Reading which advice a study does not want to hear."""

from __future__ import annotations

import re
from typing import Final

from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import CODES
from tabforge.syntax.field import Field
from tabforge.syntax.grammar import CODE_TEXT

MAX_ALLOWED: Final = 60
"""Codes in one place; see the document's schema."""

_CODE: Final = re.compile(CODE_TEXT)


def allow(field: Field) -> list[str] | None:
    """Codes with a space between. Whether there is such advice is judged later, for documents from elsewhere too."""
    parts = field.parts()
    if len(parts) > MAX_ALLOWED:
        field.report.limit(field.span, f"at most {MAX_ALLOWED} codes can be allowed in one place")
        return None
    bad = [part for part in parts if not _CODE.fullmatch(part.text)]
    for part in bad:
        near = nearest(part.text.strip(",;"), CODES)
        field.unlike("a code of advice", part, near, help="codes stand with a space between: A541 A543" if "," in part.text else None)
    if bad:
        return None
    for index, part in enumerate(parts):
        field.note(index, part)
    return [part.text for part in parts]
