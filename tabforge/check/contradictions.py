"""Marks under one note that contradict each other."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.view import Marked, View, begun
from tabforge.diagnostics.catalogue.advice import CONTRARY_MARKS, DAMPED_AND_RINGING
from tabforge.diagnostics.core import Code, Diagnostic
from tabforge.model.techniques import Mark


def _pairs(*rows: tuple[str, str, str]) -> dict[frozenset[str], tuple[str, str, str]]:
    return {frozenset(row[:2]): row for row in rows}


_ONE_WAY: Final = "one stroke goes one way"
_ONE_SOUND: Final = "the next note is sounded in one way"

_DAMPED: Final = _pairs(
    ("palm mute", "let ring", "the palm that damps the strings keeps them from ringing on"),
    ("staccato", "let ring", "a note that is cut short does not ring on"),
)
_CONTRARY: Final = _pairs(
    ("vibrato", "wide vibrato", "the vibrato is either narrow or wide"),
    ("accent", "strong accent", "the strong accent holds the other already"),
    ("volume swell", "accent", "a swell takes the attack away that an accent asks for"),
    ("volume swell", "strong accent", "a swell takes the attack away that an accent asks for"),
    ("arpeggio upward", "arpeggio downward", _ONE_WAY),
    ("brush upward", "brush downward", _ONE_WAY),
    ("arpeggio upward", "brush upward", "the chord is either spread slowly or brushed"),
    ("arpeggio downward", "brush downward", "the chord is either spread slowly or brushed"),
    ("arpeggio upward", "brush downward", _ONE_WAY),
    ("arpeggio downward", "brush upward", _ONE_WAY),
    ("tap", "left-hand tap", "one hand or the other taps the note"),
    ("slide in from below", "slide in from above", "a note is slid into from one side"),
    ("slide out upward", "slide out downward", "a note is slid out of to one side"),
    ("hammer-on", "pull-off", _ONE_SOUND),
    ("hammer-on", "legato slide", _ONE_SOUND),
    ("hammer-on", "shift slide", _ONE_SOUND),
    ("pull-off", "legato slide", _ONE_SOUND),
    ("pull-off", "shift slide", _ONE_SOUND),
    ("legato slide", "shift slide", "after the slide the next note is either picked or not"),
    *(
        (lead, out, "the finger either goes on to the next note or slides away into nothing")
        for lead in ("hammer-on", "pull-off", "legato slide", "shift slide")
        for out in ("slide out upward", "slide out downward")
    ),
    ("octave higher", "octave lower", "the staff is moved by one octave line at a time"),
    ("octave higher", "two octaves higher", "the staff is moved by one octave line at a time"),
    ("octave lower", "two octaves higher", "the staff is moved by one octave line at a time"),
    ("barre", "half barre", "the first finger lies at one fret, over all strings or over some"),
)
"""Two techniques and why nobody plays both.

Staccato with tenuto is no contradiction: it is read as portato (common practice, no source).
"""

_RULES: Final[dict[frozenset[str], tuple[Code, tuple[str, str, str]]]] = {
    **{pair: (DAMPED_AND_RINGING, row) for pair, row in _DAMPED.items()},
    **{pair: (CONTRARY_MARKS, row) for pair, row in _CONTRARY.items()},
}
_KNOWN: Final = frozenset(name for pair in _RULES for name in pair)


def contradictions(view: View) -> Iterator[Diagnostic]:
    """Each pair of contrary marks that meets on one note, or on one event."""
    for found in view.crowded:
        if found.event.notes and not found.begins:
            continue
        seen: set[frozenset[str]] = set()
        event = found.event
        for note in event.notes or (None,):
            own = list(note.marks) if note is not None else []
            shared = [mark for mark in event.marks if note is None or mark.string in (None, note.string)]
            yield from _clashes(view, found, own + shared, seen)


def _clashes(view: View, found: Marked, marks: list[Mark], seen: set[frozenset[str]]) -> Iterator[Diagnostic]:
    leading = list(begun(marks))
    names = [
        mark.technique.name for mark in marks if mark.technique.name in _KNOWN and (not mark.technique.leads or mark in leading)
    ]
    for index, first in enumerate(names):
        for second in names[index + 1 :]:
            pair = frozenset((first, second))
            rule = _RULES.get(pair)
            if rule is None or pair in seen:
                continue
            seen.add(pair)
            code, (one, other, why) = rule
            said = f"{one} and {other} on the same note: {why}"
            yield from view.tell(code, said, found.event, "marks", (second,), expected="one of the two")
