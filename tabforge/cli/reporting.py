"""Findings shown to the user."""

from __future__ import annotations

import sys

from tabforge.cli.screen import coloured
from tabforge.diagnostics.core import only_errors
from tabforge.diagnostics.render_text import render
from tabforge.pipeline import Outcome


def findings(outcome: Outcome, quiet: bool = False) -> str:
    """A study's findings for standard error, without the last line break; errors alone if quiet; empty if there are none."""
    diagnostics = only_errors(outcome.diagnostics) if quiet else outcome.diagnostics
    return render(diagnostics, outcome.source, colour=coloured(sys.stderr), unshown=outcome.unshown)[:-1]
