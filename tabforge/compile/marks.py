"""Marks of a voice settled: how far the extending ones reach, and which note a leading one leads to."""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.compile.report import Report
from tabforge.compile.strokes import Stroke, mark_place
from tabforge.diagnostics.catalogue import music
from tabforge.model.techniques import SLIDES, Mark, Role, Technique, with_role


def settle_marks(strokes: Sequence[Stroke], report: Report) -> None:
    """Gives every stroke its marks with roles."""
    if not any(stroke.own or stroke.carries for stroke in strokes):
        return
    _extend(strokes, report)
    _lead(strokes, report)


def _extend(strokes: Sequence[Stroke], report: Report) -> None:
    """START, INSIDE and STOP of what extends; palm mutes, lets ring and equal barres that follow one another are one extent."""
    active: dict[str, tuple[Mark, Stroke, bool]] = {}
    """Technique → its mark, the stroke that has it last, whether it began there."""
    for stroke in strokes:
        if not stroke.own and not stroke.carries:
            active.clear()
            continue
        before, active = active, {}
        if stroke.carries and not before:
            at, span = mark_place(stroke, report)
            report.add(
                music.NOTHING_TO_CARRY,
                "the note before has nothing that - could carry on",
                at,
                span=span,
                help="- carries on a palm mute, let ring, vibrato or held bend",
            )
        carried = dict(before) if stroke.carries else {}
        for mark in stroke.own:
            name = mark.technique.name
            whole = mark.technique.scope == "event" and mark.technique.extends
            if whole and name in before and before[name][0].amount == mark.amount:
                carried[name] = before[name]
            elif mark.technique.extends:
                if whole:
                    carried.pop(name, None)  # a barre at another fret ends the one before
                active[name] = (mark, stroke, True)
                _put(stroke, mark)
            else:
                _put(stroke, mark)
        for name, (mark, last, began) in carried.items():
            _put(last, with_role(mark, Role.START if began else Role.INSIDE), instead=name)
            _put(stroke, with_role(mark, Role.STOP))
            active[name] = (mark, stroke, False)


def _put(stroke: Stroke, mark: Mark, instead: str | None = None) -> None:
    """Adds a mark, or puts it in the place of the one of the same technique."""
    whole = mark.technique.scope == "event"
    marks = stroke.event_marks if whole else stroke.note_marks
    marks = (*marks, mark) if instead is None else tuple(mark if each.technique.name == instead else each for each in marks)
    if whole:
        stroke.event_marks = marks
    else:
        stroke.note_marks = marks


def _lead(strokes: Sequence[Stroke], report: Report) -> None:
    """Ties every leading mark to the stroke it leads to."""
    for index, stroke in enumerate(strokes):
        leading = [mark for mark in stroke.note_marks if mark.technique.leads and mark.role is Role.SINGLE]
        for mark in leading:
            last = index
            while last + 1 < len(strokes) and strokes[last + 1].wants is None:
                last += 1
            target = strokes[last + 1] if last + 1 < len(strokes) else None
            stroke.note_marks = tuple(each for each in stroke.note_marks if each is not mark)
            if target is None or not target.wants:
                at, span = mark_place(stroke, report)
                follows = "no note follows" if target is None else "a rest follows"
                report.add(
                    music.LEADS_NOWHERE,
                    f"this {mark.technique.name} leads nowhere: {follows}",
                    at,
                    span=span,
                    expected="a note to lead to",
                )
                continue
            # From a held sound it is the last written piece that leads on.
            _put(strokes[last], with_role(mark, Role.START))
            _put(target, with_role(mark, Role.STOP))


def lead(piece: Stroke, target: Stroke, technique: Technique) -> None:
    """Lets a mark lead from a written piece to a stroke."""
    _put(piece, Mark(technique=technique, role=Role.START))
    _put(target, Mark(technique=technique, role=Role.STOP))


def links(strokes: Sequence[Stroke]) -> dict[int, bool]:
    """Indices of strokes that a mark of the sound before leads to, which must lie on that sound's strings; and whether it is a slide."""
    found = {}
    for index, stroke in enumerate(strokes):
        leading = [mark.technique.name for mark in stroke.note_marks if mark.technique.leads and mark.role is Role.STOP]
        if stroke.wants and leading:
            found[index] = any(name in SLIDES for name in leading)
    return found
