"""Strokes on the neck: both voices are placed together, since they share one hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from tabforge.compile.frame import Frame
from tabforge.compile.leads import check_leads
from tabforge.compile.marks import links
from tabforge.compile.metric import Metric
from tabforge.compile.picking import alternate, asked, slur, take
from tabforge.compile.report import Report
from tabforge.compile.ringing import Moment, Part, ring, rings
from tabforge.compile.strokes import Stroke
from tabforge.compile.tempering import tune
from tabforge.compile.unisons import Unison, settle, shared
from tabforge.diagnostics.catalogue import music
from tabforge.fretboard.explain import diagnose
from tabforge.fretboard.placement import Placement, Wanted, fingered
from tabforge.fretboard.reach import THUMB
from tabforge.fretboard.trouble import Trouble

FINGERS: Final = {"0": 0, "1": 1, "2": 2, "3": 3, "4": 4, "T": THUMB}
"""Fingers as they are written, and as placement counts them."""

_WRITTEN: Final = {number: text for text, number in FINGERS.items()}


def place_strokes(
    voices: Sequence[list[Stroke]], frame: Frame, report: Report, pace: Sequence[float] = (), metrics: Sequence[Metric] = ()
) -> None:
    """Gives every stroke that sounds its places, and its fingers if they are to be shown and the writer gave none; what cannot be placed is
    reported and becomes a rest. ``pace``: seconds a tick for each bar, empty if the study says no tempo; ``metrics``: that of each bar, by
    which strokes alternate.
    """
    linked = [links(strokes) for strokes in voices]
    unisons: list[Unison] = []
    moments = _single(voices[0], linked[0]) if len(voices) == 1 else _together(voices, linked, unisons)
    if any(rings(strokes) for strokes in voices):
        moments = ring(moments, frame.neck, frame.player.weights)
    how = frame.strokes
    if how == "alternate":
        alternate(voices[0], metrics)
    told = asked(voices[0], how) if how in ("economy", "legato") else None
    wanted = [event for event, _ in moments]
    found = fingered(
        wanted,
        frame.neck,
        weights=frame.player.weights,
        seconds=_seconds(moments, pace) if pace else None,
        strokes=_picked(moments) if told is None else [_told(parts, told) for _, parts in moments],
        economy=how == "economy",
    )
    for trouble in found.troubles:
        _tell(trouble, moments[trouble.index][1], frame, report)
    for (_, parts), places, fingers in zip(moments, found.places, found.fingers, strict=True):
        if not places:
            for stroke, _, _ in parts:
                stroke.wants = ()
            continue
        for stroke, first, count in parts:
            stroke.places = places[first : first + count]
            if frame.shows_fingers and not stroke.fingers:
                stroke.fingers = tuple([_WRITTEN[finger] for finger in fingers[first : first + count]])
    for unison in unisons:
        settle(unison, found.places[unison.moment], found.fingers[unison.moment], _WRITTEN if frame.shows_fingers else None)
    if told is not None:
        _settle_strokes(voices[0], moments, found)
    for strokes in voices:
        _place_dead(strokes, report)
        check_leads(strokes, report)
        if frame.neck.tempered:
            tune(strokes, frame.neck)


def _seconds(moments: Sequence[Moment], pace: Sequence[float]) -> list[float]:
    """How long after each moment the next one begins."""
    found = []
    before, speed = 0, 0.0
    for _, parts in moments:
        stroke = parts[0][0]
        at = stroke.start + stroke.atoms[0].onset
        found.append((at - before) * speed)
        before, speed = at, pace[stroke.bar]
    return [*found[1:], 1.0]


def _picked(moments: Sequence[Moment]) -> list[str] | None:
    """How each moment is picked, if any is: what a hammer-on, pull-off or slide leads to is not."""
    found = [parts[0][0].attached.stroke or "" for _, parts in moments]
    if not any(found):
        return None
    return ["" if event[0].linked else stroke for (event, _), stroke in zip(moments, found, strict=True)]


def _told(parts: Sequence[Part], told: dict[int, str]) -> str:
    return next((told[id(stroke)] for stroke, _, _ in parts if id(stroke) in told), "")


def _settle_strokes(strokes: Sequence[Stroke], moments: Sequence[Moment], found: Placement) -> None:
    """Economy: the strokes that were chosen. Legato: the slurs that the places make."""
    if found.strokes:
        first = {id(stroke) for stroke in strokes}
        for (_, parts), way in zip(moments, found.strokes, strict=True):
            for stroke, _, _ in parts:
                if id(stroke) in first:
                    take(stroke, way)
        return
    fingers = {
        id(stroke): each[at : at + count] for (_, parts), each in zip(moments, found.fingers, strict=True) for stroke, at, count in parts
    }
    slur(strokes, fingers)


def _single(strokes: list[Stroke], linked: dict[int, bool]) -> list[Moment]:
    moments: list[Moment] = []
    for index, stroke in enumerate(strokes):
        if stroke.wants and stroke.wants[0].pitch is not None:
            moments.append((_wanted(stroke, linked.get(index)), [(stroke, 0, len(stroke.wants))]))
    return moments


def _wanted(stroke: Stroke, slid: bool | None) -> tuple[Wanted, ...]:
    """``slid``: whether a slide leads here; None, if nothing does."""
    assert stroke.wants
    linked, slid = slid is not None, bool(slid)
    if stroke.fingers:
        pins = [FINGERS.get(finger) for finger in stroke.fingers]
        return tuple([
            Wanted(want.pitch.midi, want.string, want.fret, False, linked, pin, want.pitch.cents, slid=slid)
            for want, pin in zip(stroke.wants, pins, strict=True)
            if want.pitch is not None
        ])
    return tuple([
        Wanted(pitch.midi, string, fret, False, linked, None, pitch.cents, slid=slid)
        for pitch, string, fret, _ in stroke.wants
        if pitch is not None
    ])


def _together(voices: Sequence[list[Stroke]], linked: Sequence[dict[int, bool]], unisons: list[Unison]) -> list[Moment]:
    """The strokes of both voices in time order; what sounds on in one voice keeps its string while the other moves.

    What both strike at once is wanted once, and added to ``unisons``.
    """
    timed = []
    for number, strokes in enumerate(voices):
        for index, stroke in enumerate(strokes):
            if stroke.wants and stroke.wants[0].pitch is not None:
                at = stroke.start + stroke.atoms[0].onset
                timed.append((at, stroke.grace is None, number, _end(strokes, index), stroke, linked[number].get(index)))
    timed.sort(key=lambda each: each[:3])
    moments: list[Moment] = []
    sounding: list[tuple[int, Wanted]] = []
    index = 0
    while index < len(timed):
        at, plain = timed[index][0], timed[index][1]
        sounding = [(end, want) for end, want in sounding if end > at]
        chord: list[Wanted] = []
        parts: list[Part] = []
        begun: list[tuple[int, Wanted]] = []
        while index < len(timed) and timed[index][:2] == (at, plain):
            _, _, _, end, stroke, link = timed[index]
            notes = _wanted(stroke, link)
            common = shared(notes, chord)
            if common:
                unisons.append(Unison(len(moments), stroke, common))
                notes = tuple([note for number, note in enumerate(notes) if number not in common])
            parts.append((stroke, len(chord), len(notes)))
            chord.extend(notes)
            begun.extend((end, note) for note in notes)
            index += 1
        held = [want._replace(held=True, linked=False) for _, want in sounding if want.midi not in {each.midi for each in chord}]
        moments.append(((*chord, *held), parts))
        sounding.extend(begun)
    return moments


def _end(strokes: list[Stroke], index: int) -> int:
    """The tick at which a stroke's sound ends, holds included."""
    while index + 1 < len(strokes) and strokes[index + 1].wants is None:
        index += 1
    last = strokes[index]
    return last.start + last.atoms[-1].onset + last.atoms[-1].ticks


