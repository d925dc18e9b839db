"""A chord's grips: one that is given, or those that are found."""

from __future__ import annotations

import re
from typing import Final

from tabforge.cli.diagramming.asked import Asked
from tabforge.cli.diagramming.ground import Ground, compiled, frets_of, line, worth_drawing
from tabforge.cli.exits import Exits
from tabforge.cli.screen import fail
from tabforge.diagrams.finding import find_grips
from tabforge.diagrams.grips import grip
from tabforge.diagrams.model import Diagram
from tabforge.fretboard.gripped import shape_text
from tabforge.model.harmony import ChordSymbol
from tabforge.model.score import Section

USUAL_GRIPS: Final = 3
FINGER_SIGNS: Final = ".1234T"
"""What stands for each finger of a grip: none, the four, the thumb."""

_FINGERS: Final = re.compile(r"[1-4T.]")


def of_chord(asked: Asked) -> list[Diagram]:
    """The charts of a chord's grips, the best first."""
    names = asked.what[1:]
    if len(names) > 1 or not (names or asked.shape):
        fail("One symbol follows the word chord, such as chord C/E; without one, --shape says what to draw.", Exits.USAGE)
    if asked.shape is not None and (asked.grips is not None or asked.frets is not None):
        fail("--grips and --frets say which grips to look for; with --shape there is but that one.", Exits.USAGE)
    if asked.voicing is None and (asked.strings is not None or asked.inversion is not None):
        fail("--strings and --inversion go with --voicing: they say which grips of it to look for.", Exits.USAGE)
    if asked.voicing is not None and (asked.shape is not None or asked.frets is not None):
        fail("--voicing looks for grips of its own, so neither --shape nor --frets goes with it.", Exits.USAGE)
    if asked.fingers is not None and asked.shape is None:
        fail("--fingers goes with --shape: it has a finger for each string.", Exits.USAGE)
    symbol = names[0] if names else "N.C."
    cell = symbol if asked.shape is None else f"{symbol}@{''.join(asked.shape.split())}"
    ground = compiled(asked, ["riff", "  rhythm w", "  notes r", line("  chords", cell)])
    chord = _first_chord(ground.section)
    neck = ground.neck
    labels = asked.labels or ("finger" if asked.fingers is not None else "degree" if chord.root else "note")
    if labels == "degree" and chord.root is None:
        fail("Degrees need a root to be counted from: name the chord, or choose --label note.", Exits.USAGE)
    if chord.root is None and chord.shape is None:
        fail("N.C. is no chord, so it has no grip.", Exits.USAGE)
    if asked.voicing is not None:
        return worth_drawing(_voiced(chord, ground, asked), labels)
    frets = frets_of(asked.frets, neck)
    shapes = [chord.shape] if chord.shape is not None else find_grips(chord, neck, asked.grips or USUAL_GRIPS, frets)
    if not shapes:
        fail(f"No hand reaches a grip of {symbol}" + (f" at frets {asked.frets}." if asked.frets else "."), Exits.USAGE)
    fingers = _fingers(asked.fingers, len(neck.tuning)) if asked.fingers is not None else ()
    made = [
        grip(each, neck, chord=chord, labels=labels, fingers=fingers, left_handed=bool(asked.left),
             subtitle="; ".join([*([shape_text(each)] if chord.root else []), *ground.about]))
        for each in shapes
    ]  # fmt: skip
    return worth_drawing(made, labels)


def _voiced(chord: ChordSymbol, ground: Ground, asked: Asked) -> list[Diagram]:
    """The charts of a chord's grips in a voicing, with the barres that their fingers make."""
    from tabforge.fretboard.players import PLAYERS  # noqa: PLC0415
    from tabforge.fretboard.voicings import VOICING_KINDS, NoGrip, VoicingStyle, grips_of  # noqa: PLC0415

    kind = next(kind for kind in VOICING_KINDS if kind == "".join((asked.voicing or "").split()))
    style = VoicingStyle(kind=kind, strings=_strings(asked.strings), inversion=asked.inversion)
    found = grips_of(ground.neck, chord, style, PLAYERS["usual"])
    if isinstance(found, NoGrip):
        fail(f"{found.why} {found.instead}", Exits.USAGE)
    return [
        grip(each.shape, ground.neck, chord=chord, labels=asked.labels or "degree", left_handed=bool(asked.left),
             fingers=[FINGER_SIGNS[finger] for finger in reversed(each.fingers)],
             subtitle="; ".join([shape_text(each.shape), *ground.about]))
        for each in found[: asked.grips or USUAL_GRIPS]
    ]  # fmt: skip


def _strings(text: str | None) -> tuple[int, ...]:
    words = (text or "").split()
    if text is not None and (not words or len(set(words)) < len(words) or not all(re.fullmatch("[1-9][0-9]?", word) for word in words)):
        fail(f"{text!r} are no strings: name each once by its number, such as 3 2 1.", Exits.USAGE)
    return tuple(map(int, words))


def _first_chord(section: Section) -> ChordSymbol:
    chord = section.bars[0].voices[0][0].attached.chord
    if chord is None:
        fail("A chord is named by its symbol, such as Bbmaj7, F#m7b5 or C/E.", Exits.USAGE)
    return chord


def _fingers(text: str, strings: int) -> list[str]:
    found = list("".join(text.split()).replace("0", ".").replace("x", "."))
    wrong = next((sign for sign in found if not _FINGERS.fullmatch(sign)), None)
    if wrong is not None or len(found) != strings:
        expected = "one sign each from the lowest, 1 to 4, T for the thumb, or a dot"
        fail(f"{text!r} are no fingers for {strings} strings: {expected}.", Exits.USAGE)
    return found
