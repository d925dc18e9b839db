"""Every playing technique in MusicXML: a table from its name to the function that writes it.

Of two layers, notation has slurs, slides, articulations and ornaments; TAB has the letters, bends and words. A layer that is alone has
both. Each handler is called for every note of an event that has the mark (for marks of the event: for every note; once for a rest).
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from fractions import Fraction
from typing import Final

from tabforge.model.techniques import Mark, Role
from tabforge.writers.musicxml.ink import Ink, decimal, technique_words

Handler = Callable[[Ink, Mark], None]

_BEGINS: Final = {Role.START, Role.SINGLE}


def _key(ink: Ink, *more: Hashable) -> Hashable:
    # The voices of a part's staves have different numbers.
    return (ink.voice, *more)


def _line(ink: Ink, mark: Mark, kind: str, name: str, text: str = "", more: str = "") -> str:
    """A line that begins on one note and ends on the next of its string; numbered among the lines of ``kind``."""
    key = _key(ink, mark.technique.name, name, ink.note and ink.note.string)
    starts = mark.role is Role.START
    if starts:
        number = ink.numbers.start(kind, key, mark.technique.name, ink.event.span)
    else:
        number = ink.numbers.stop(kind, key) if mark.role is Role.STOP else None
    if number is None:
        ink.lose(mark.technique.name, "left out: too many at once" if starts else "left out: it has no beginning or no end")
        return ""
    attributes = f'type="{mark.role.value}" number="{number}"{more}'
    return f"<{name} {attributes}>{text}</{name}>" if text and starts else f"<{name} {attributes}/>"


def _slur(ink: Ink, mark: Mark) -> None:
    ink.lines += _line(ink, mark, "line", "slur")


def _legato(name: str, letter: str) -> Handler:
    def write(ink: Ink, mark: Mark) -> None:
        if ink.layer.fingers_strings:
            ink.technical += _line(ink, mark, name, name, letter)
        if not ink.layer.tab:
            _slur(ink, mark)

    return write


def _slide(ink: Ink, mark: Mark) -> None:
    ink.lines += _line(ink, mark, "line", "slide", more=' line-type="solid"')


def _legato_slide(ink: Ink, mark: Mark) -> None:
    _slur(ink, mark)
    _slide(ink, mark)


def _on_note(element: str) -> Handler:
    def write(ink: Ink, mark: Mark) -> None:
        ink.articulations += element

    return write


def _bend(*, before: bool, release: bool) -> Handler:
    def write(ink: Ink, mark: Mark) -> None:
        if not ink.layer.fingers_strings:
            return
        begins = mark.role in _BEGINS
        if not begins and ink.note is not None and ink.note.tied_in:
            return  # The bent note goes on; one struck again while held up is a bend before the stroke.
        semitones = (mark.amount or Fraction(0)) * 2
        kind = "<pre-bend/>" if before or not begins else ""
        ink.technical += f'<bend shape="curved"><bend-alter>{decimal(semitones)}</bend-alter>{kind}</bend>'
        if release:
            ink.technical += f'<bend shape="curved"><bend-alter>{decimal(-semitones)}</bend-alter><release/></bend>'

    return write


def _wave(glyph: str) -> Handler:
    def write(ink: Ink, mark: Mark) -> None:
        # One wavy line for the event, however many of its notes are shaken.
        key = _key(ink, mark.technique.name)
        start = ink.numbers.start("wave", key, mark.technique.name, ink.event.span) if mark.role in _BEGINS else None
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
        key = _key(ink, mark.technique.name)
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


def _palm_mute(ink: Ink, mark: Mark) -> None:
    ink.play = "<play><mute>palm</mute></play>"
    _muted(ink, mark)


def _let_ring(ink: Ink, mark: Mark) -> None:
    if ink.layer.plays and ink.note is not None and not ink.note.tied_out:
        ink.tied += '<tied type="let-ring"/>'
    _ringing(ink, mark)


def _dead(ink: Ink, mark: Mark) -> None:
    ink.cross = True


def _ghost(ink: Ink, mark: Mark) -> None:
    ink.parentheses = True


def _harmonic(letters: str, kind: str, pitch: str) -> Handler:
    """A harmonic. The standard tells natural and artificial apart; the words tell the rest, with the fret to touch where it is another."""

    def write(ink: Ink, mark: Mark) -> None:
        ink.technical += f"<harmonic><{kind}/><{pitch}/></harmonic>"
        if ink.layer.fingers_strings and ink.note is not None and not ink.note.tied_in:
            touched = f" ({ink.note.fret + int(mark.amount)})" if mark.amount else ""
            ink.say(letters + touched)

    return write


def _tap(hand: str, letters: str) -> Handler:
    def write(ink: Ink, mark: Mark) -> None:
        if ink.layer.fingers_strings:
            ink.technical += f'<tap hand="{hand}"/>'
            ink.say(letters)  # readers lose the sign

    return write


def _trill(ink: Ink, mark: Mark) -> None:
    """Notation has the sign; TAB, where the hand looks, the fret to alternate with. The standard knows half and whole steps only."""
    frets = int(mark.amount or 0)
    if ink.layer.plays:
        step = "half" if frets == 1 else "whole"
        ink.ornaments += f'<trill-mark trill-step="{step}"/>'
        if frets > 2:
            ink.lose(f"trill of {frets} frets", "written as a trill of a whole step, with its fret in words")
    if ink.layer.fingers_strings and ink.note is not None:
        ink.say(f"tr ({ink.note.fret + frets})")


def _tremolo(ink: Ink, mark: Mark) -> None:
    strokes = int(mark.amount or 0)
    if ink.layer.plays and ink.first and not ink.layer.tab:
        ink.ornaments += f'<tremolo type="single">{strokes}</tremolo>'
    elif ink.layer.plays and ink.first:
        # On a TAB staff the element makes a reader drop the note, so TAB alone has it in words.
        ink.say("tremolo picking")
        ink.lose(f"tremolo picking, {strokes} strokes", "written in words, without the strokes through the stem")


def _articulation(element: str) -> Handler:
    def write(ink: Ink, mark: Mark) -> None:
        if ink.layer.plays and ink.first and ink.note is not None:
            ink.articulations += element

    return write


def _fermata(ink: Ink, mark: Mark) -> None:
    if ink.layer.plays and ink.first:
        ink.others += f'<fermata type="{"upright" if ink.upper else "inverted"}"/>'


def _arpeggio(direction: str) -> Handler:
    def write(ink: Ink, mark: Mark) -> None:
        if ink.layer.plays and ink.note is not None:
            ink.others += f'<arpeggiate direction="{direction}"/>'

    return write


HANDLERS: Final[dict[str, Handler]] = {
    "hammer-on": _legato("hammer-on", "H"),
    "pull-off": _legato("pull-off", "P"),
    "legato slide": _legato_slide,
    "shift slide": _slide,
    "slide in from below": _on_note("<scoop/>"),
    "slide in from above": _on_note("<plop/>"),
    "slide out upward": _on_note("<doit/>"),
    "slide out downward": _on_note("<falloff/>"),
    "bend": _bend(before=False, release=False),
    "bend and release": _bend(before=False, release=True),
    "pre-bend": _bend(before=True, release=False),
    "pre-bend and release": _bend(before=True, release=True),
    "vibrato": _wave("guitarVibratoStroke"),
    "wide vibrato": _wave("guitarWideVibratoStroke"),
    "palm mute": _palm_mute,
    "let ring": _let_ring,
    "dead note": _dead,
    "ghost note": _ghost,
    "natural harmonic": _harmonic("N.H.", "natural", "sounding-pitch"),
    "artificial harmonic": _harmonic("A.H.", "artificial", "base-pitch"),
    "pinch harmonic": _harmonic("P.H.", "artificial", "base-pitch"),
    "tapped harmonic": _harmonic("T.H.", "artificial", "base-pitch"),
    "tap": _tap("right", "T"),
    "left-hand tap": _tap("left", "LT"),
    "trill": _trill,
    "tremolo picking": _tremolo,
    "staccato": _articulation("<staccato/>"),
    "tenuto": _articulation("<tenuto/>"),
    "accent": _articulation("<accent/>"),
    "strong accent": _articulation('<strong-accent type="up"/>'),
    "fermata": _fermata,
    "arpeggio upward": _arpeggio("up"),
    "arpeggio downward": _arpeggio("down"),
}
"""Technique name to handler. One that is not here raises KeyError: a technique must be written, or declared as a loss, on purpose."""


TAB_HAS_NOTHING: Final = frozenset(
    {
        "tremolo picking",
        "staccato",
        "tenuto",
        "accent",
        "strong accent",
        "fermata",
        "arpeggio upward",
        "arpeggio downward",
    }
)
"""Techniques of which a TAB staff below notation shows nothing, so that its notes may be written as plain ones."""


def write_marks(ink: Ink, marks: tuple[Mark, ...]) -> None:
    """Write the marks of the note whose turn it is. What ends comes first: a note may end one line and begin the next."""
    if len(marks) > 1:
        marks = tuple(sorted(marks, key=_ends_first))
    for mark in marks:
        HANDLERS[mark.technique.name](ink, mark)


def _ends_first(mark: Mark) -> bool:
    return mark.role is not Role.STOP
