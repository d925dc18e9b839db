"""What a reader is told of frets that are not a half step each."""

from __future__ import annotations


def frets_in_words(fretting: tuple[float, ...]) -> str:
    """A section's fretting as a line of words."""
    if not fretting:
        return "Frets: a half step each"
    return "Frets, in half steps above the open string: " + " ".join(map(str, fretting))
