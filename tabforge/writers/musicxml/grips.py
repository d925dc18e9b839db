"""Chord diagrams: a grip as the standard's ``frame``."""

from __future__ import annotations

from tabforge.diagrams.frames import Shape, barre_of, frets_of


def frame(shape: Shape) -> str:
    """The ``frame`` of a grip: a fret for each string from the lowest, 0 for an open string, None for one that is not played.

    A grip that does not fit into the first frets is shown from its lowest fret on. Strings and frets are counted as on TAB.
    """
    first, last = frets_of(shape)
    barre = barre_of(shape)
    ends = {barre.low: '<barre type="start"/>', barre.high: '<barre type="stop"/>'} if barre else {}
    notes = ""
    for place, fret in enumerate(shape):
        if fret is not None:
            string = len(shape) - place
            notes += f"<frame-note><string>{string}</string><fret>{fret}</fret>{ends.get(string, '')}</frame-note>"
    if not notes:
        return ""  # the standard has no frame without a string that sounds
    start = f"<first-fret>{first}</first-fret>" if first > 1 else ""
    return f"<frame><frame-strings>{len(shape)}</frame-strings><frame-frets>{last - first + 1}</frame-frets>{start}{notes}</frame>"
