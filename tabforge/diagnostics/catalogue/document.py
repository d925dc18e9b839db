"""Codes for JSON input, the schema guard and limits."""

from __future__ import annotations

from tabforge.diagnostics.core import Code, Severity
