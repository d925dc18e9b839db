"""Every code, by area: T reading the text, D the document and its schema, M music and bars, N the neck, A advice, B books.

A code's number never changes its meaning. To add one, add it to its area's module; the registry below finds it.
"""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics.catalogue import advice, book, document, music, neck, text
from tabforge.diagnostics.core import Code

CODES: Final[dict[str, Code]] = {
    value.id: value
    for module in (text, document, music, neck, advice, book)
    for value in vars(module).values()
    if isinstance(value, Code)
}
