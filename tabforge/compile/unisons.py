"""True unisons: a note that both voices strike at once is one note on one string, with a stem for each voice."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from tabforge.compile.strokes import Stroke
from tabforge.fretboard.fingers import Fingers
from tabforge.fretboard.neck import Place
from tabforge.fretboard.readings import Wanted


class Unison(NamedTuple):
    """Notes of a stroke that another voice strikes too. ``moment`` is the number of their moment; ``common`` says which of its
    notes are which of the moment's chord.
    """

    moment: int
    stroke: Stroke
    common: dict[int, int]


def shared(notes: Sequence[Wanted], chord: list[Wanted]) -> dict[int, int]:
    """Which notes of one voice are which of those that the other strikes with them: of one pitch, and not pinned to different places.

    What one voice pins holds for both: the notes of ``chord`` are pinned likewise.
    """
    common: dict[int, int] = {}
    for number, note in enumerate(notes):
        for index, other in enumerate(chord):
            pins = ((note.string, other.string), (note.fret, other.fret), (note.finger, other.finger))
            alike = (note.midi, note.cents) == (other.midi, other.cents)
            if alike and index not in common.values() and all(None in pair or pair[0] == pair[1] for pair in pins):
                common[number] = index
                string, fret, finger = (own if own is not None else its for own, its in pins)
                linked, slid = note.linked or other.linked, note.slid or other.slid
                chord[index] = other._replace(string=string, fret=fret, finger=finger, linked=linked, slid=slid)
                break
    return common


def settle(unison: Unison, places: Sequence[Place], fingers: Fingers, written: Mapping[int, str] | None) -> None:
    """Give a stroke the places of all its notes, those of the unison among them. ``places`` and ``fingers`` are its moment's chord's,
    empty if it cannot be played; the stroke has the places of its other notes. ``written``: how fingers are written, if they are shown.
    """
    stroke, common = unison.stroke, unison.common
    if not places or not stroke.wants:
        return
    own = iter(stroke.places)
    at = {place: index for index, place in reversed(list(enumerate(places)))}
    numbers = [common[number] if number in common else at[next(own)] for number in range(len(stroke.wants))]
    if written is not None and len(stroke.fingers) == len(stroke.places):  # else the writer gave them
        stroke.fingers = tuple([written[fingers[number]] for number in numbers])
    stroke.places = tuple([places[number] for number in numbers])
