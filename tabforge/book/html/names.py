"""The ids of a page. An exercise is found by its own name, which has no underscore: all others have one."""

from __future__ import annotations

from typing import Final

from tabforge.model.techniques import TECHNIQUES

TOP: Final = "page_top"
CONTENTS: Final = "page_contents"
MAIN: Final = "page_main"
CAUTIONS: Final = "page_cautions"
GLOSSARY: Final = "page_signs"
INDEX: Final = "page_index"

_SIGNS: Final = {technique.name: f"sign_{number}" for number, technique in enumerate(TECHNIQUES, 1)}


def chapter_name(number: int) -> str:
    """Of a chapter, counted from 0."""
    return f"chapter_{number + 1}"


def sign_name(technique: str) -> str:
    """Of a technique in the glossary of signs."""
    return _SIGNS[technique]
