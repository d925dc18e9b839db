"""What a list or an explanation shows of a scale."""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale
from tabforge.theory.scale_table import find_kind
from tabforge.theory.scales import named_scale


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleDescription:
    """A named scale in words: ``steps`` as ``W W H W W W H``, ``notes`` an example spelled on ``root``."""

    name: str
    others: tuple[str, ...]
    about: str
    labels: str
    steps: str
    root: str
    notes: str
    fifths: int


def step_text(size: int) -> str:
    """A step of so many semitones: 1 is ``H``, 2 ``W``, 3 ``W+H``, 4 ``W+W``."""
    return "+".join("W" * (size // 2) + "H" * (size % 2))


def steps_text(offsets: tuple[int, ...]) -> str:
    """The steps of a scale up to the octave, with a space between."""
    return " ".join(step_text(high - low) for low, high in zip(offsets, (*offsets[1:], 12), strict=True))


def tones_text(scale: Scale) -> str:
    """The spelled notes with a space between."""
    return " ".join(map(str, scale.tones))


def describe(name: str, root: Pitch = Pitch("C", 0, 4)) -> ScaleDescription | None:  # noqa: B008  # a frozen value
    """What there is to say of a named scale, spelled on a root; None if there is none of that name."""
    kind, scale = find_kind(name), named_scale(root, name)
    if kind is None or scale is None:
        return None
    return ScaleDescription(
        name=kind.name,
        others=kind.names[1:],
        about=kind.about,
        labels=" ".join(kind.labels),
        steps=steps_text(kind.offsets),
        root=str(root.pitch_class),
        notes=tones_text(scale),
        fifths=scale.fifths,
    )
