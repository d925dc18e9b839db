"""A chord explained in a player's words."""

from __future__ import annotations

from typing import Final

from tabforge.explaining import facts
from tabforge.explaining.layout import entries, kept, listed
from tabforge.theory.labels import Label, read_label

_PERFECT: Final = (1, 4, 5)
_NAMES: Final = ("root", "second", "third", "fourth", "fifth", "sixth", "seventh")
_MORE: Final = {9: "ninth", 11: "eleventh", 13: "thirteenth"}
_SIZES: Final = {-2: "diminished", -1: "minor", 0: "major", 1: "augmented"}
_PERFECT_SIZES: Final = {-1: "diminished", 0: "perfect", 1: "augmented"}


def spoken(label: Label) -> str:
    """A tone of a chord by its interval above the root: ``minor third`` (common practice)."""
    simple = (label.number - 1) % 7 + 1
    name = _MORE.get(label.number) or _NAMES[simple - 1]
    if label == (1, 0):
        return name
    size = (_PERFECT_SIZES if simple in _PERFECT else _SIZES).get(label.alter)
    return f"{size} {name}" if size else f"{label}"


_ROLES: Final = {
    "home": "home",
    "lead": "it leads home",
    "colour": "it keeps the colour of the scale",
    "pull": "it leans toward the parent key",
    "parent": "it is the home of the parent key",
}


def role_words(role: str | None) -> str:
    """What a chord does, in words; empty where there is nothing to say."""
    return _ROLES.get(role or "", "")


def _asked(key: facts.Key) -> str:
    if key["outside"]:
        applied = f", or {key['applied']}" if key["applied"] else ""
        return f"{key['numeral']}{applied}; but {listed(key['outside'])} {'is' if len(key['outside']) == 1 else 'are'} not in the scale"
    words = role_words(key["role"])
    return f"{key['numeral']}" + (f": {words}" if words else "")


def chord_text(chord: facts.ChordFacts) -> str:
    """The page on a chord, without a line break at its end."""
    tones = chord["notes"]
    keys = ", ".join(kept(f"{key['numeral']} in {key['scale']}") for key in chord["keys"])
    scales = ", ".join(map(kept, chord["scales"])) + (f" and {chord['more_scales']} more" if chord["more_scales"] else "")
    lines = entries(
        (
            ("Notes", " ".join(tone["note"] for tone in tones) + (f", over {chord['bass']}" if chord["bass"] else "")),
            ("Degrees", " ".join(tone["degree"] for tone in tones)),
            ("Intervals", listed(spoken(read_label(tone["degree"])) for tone in tones)),
            (f"In {chord['asked']['scale']}" if chord["asked"] else "", _asked(chord["asked"]) if chord["asked"] else ""),
            ("In keys", keys or "no major or minor key has all its notes"),
            ("Scales on it", scales or "none that has a name"),
        )
    )
    return "\n".join([f"{chord['name']}  (a chord)", "", *lines])
