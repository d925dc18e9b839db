"""Troubles in a player's words."""

from __future__ import annotations

from tabforge.diagnostics.catalogue.neck import OFF_THE_NECK
from tabforge.diagnostics.core import Diagnostic
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.trouble import Trouble
from tabforge.model.pitch import Pitch
from tabforge.source import Span


def diagnose(trouble: Trouble, span: Span, neck: Neck, pitch: Pitch | None = None) -> Diagnostic:
    """A trouble as a diagnostic at ``span``. ``pitch`` is the spelling of the pitch concerned; without it a plain one is used."""
    return Diagnostic(code=OFF_THE_NECK, headline=trouble.kind.value, span=span)
