"""Placed strokes as events."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from tabforge.compile.frame import Frame
from tabforge.compile.report import Report
from tabforge.compile.sounding import spelled_in
from tabforge.compile.strokes import Stroke, mark_place
from tabforge.diagnostics.catalogue import music
from tabforge.fretboard.harmonics import harmonic
from tabforge.limits import MAX_FRET
from tabforge.model.events import NOTHING_ATTACHED, Attached, Event, Note
from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale
from tabforge.model.techniques import BY_NAME, Mark, Role, with_role


def events_of(
    strokes: Sequence[Stroke], bars: int, frame: Frame, report: Report, scales: Sequence[Scale | None] = ()
) -> list[tuple[Event, ...]]:
    """The events of one voice, bar by bar. Every stroke has its places and marks.

    ``scales``: the scale in force in each bar, if it changes; else it is the frame's.
    """
    found: list[list[Event]] = [[] for _ in range(bars)]
    notes: tuple[Note, ...] = ()
    last = len(strokes) - 1
    for index, stroke in enumerate(strokes):
        into = found[stroke.bar]
        wants = stroke.wants
        if wants == () or (wants is None and not notes):
            final = len(stroke.atoms) - 1
            for number, atom in enumerate(stroke.atoms):
                into.append(
                    Event(onset=atom.onset, ticks=atom.ticks, written=atom.written, notes=(), span=stroke.span,
                          marks=stroke.event_marks, attached=_hung(stroke.attached, number == 0, number == final))
                )  # fmt: skip
            notes = ()
            continue
        ahead = strokes[index + 1] if index < last else None
        tied = ahead is not None and ahead.wants is None
        simple = len(stroke.atoms) == 1 and not stroke.note_marks and not stroke.event_marks
        if simple and wants is not None and len(wants) == 1 and not tied and not stroke.fingers and not stroke.plucks:
            want, (string, fret) = wants[0], stroke.places[0]
            atom = stroke.atoms[0]
            notes = (Note(pitch=want.pitch or frame.tuning.open(string), string=string, fret=fret),)
            if not want.dead:
                into.append(
                    Event(onset=atom.onset, ticks=atom.ticks, written=atom.written, notes=notes, span=stroke.span,
                          attached=stroke.attached, grace=stroke.grace)
                )  # fmt: skip
                continue
        if wants is not None:
            notes = _notes(stroke, replace(frame, scale=scales[stroke.bar]) if scales else frame, report)
        into.extend(_tied_events(stroke, notes, wants is None, tied, ahead if not tied else None))
    return [tuple(events) for events in found]


def _notes(stroke: Stroke, frame: Frame, report: Report) -> tuple[Note, ...]:
    """The notes of a stroke without marks, from string 1 upward."""
    assert stroke.wants
    notes = []
    for index, (want, (string, fret)) in enumerate(zip(stroke.wants, stroke.places, strict=True)):
        finger = stroke.fingers[index] if stroke.fingers else None
        notes.append(
            Note(
                pitch=_sounding(want.pitch or frame.tuning.open(string), string, fret, stroke, frame, report),
                string=string,
                fret=fret,
                finger=finger if finger not in (None, ".", "0") else None,
                pluck=stroke.plucks[index] if stroke.plucks else None,
                marks=_DEAD if want.dead else (),
            )
        )
    notes.sort(key=lambda note: note.string)
    used = {note.string for note in notes}
    for mark in (*stroke.note_marks, *stroke.event_marks):
        if mark.string is not None and mark.string not in used:
            at, span = mark_place(stroke, report)
            strings = ", ".join(str(string) for string in sorted(used))
            report.add(
                music.MARK_MISSES,
                f"a mark is meant for string {mark.string}, where nothing is played",
                at,
                span=span,
                expected=f"string {strings}" if len(used) == 1 else f"one of the strings {strings}",
            )
    return tuple(notes)


_DEAD: Final = (Mark(technique=BY_NAME["dead note"]),)


def _sounding(pitch: Pitch, string: int, fret: int, stroke: Stroke, frame: Frame, report: Report) -> Pitch:
    """The pitch that sounds: of a harmonic, the partial of the string that is touched."""
    for mark in stroke.note_marks:
        if mark.string not in (None, string):
            continue
        if mark.technique.name == "natural harmonic":
            stopped, frets = 0, fret
        elif mark.technique.name in ("artificial harmonic", "tapped harmonic"):
            stopped, frets = fret, int(mark.amount or 12)
        else:
            continue
        neck = frame.neck
        base, cents = neck.sound_at(string, stopped)
        sounds = harmonic(neck.rise(string, stopped, stopped + frets))
        if sounds is None:
            last = MAX_FRET if stopped else neck.last
            over = [up for up in range(1, last + 1) if harmonic(neck.rise(string, stopped, stopped + up)) is not None]
            at, span = mark_place(stroke, report)
            report.add(
                music.NO_NODE,
                f"no harmonic speaks over fret {stopped + frets}"
                + (f", {frets} above fret {stopped}" if stopped else "")
                + ": the string has no node there",
                at,
                span=span,
                expected=("so many frets above it: " if stopped else "a fret over a node: ") + ", ".join(map(str, over)),
            )
            return pitch
        return spelled_in(base + sounds, frame, cents)
    return pitch


def _tied_events(stroke: Stroke, notes: tuple[Note, ...], held: bool, tied: bool, target: Stroke | None) -> list[Event]:
    """The written pieces of a stroke, joined by ties."""
    atoms, count = stroke.atoms, len(stroke.atoms)
    reached = {string for string, _ in target.places} if target is not None else set()
    events = []
    for index, atom in enumerate(atoms):
        first, final = index == 0, index == count - 1
        events.append(
            Event(
                onset=atom.onset,
                ticks=atom.ticks,
                written=atom.written,
                notes=tuple(
                    Note(
                        pitch=note.pitch,
                        string=note.string,
                        fret=note.fret,
                        finger=note.finger if first and not held else None,
                        pluck=note.pluck if first and not held else None,
                        tied_in=held or not first,
                        tied_out=tied or not final,
                        marks=_note_marks(note, stroke, first, final, held, reached),
                    )
                    for note in notes
                ),
                span=stroke.span,
                marks=tuple(_on_piece(mark, first, final) for mark in stroke.event_marks if _shows(mark, first, final)),
                attached=_hung(stroke.attached, first, final),
                grace=stroke.grace,
            )
        )
    return events


def _hung(attached: Attached, first: bool, final: bool) -> Attached:
    """What hangs on a written piece: all on the first, but for a hairpin that ends with the sound, on the last."""
    if (first and final) or attached is NOTHING_ATTACHED:
        return attached
    through = tuple(each for each in attached.hairpins if each.through)
    if not through:
        return attached if first else NOTHING_ATTACHED
    if first:
        return replace(attached, hairpins=tuple(each for each in attached.hairpins if not each.through))
    return Attached(hairpins=through) if final else NOTHING_ATTACHED


def _note_marks(note: Note, stroke: Stroke, first: bool, final: bool, held: bool, reached: set[int]) -> tuple[Mark, ...]:
    kept = [mark for mark in note.marks if mark.technique.stays]
    for mark in stroke.note_marks:
        if mark.string not in (None, note.string) or not _shows(mark, first, final):
            continue
        if mark.technique.leads and mark.role is Role.START and reached and note.string not in reached:
            continue
        kept.append(_on_piece(mark, first, final))
    return tuple(kept)


def _shows(mark: Mark, first: bool, final: bool) -> bool:
    technique = mark.technique
    if technique.stays or (technique.extends and (technique.scope == "event" or technique.name.endswith("vibrato"))):
        return True
    if (technique.leads and mark.role is Role.START) or technique.name in ("fermata", "slide out upward", "slide out downward"):
        return final
    return first


def _on_piece(mark: Mark, first: bool, final: bool) -> Mark:
    """A mark that reaches over several pieces has its role on each of them."""
    if (first and final) or not mark.technique.extends:
        return mark
    begins = first and mark.role in (Role.SINGLE, Role.START)
    ends = final and mark.role in (Role.SINGLE, Role.STOP)
    if not _shows(mark, False, False):
        return mark
    return with_role(mark, Role.START if begins else Role.STOP if ends else Role.INSIDE)


def earlier(event: Event, ticks: int) -> Event:
    """An event so many ticks earlier in its bar."""
    return replace(event, onset=event.onset - ticks)
