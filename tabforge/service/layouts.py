"""A layout as a setting has it: as a document does, or as a study's line says it."""

from __future__ import annotations

from typing import Any, cast

from tabforge.diagnostics.core import only_errors
from tabforge.readers import READERS
from tabforge.service.problems import INVALID, Problem
from tabforge.source import Source
from tabforge.syntax.document import LayoutSetting


def layout_of(said: str | dict[str, Any]) -> LayoutSetting:
    """The layout. Raises Problem for words that are none; what a document says is looked at with the study's."""
    if not isinstance(said, str):
        return cast(LayoutSetting, said)
    reading = READERS["riff"](Source("layout", f"run\n  layout {said}\n"))
    wrong = only_errors(reading.diagnostics)
    blocks = reading.document.get("blocks", []) if reading.document and not wrong else []
    if len(blocks) != 1 or "layout" not in blocks[0]:
        detail = wrong[0].headline if wrong else "it is no layout"
        raise Problem(INVALID, f"The layout “{said}”: {detail}.", errors=[{"pointer": "/settings/layout", "detail": detail}])
    return blocks[0]["layout"]
