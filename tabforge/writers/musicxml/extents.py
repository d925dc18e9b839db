"""Techniques that reach over several events: vibrato, palm mute, let ring."""

from __future__ import annotations

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


def _extent(words: str) -> Handler:
    """Words above the first event and dashes to the last; the dashes stop after it."""

    def write(ink: Ink, mark: Mark) -> None:
        if not (ink.first and ink.layer.fingers_strings):
            return
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


_muted = _extent("P.M.")
_ringing = _extent("let ring")


def palm_mute(ink: Ink, mark: Mark) -> None:
    """Played damped, and told above."""
    ink.play = "<play><mute>palm</mute></play>"
    _muted(ink, mark)


def let_ring(ink: Ink, mark: Mark) -> None:
    """A tie to nowhere on notation, unless a tie to somewhere is there, and words above."""
    if ink.layer.plays and ink.note is not None and not ink.note.tied_out:
        ink.tied += '<tied type="let-ring"/>'
    _ringing(ink, mark)
