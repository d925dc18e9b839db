"""Grace notes that are asked for more than a grace note has time for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.view import View
from tabforge.diagnostics.catalogue.advice import GRACE_TOO_SHORT
from tabforge.diagnostics.core import Diagnostic

_LONG: Final = {
    "tremolo picking": "it is gone before it could be repeated",
    "fermata": "it has no length that could be held",
}


def graces_without_time(view: View) -> Iterator[Diagnostic]:
    """Tremolo picking and fermatas on grace notes."""
    for found in view.carrying(_LONG):
        if found.event.grace is None:
            continue
        for mark in found.event.marks:
            why = _LONG.get(mark.technique.name)
            if why is not None:
                name = mark.technique.name
                yield from view.tell(
                    GRACE_TOO_SHORT,
                    f"{name} on a grace note: {why}",
                    found.event,
                    "marks",
                    (name,),
                    help="put the mark on the note that follows, or write this one as a short note of its own",
                )
