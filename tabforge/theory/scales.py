"""Scales on a root: named ones and one's own, spelled, with their key signature."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from itertools import accumulate

from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale
from tabforge.theory.keys import spelled, written_fifths
from tabforge.theory.labels import parse_label, plain_labels, read_label, spread_labels
from tabforge.theory.scale_table import SCALES, find_name, kin_of, kind_of_labels, kind_of_offsets

HALF, WHOLE = "H", "W"


def scale_of_labels(root: Pitch, labels: tuple[str, ...], name: str) -> Scale:
    """The scale of these degrees (ascending, the first "1") on a root. Raises ValueError for a text that is no degree."""
    degrees = [read_label(label) for label in labels]
    return Scale(
        name=name,
        root=root,
        labels=labels,
        numbers=tuple(degree.number for degree in degrees),
        tones=spelled(root.pitch_class, labels),
        offsets=tuple(degree.offset for degree in degrees),
        fifths=written_fifths(root.pitch_class, kin_of(labels)),
    )


@cache
def named_scale(root: Pitch, name: str) -> Scale | None:
    """A named scale on a root, or None if there is none of that name. Its ``name`` is the one asked for, in the table's spelling."""
    found = find_name(name)
    return scale_of_labels(root, found[1].labels, found[0]) if found else None


def on_root(scale: Scale, root: Pitch) -> Scale:
    """The same scale on another root."""
    return scale_of_labels(root, scale.labels, scale.name)


def step_size(step: str) -> int | None:
    """Semitones of a step such as ``H``, ``W`` or ``W+H``; None if it is none."""
    parts = step.split("+")
    if any(part not in (HALF, WHOLE) for part in parts):
        return None
    return sum(2 if part == WHOLE else 1 for part in parts)


def scale_from_steps(root: Pitch, steps: Sequence[str], name: str | None = None) -> Scale | None:
    """One's own scale by its steps up the octave. None if a step is none, or they do not add up to an octave (12 half steps)."""
    sizes = [step_size(step) for step in steps]
    if None in sizes or sum(size or 0 for size in sizes) != 12:
        return None
    return scale_from_semitones(root, list(accumulate((size or 0 for size in sizes[:-1]), initial=0)), name)


def scale_from_semitones(root: Pitch, semitones: Iterable[int], name: str | None = None) -> Scale | None:
    """One's own scale by semitones above the root, in any order. None if one lies outside 0 to 11, or the root (0) is missing."""
    offsets = tuple(sorted(set(semitones)))
    if not offsets or offsets[0] != 0 or offsets[-1] > 11:
        return None
    known = kind_of_offsets(offsets)
    labels = known.labels if known else spread_labels(offsets) or plain_labels(offsets)
    return scale_of_labels(root, labels, name or _name(labels))


def scale_from_degrees(root: Pitch, labels: Iterable[str], name: str | None = None) -> Scale | None:
    """One's own scale by its degrees, in any order.

    None if one is no degree of 1 to 7, 1 is missing, one lies outside the octave (b1, #7), or two sound alike (#4 and b5).
    """
    degrees = [parse_label(text) for text in dict.fromkeys(labels)]
    good = sorted((degree for degree in degrees if degree), key=lambda degree: degree.offset)
    offsets = [degree.offset for degree in good]
    if len(good) < len(degrees) or any(degree.number > 7 for degree in good):
        return None
    if not offsets or offsets[0] != 0 or str(good[0]) != "1" or offsets[-1] > 11 or len(set(offsets)) < len(offsets):
        return None
    ordered = tuple(map(str, good))
    return scale_of_labels(root, ordered, name or _name(ordered))


def _name(labels: tuple[str, ...]) -> str:
    """What to call a scale that was given no name: the table's name for these degrees, or the degrees themselves."""
    known = kind_of_labels(labels)
    return known.name if known else " ".join(labels)


def scale_names() -> list[str]:
    """Canonical names, families first."""
    return [kind.name for kind in SCALES]


def all_scale_names() -> list[str]:
    """Every name a scale may be asked for by."""
    return [name for kind in SCALES for name in kind.names]
