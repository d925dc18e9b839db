"""Codes for placing notes on the neck."""

from __future__ import annotations

from tabforge.diagnostics.core import Code, Severity
