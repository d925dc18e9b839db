"""Hairpins that open toward a softer dynamic, or close toward a louder one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.view import Line, View
from tabforge.diagnostics.catalogue.advice import HAIRPIN_AGAINST
from tabforge.diagnostics.core import Diagnostic, Label
from tabforge.model.events import Event

_LEVELS: Final = {name: level for level, name in enumerate(("pppp", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "ffff"))}
_AFTER: Final = {"fp": "p", "sfp": "p", "pf": "f"}
"""What is in force after a dynamic of two parts. One that stresses a single note (sf, fz …) leaves the dynamic as it was."""


def hairpins_against(view: View) -> Iterator[Diagnostic]:
    """Each hairpin whose end contradicts it."""
    for line in view.lines:
        yield from _line(view, line)


def _line(view: View, line: Line) -> Iterator[Diagnostic]:
    force: str | None = None
    start: tuple[Event, str | None] | None = None
    for event in line.events:
        attached = event.attached
        if not attached.hairpins and attached.dynamic is None:
            continue
        for hairpin in attached.hairpins:
            if not hairpin.begins and start is not None:
                yield from _judge(view, hairpin.kind, start, event, attached.dynamic if not hairpin.through else None)
                start = None
        now = _AFTER.get(attached.dynamic or "", attached.dynamic)
        force = now if now in _LEVELS else force
        if any(hairpin.begins for hairpin in attached.hairpins):
            start = (event, force)


def _judge(view: View, kind: str, start: tuple[Event, str | None], end: Event, reached: str | None) -> Iterator[Diagnostic]:
    begin, force = start
    if force is None or reached not in _LEVELS:
        return
    rise = _LEVELS[reached] - _LEVELS[force]
    if (rise < 0) if kind == "crescendo" else (rise > 0):
        way, comes = ("louder", "softer") if kind == "crescendo" else ("softer", "louder")
        span, _ = view.places.cell(begin.span, "dynamics", ("<" if kind == "crescendo" else ">",))
        yield from view.tell(
            HAIRPIN_AGAINST,
            f"a {kind} from {force} leads to {reached}, which is {comes}: it should get {way}",
            end,
            "dynamics",
            (reached,),
            others=(Label(span=span, text=f"the {kind} begins in {force}"),),
            help=f"if the {reached} is meant to come suddenly, let the {kind} reach its own dynamic on the note before",
        )
