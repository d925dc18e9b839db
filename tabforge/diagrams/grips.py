"""Chord grips as charts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from tabforge.diagrams.frames import Shape, barre_of, frets_of
from tabforge.diagrams.model import Diagram, Dot
from tabforge.diagrams.naming import Labels, Naming
from tabforge.diagrams.spoken import in_words
from tabforge.diagrams.strings import strings_of
from tabforge.fretboard.gripped import Barre, shape_text
from tabforge.fretboard.neck import Neck
from tabforge.model.harmony import ChordSymbol

NO_FINGER: Final = "."


def _fingered(shape: Shape, fingers: Sequence[str]) -> tuple[Barre, ...]:
    """The barres of a grip whose fingers are given: one finger at one fret on several strings."""
    held: dict[tuple[int, str], list[int]] = {}
    for place, (fret, finger) in enumerate(zip(shape, fingers, strict=True)):
        if fret and finger != NO_FINGER:
            held.setdefault((fret, finger), []).append(len(shape) - place)
    return tuple(Barre(fret=fret, low=max(each), high=min(each)) for (fret, _), each in held.items() if len(each) > 1)


def grip(
    grip: Shape,
    neck: Neck,
    *,
    chord: ChordSymbol | None = None,
    labels: Labels = "degree",
    fingers: Sequence[str] = (),
    subtitle: str = "",
    left_handed: bool = False,
) -> Diagram:
    """The chart of a grip, named against a chord's root if there is one. The grip has a place for each string of the neck.

    ``fingers`` are those of its strings in the same order, ``.`` where none is given; empty if none are.
    """
    named = chord if chord is not None and chord.root is not None else None
    naming = Naming(labels, chord=named)
    dots = []
    count = len(grip)
    for place in reversed(range(count)):
        fret = grip[place]
        if fret is None:
            continue
        midi = neck.midi_at(count - place, fret)
        finger = fingers[place] if fingers and fingers[place] != NO_FINGER else None
        label = naming.label(midi, finger=finger)
        dots.append(Dot(string=count - place, fret=fret, midi=midi, label=label, role=naming.role(midi)))
    barre = barre_of(grip)
    first, last = frets_of(grip)
    diagram = Diagram(
        title=named.text if named else shape_text(grip),
        subtitle=subtitle,
        strings=strings_of(neck),
        first=first,
        last=last,
        dots=tuple(dots),
        muted=tuple(count - place for place in reversed(range(count)) if grip[place] is None),
        barres=_fingered(grip, fingers) if fingers else (barre,) if barre else (),
        upright=True,
        left_handed=left_handed,
        wires=neck.wires(first, last) if neck.fretting else (),
    )
    return replace(diagram, alt=in_words(diagram))
