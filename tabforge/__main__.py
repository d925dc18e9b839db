"""``python -m tabforge`` is the ``tabforge`` program."""

from __future__ import annotations

from tabforge.cli import run

run()
