"""Whether what leads from one note to the next stays on its string, once the notes are placed."""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.compile.report import Report
from tabforge.compile.strokes import Stroke, mark_place
from tabforge.diagnostics.catalogue import music
from tabforge.model.techniques import Role


def check_leads(strokes: Sequence[Stroke], report: Report) -> None:
    """A hammer-on, pull-off or slide stays on its string."""
    for index, stroke in enumerate(strokes):
        for mark in stroke.note_marks:
            if not mark.technique.leads or mark.role is not Role.START:
                continue
            begin, end = index, index + 1
            while begin > 0 and strokes[begin].wants is None:
                begin -= 1
            while end < len(strokes) and strokes[end].wants is None:
                end += 1
            source, target = strokes[begin], strokes[min(end, len(strokes) - 1)]
            if not source.places or not target.places:
                continue
            on = {string for string, _ in source.places}
            if not on & {string for string, _ in target.places}:
                at, span = mark_place(stroke, report)
                report.add(
                    music.LEADS_ACROSS,
                    f"this {mark.technique.name} leads from string {source.places[0][0]} to string {target.places[0][0]}",
                    at,
                    span=span,
                    expected="both notes on one string",
                )