def _tell(trouble: Trouble, parts: list[Part], frame: Frame, report: Report) -> None:
    stroke, first, _ = next((part for part in reversed(parts) if trouble.note is None or part[1] <= trouble.note), parts[0])
    number = (trouble.note or 0) - first
    pitch = stroke.wants[number].pitch if stroke.wants and 0 <= number < len(stroke.wants) else None
    among = "this chord" if len(parts) == 1 else "the two voices"
    found = diagnose(trouble, stroke.span, frame.neck, pitch, among)
    report.add(
        found.code,
        found.headline,
        stroke.at,
        span=stroke.span,
        label=found.label,
        expected=found.expected,
        suggestion=found.suggestion,
        help=found.help,
        others=found.others,
    )


def _place_dead(strokes: list[Stroke], report: Report) -> None:
    """A bare dead note stays on the string of the note before it in its voice."""
    string = None
    for stroke in strokes:
        if not stroke.wants:
            continue
        if stroke.places:
            string = stroke.places[-1][0]
        elif stroke.wants[0].pitch is None:
            if string is None:
                report.add(
                    music.NO_STRING_YET, "a dead note on which string?", stroke.at, span=stroke.span, expected="x@6, for example"
                )
                stroke.wants = ()
                continue
            stroke.places = ((string, 0),)
