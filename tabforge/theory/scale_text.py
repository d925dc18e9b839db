"""A scale as a list or an explanation shows it."""

from __future__ import annotations

from tabforge.model.score import Scale


def step_text(size: int) -> str:
    """A step of so many semitones: 1 is ``H``, 2 ``W``, 3 ``W+H``, 4 ``W+W``."""
    return "+".join("W" * (size // 2) + "H" * (size % 2))


def steps_text(offsets: tuple[int, ...]) -> str:
    """The steps of a scale up to the octave, with a space between."""
    return " ".join(step_text(high - low) for low, high in zip(offsets, (*offsets[1:], 12), strict=True))


def tones_text(scale: Scale) -> str:
    """The spelled notes with a space between."""
    return " ".join(map(str, scale.tones))
