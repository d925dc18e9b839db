"""Techniques that reach over several events: vibrato, palm mute, let ring, barres, octave lines."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from tabforge.model.events import Event
from tabforge.model.techniques import Mark, Role
from tabforge.writers.musicxml.ink import BEGINS, Handler, Ink, technique_words


def wave(glyph: str) -> Handler:
    """A wavy line; ``glyph`` is its SMuFL name, which tells a wide one from another."""

    def write(ink: Ink, mark: Mark) -> None:
        # One wavy line for the event, however many of its notes are shaken.
        key = (ink.voice, mark.technique.name)
        start = ink.numbers.start("wave", key, mark.technique.name, ink.event.span) if mark.role in BEGINS else None
        if start is not None:
            ink.ornaments += f'<wavy-line type="start" number="{start}" smufl="{glyph}"/>'
        stop = None
        if mark.role is Role.STOP or (mark.role is Role.SINGLE and start is not None):
            stop = ink.numbers.stop("wave", key)
        if stop is not None:
            ink.ornaments += f'<wavy-line type="stop" number="{stop}"/>'

    return write


def _extent(told: Callable[[Mark], str], *, notation: bool = False) -> Handler:
    """Words above the first event and dashes to the last; the dashes stop after it. On TAB, or on ``notation``."""

    def write(ink: Ink, mark: Mark) -> None:
        if not (ink.first and (ink.layer.plays if notation else ink.layer.fingers_strings)):
            return
        words = told(mark)
        key = (ink.voice, mark.technique.name)
        if mark.role is Role.SINGLE:
            ink.say(words)
        elif mark.role is Role.START:
            number = ink.numbers.start("dashes", key, mark.technique.name, ink.event.span)
            dashes = () if number is None else (f'<dashes type="start" number="{number}"/>',)
            ink.before += ink.direction(technique_words(words), *dashes)
        elif mark.role is Role.STOP:
            number = ink.numbers.stop("dashes", key)
            if number is not None:
                ink.after += ink.direction(f'<dashes type="stop" number="{number}"/>')

    return write


_muted = _extent(lambda _: "P.M.")
_ringing = _extent(lambda _: "let ring")


def palm_mute(ink: Ink, mark: Mark) -> None:
    """Played damped, and told above."""
    ink.play = "<play><mute>palm</mute></play>"
    _muted(ink, mark)


def let_ring(ink: Ink, mark: Mark) -> None:
    """A tie to nowhere on notation, unless a tie to somewhere is there, and words above."""
    if ink.layer.plays and ink.note is not None and not ink.note.tied_out:
        ink.tied += '<tied type="let-ring"/>'
    _ringing(ink, mark)


_ROMAN: Final = ((10, "X"), (9, "IX"), (5, "V"), (4, "IV"), (1, "I"))


def roman(number: int) -> str:
    """A number from 1 to 39 as a roman numeral."""
    found = ""
    for value, letters in _ROMAN:
        count, number = divmod(number, value)
        found += letters * count
    return found


def barre(sign: str) -> Handler:
    """A barre, told above notation as players write it: a letter and the fret as a roman numeral (common practice, no source)."""
    return _extent(lambda mark: f"{sign} {roman(int(mark.amount or 0))}", notation=True)


def octave_line(kind: str, size: int) -> Handler:
    """An octave line on notation. ``kind`` and ``size`` are the standard's: "down" where the notes are written lower than they sound."""

    def write(ink: Ink, mark: Mark) -> None:
        if not ink.first:
            return
        name = mark.technique.name
        begins = mark.role in {Role.START, Role.SINGLE}
        if ink.layer.tab:
            if ink.layer.alone and begins:
                ink.lose(f"octave line, {name}", "left out: TAB shows where to play and has no octave lines")
            return
        place = "above" if kind == "down" else "below"
        if begins:
            number = ink.numbers.start("octave", (ink.voice, name), name, ink.event.span)
            if number is None:
                ink.lose(f"octave line, {name}", "left out: too many at once")
                return
            ink.before += ink.direction(f'<octave-shift type="{kind}" size="{size}" number="{number}"/>', place=place)
        if mark.role in {Role.STOP, Role.SINGLE}:
            number = ink.numbers.stop("octave", (ink.voice, name))
            if number is not None:
                ink.after += ink.direction(f'<octave-shift type="stop" size="{size}" number="{number}"/>', place=place)

    return write


def row(ink: Ink, mark: Mark, words: str) -> None:
    """Words that events in a row share: said above the first of them, with dashes to the last."""
    before, after = has_technique(ink.previous, mark), has_technique(ink.following, mark)
    key = (ink.voice, "row", mark.technique.name)
    if not before and not after:
        ink.say(words)
    elif not before:
        number = ink.numbers.start("dashes", key, mark.technique.name, ink.event.span)
        if number is not None:  # a further note of the chord finds it open
            ink.before += ink.direction(technique_words(words), f'<dashes type="start" number="{number}"/>')
    elif not after:
        number = ink.numbers.stop("dashes", key)
        if number is not None:
            ink.after += ink.direction(f'<dashes type="stop" number="{number}"/>')


def has_technique(event: Event | None, mark: Mark) -> bool:
    """Whether an event, or a note of it, has the technique of a mark."""
    if event is None:
        return False
    name = mark.technique.name
    return any(each.technique.name == name for each in event.marks) or any(
        each.technique.name == name for note in event.notes for each in note.marks
    )
