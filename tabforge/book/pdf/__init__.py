"""The book as PDF, typeset by the PyPI package typst from a script of our own.

Book, exercises, what they were made into ──▶ script of calls (``front``, ``body``, ``back``) + pictures (``album``) + ``style.typ`` ──▶ PDF
"""

from __future__ import annotations

from tabforge.book.pdf.binding import bind
from tabforge.book.pdf.program import MissingTypesetterError

__all__ = ["MissingTypesetterError", "bind"]
