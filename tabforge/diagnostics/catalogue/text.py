"""Codes for reading the riff language."""

from __future__ import annotations

from tabforge.diagnostics.core import Code, Severity
