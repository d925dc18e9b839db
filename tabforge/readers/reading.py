"""What a reader gives back."""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.diagnostics import Diagnostic
from tabforge.syntax.document import Study
from tabforge.syntax.origins import Origins


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A document read from a source. ``document`` is None if the source could not be read at all.

    It is a Study only once ``schema.guard`` has found nothing wrong with it. ``origins`` are always there.
    """

    document: Study | None
    origins: Origins
    diagnostics: tuple[Diagnostic, ...]
