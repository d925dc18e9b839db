"""Techniques of one note or one event: bends, harmonics, heads, taps, ornaments, articulations."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from tabforge.model.techniques import Mark
from tabforge.writers.musicxml.extents import has_technique, row
from tabforge.writers.musicxml.ink import BEGINS, Handler, Ink, decimal


def on_note(element: str) -> Handler:
    """A sign of the note's own, on both staves: a slide from or to nowhere."""

    def write(ink: Ink, mark: Mark) -> None:
        ink.articulations += element

    return write


def bend(*, before: bool, release: bool) -> Handler:
    """A bend up, bent ``before`` the stroke or not, with its ``release`` or not. TAB alone has it."""

    def write(ink: Ink, mark: Mark) -> None:
        if not ink.layer.fingers_strings:
            return
        begins = mark.role in BEGINS
        if not begins and ink.note is not None and ink.note.tied_in:
            return  # The bent note goes on; one struck again while held up is a bend before the stroke.
        semitones = (mark.amount or Fraction(0)) * 2
        kind = "<pre-bend/>" if before or not begins else ""
        ink.technical += f'<bend shape="curved"><bend-alter>{decimal(semitones)}</bend-alter>{kind}</bend>'
        if release:
            ink.technical += f'<bend shape="curved"><bend-alter>{decimal(-semitones)}</bend-alter><release/></bend>'

    return write


def dead(ink: Ink, mark: Mark) -> None:
    """A cross for a head."""
    ink.cross = True


def ghost(ink: Ink, mark: Mark) -> None:
    """A head in parentheses."""
    ink.parentheses = True


def harmonic(letters: str, kind: str, pitch: str) -> Handler:
    """A harmonic. The standard tells natural and artificial apart; the words tell the rest, with the fret to touch where it is another.

    ``pitch`` says what the note's pitch is: what sounds, or, of a pinch harmonic, which may sound any partial, the stopped string.
    """

    def write(ink: Ink, mark: Mark) -> None:
        ink.technical += f"<harmonic><{kind}/><{pitch}/></harmonic>"
        if not ink.layer.fingers_strings or ink.note is None:
            return
        if not mark.amount:
            row(ink, mark, letters)
        elif not ink.note.tied_in:
            touched = f"({ink.note.fret + int(mark.amount)})"
            ink.say(touched if has_technique(ink.previous, mark) else f"{letters} {touched}")

    return write


def tap(hand: str, letters: str) -> Handler:
    """A tap with a hand, "left" or "right"; TAB has it, and its letters."""

    def write(ink: Ink, mark: Mark) -> None:
        if ink.layer.fingers_strings:
            ink.technical += f'<tap hand="{hand}"/>'
            ink.say(letters)  # readers lose the sign

    return write


_BETWEEN_HALF_AND_WHOLE: Final = 1.5
"""Half steps from which a trill is nearer to a whole step."""


def trill(ink: Ink, mark: Mark) -> None:
    """Notation has the sign; TAB, where the hand looks, the fret to alternate with. The standard knows half and whole steps only."""
    frets, note = int(mark.amount or 0), ink.note
    if ink.layer.plays and note is not None:
        steps = ink.section.half_steps(note.string, note.fret, note.fret + frets)
        step = "half" if steps < _BETWEEN_HALF_AND_WHOLE else "whole"
        ink.ornaments += f'<trill-mark trill-step="{step}"/>'
        if steps not in (1, 2):
            of = f"{frets} fret{'s' * (frets > 1)}" + (f", {steps:g} half steps" if steps != frets else "")
            ink.lose(f"trill of {of}", f"written as a trill of a {step} step, with its fret in words")
    if ink.layer.fingers_strings and ink.note is not None:
        ink.say(f"tr ({ink.note.fret + frets})")


def tremolo(ink: Ink, mark: Mark) -> None:
    """Strokes through the stem, on notation."""
    strokes = int(mark.amount or 0)
    if ink.layer.plays and ink.first and not ink.layer.tab:
        ink.ornaments += f'<tremolo type="single">{strokes}</tremolo>'
    elif ink.layer.plays and ink.first:
        # On a TAB staff the element makes a reader drop the note, so TAB alone has it in words.
        row(ink, mark, "tremolo picking")
        ink.lose(f"tremolo picking, {strokes} strokes", "written in words, without the strokes through the stem")


def articulation(element: str) -> Handler:
    """An articulation of the whole event, on its first note. TAB copies go without: they would be played."""

    def write(ink: Ink, mark: Mark) -> None:
        if ink.layer.plays and ink.first and ink.note is not None:
            ink.articulations += element

    return write


def fermata(ink: Ink, mark: Mark) -> None:
    """A fermata, upside down for a lower voice."""
    if ink.layer.plays and ink.first:
        ink.others += f'<fermata type="{"upright" if ink.upper else "inverted"}"/>'


def arpeggio(direction: str) -> Handler:
    """A spread chord, "up" or "down", on each of its notes."""

    def write(ink: Ink, mark: Mark) -> None:
        if ink.layer.plays and ink.note is not None:
            ink.others += f'<arpeggiate direction="{direction}"/>'

    return write


def brush(direction: str, arrow: str) -> Handler:
    """A quick stroke over a chord, "up" or "down" the page: an arrow at the chord, and one in words where the strings are seen."""

    def write(ink: Ink, mark: Mark) -> None:
        if not ink.first or ink.note is None:
            return
        if ink.layer.plays:
            ink.technical += f"<arrow><arrow-direction>{direction}</arrow-direction></arrow>"
        if ink.layer.fingers_strings:
            ink.say(f"brush {arrow}")  # readers lose the sign

    return write


def told(words: str) -> Handler:
    """What the standard has no sign for: words above TAB, at each event."""

    def write(ink: Ink, mark: Mark) -> None:
        if ink.layer.fingers_strings and ink.first:
            ink.say(words)

    return write


def told_in_a_row(words: str) -> Handler:
    """The same, said once for events in a row."""

    def write(ink: Ink, mark: Mark) -> None:
        if ink.layer.fingers_strings and ink.first:
            row(ink, mark, words)

    return write
