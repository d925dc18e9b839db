"""Codes for rhythm, bars, pitches and marks."""

from __future__ import annotations

from tabforge.diagnostics.core import Code, Severity
