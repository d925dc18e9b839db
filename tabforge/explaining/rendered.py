"""Explanations for another program, as the JSON document that ``schemas/explanation.schema.json`` describes."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Final

from tabforge.explaining.facts import Facts

VERSION: Final = 1
"""Of the explanation's format: a change that could break a reader raises it."""


def rendered(found: Sequence[Facts], version: str) -> str:
    """The JSON text, with a line break at its end. ``version`` is the program's."""
    told = {"explanation": VERSION, "tool": {"name": "tabforge", "version": version}, "found": list(found)}
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"
