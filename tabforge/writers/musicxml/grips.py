"""Chord diagrams: a grip as the standard's ``frame``."""

from __future__ import annotations

from typing import Final

_LEAST: Final = 4
"""Frets a diagram shows at least (common practice, no source)."""

_FINGERS: Final = 4


def frame(shape: tuple[int | None, ...]) -> str:
    """The ``frame`` of a grip: a fret for each string from the lowest, 0 for an open string, None for one that is not played.

    A grip that does not fit into the first frets is shown from its lowest fret on. Strings and frets are counted as on TAB.
    """
    fretted = [fret for fret in shape if fret]
    first = min(fretted) if fretted and max(fretted) > _LEAST else 1
    frets = max([_LEAST, *(fret - first + 1 for fret in fretted)])
    barre = _barre(shape)
    notes = ""
    for place, fret in enumerate(shape):
        if fret is not None:
            kind = {place: f'<barre type="{end}"/>' for place, end in zip(barre, ("start", "stop"), strict=False)}.get(place, "")
            notes += f"<frame-note><string>{len(shape) - place}</string><fret>{fret}</fret>{kind}</frame-note>"
    if not notes:
        return ""  # the standard has no frame without a string that sounds
    start = f"<first-fret>{first}</first-fret>" if first > 1 else ""
    return f"<frame><frame-strings>{len(shape)}</frame-strings><frame-frets>{frets}</frame-frets>{start}{notes}</frame>"


def _barre(shape: tuple[int | None, ...]) -> tuple[int, int] | tuple[()]:
    """The outer places of a barre, if the grip takes one (common practice, no source).

    The first finger lies over several strings at the lowest fret, no open string among them, where there are as many strings to hold down
    as there are fingers, or more.
    """
    fretted = [fret for fret in shape if fret]
    if len(fretted) < _FINGERS:
        return ()
    lowest = min(fretted)
    places = [place for place, fret in enumerate(shape) if fret == lowest]
    inside = shape[places[0] : places[-1] + 1]
    return () if len(places) < 2 or 0 in inside else (places[0], places[-1])
