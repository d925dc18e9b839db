"""Advice: findings that do not keep a study from being exported."""

from __future__ import annotations

from tabforge.diagnostics.core import Code, Severity
