"""Chords as roman numerals of a scale: reading them, and the numeral of a chord.

Case is the third, and what follows the numeral is what would follow the chord's root: ``ii7`` is a minor seventh chord, ``V7`` a dominant
one, ``vii°`` a diminished triad, ``viiø7`` a half-diminished seventh (common practice). Where a numeral stands follows the rule of
degrees: a bare one stands on that degree of the scale in its own flavour, one with an accidental states the interval against the
major scale on the root. After a slash a number is the bass, a degree of the scale, and a numeral the chord that is led to (``V7/V``).
"""

from __future__ import annotations

import re
from functools import cache
from typing import Final

from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import Pitch, PitchClass
from tabforge.model.score import Scale
from tabforge.theory.chords import chord_labels, chord_named, usual_suffix
from tabforge.theory.degrees import resolve_degree
from tabforge.theory.intervals import interval_up, respell
from tabforge.theory.labels import Label
from tabforge.theory.scales import named_scale

NUMERALS: Final = ("I", "II", "III", "IV", "V", "VI", "VII")

_STEM: Final = "(?:##?|bb?|n)?(?:" + "|".join(sorted((*NUMERALS, *map(str.lower, NUMERALS)), key=len, reverse=True)) + ")"
_QUALITY: Final = "[A-Za-z0-9#°ø+Δ-]*"
NUMERAL_TEXT: Final[str] = f"{_STEM}{_QUALITY}(?:/[A-Za-z0-9#°ø+Δ-]+){{0,2}}"
"""Regular expression of a numeral. It lets through some that mean nothing: ``read_numeral`` tells."""

_NUMERAL: Final = re.compile(rf"(##?|bb?|n)?({'|'.join(sorted(NUMERALS, key=len, reverse=True))})(.*)", re.IGNORECASE)
_BASS: Final = re.compile(r"(?:##?|bb?|n)?[1-7]")
_LEADING: Final = ("V7", "V", "V9", "V7b9", "vii°7", "viiø7", "vii°")
"""Chords that lead to another (common practice)."""

_SIGNS: Final = (("m7b5", "ø7"), ("dim", "°"), ("aug", "+"))
"""How a chord's suffix is written after a numeral, where it is not the same."""


@cache
def read_numeral(text: str, scale: Scale) -> ChordSymbol | None:
    """The chord that a numeral such as ``ii7``, ``bVII``, ``viiø7``, ``I/3`` or ``V7/V`` is in a scale, or None. Cached.

    None where it is no numeral, its case and its quality contradict each other (``Im7``), or
    the scale lacks the degree that a bare numeral stands on.
    """
    whole = _simple(text, scale)
    if whole or "/" not in text:
        return whole
    head, _, tail = text.rpartition("/")
    if _BASS.fullmatch(tail):
        above, bass = read_numeral(head, scale), resolve_degree(scale, tail)
        if above is None or above.root is None or above.bass or not isinstance(bass, Pitch):
            return None
        return chord_named(above.root, above.suffix, respell(bass).pitch_class)
    goal = _simple(tail, scale)
    if goal is None or goal.root is None:
        return None
    own = named_scale(Pitch(goal.root.step, goal.root.alter, 4), "harmonic minor" if "b3" in chord_labels(goal) else "major")
    return _simple(head, own) if own else None


def _simple(text: str, scale: Scale) -> ChordSymbol | None:
    """A numeral without a slash of its own (``6/9`` is a quality)."""
    found = _NUMERAL.fullmatch(text)
    if found is None or not (found[2].isupper() or found[2].islower()):
        return None
    number = NUMERALS.index(found[2].upper()) + 1
    root = resolve_degree(scale, f"{found[1] or ''}{number}")
    suffix = _suffix(found[3], minor=found[2].islower())
    return chord_named(respell(root).pitch_class, suffix) if isinstance(root, Pitch) and suffix is not None else None


@cache
def _suffix(quality: str, minor: bool) -> str | None:
    """What follows a root for what follows a numeral: ``7`` is ``m7`` after a small one. None where case and third disagree."""
    ways = (f"m{quality}", quality) if minor and not quality.startswith("i") else (quality,)
    third = "b3" if minor else "3"
    for suffix in ways:
        chord = chord_named(PitchClass("C"), suffix)
        if chord and {label for label in chord_labels(chord) if label in ("b3", "3")} <= {third}:
            return chord.suffix
    return None


@cache
def numeral_of(chord: ChordSymbol, scale: Scale) -> str | None:
    """The numeral of a chord in a scale, with an accidental where its root is not the scale's own; None for N.C. Cached.

    A root of the scale counts however it is spelled. A chord without a third has the case of the scale's own third above its root.
    """
    suffix = usual_suffix(chord.suffix)
    if chord.root is None or suffix is None:
        return None
    accidental, number = _place(chord.root, scale)
    numeral = NUMERALS[number - 1]
    thirds = {"b3", "3"} & set(chord_labels(chord)) or _thirds(chord.root, scale)
    if thirds == {"b3"}:
        numeral = numeral.lower()
    for plain, sign in _SIGNS:
        if suffix.startswith(plain):
            suffix = sign + suffix.removeprefix(plain)
            break
    else:
        if numeral.islower() and suffix.startswith("m"):
            suffix = suffix[1:]
        suffix = suffix.removeprefix("maj") if suffix[3:4] in ("b", "#") else suffix
    bass = f"/{''.join(map(str, _place(chord.bass, scale)))}" if chord.bass else ""
    return f"{accidental}{numeral}{suffix}{bass}"


@cache
def applied_numeral(chord: ChordSymbol, scale: Scale) -> str | None:
    """A chord with notes outside a scale as the dominant or leading-note chord of one of its degrees: ``V7/V``, ``vii°7/ii``. Cached.

    None where it is neither. The root itself is no such goal: what leads there is the scale's own V.
    """
    for at, number in enumerate(scale.numbers):
        thirds = _thirds(scale.tones[at], scale)
        bare = resolve_degree(scale, str(number))
        if not at or len(thirds) != 1 or not isinstance(bare, Pitch) or bare.pitch_class != scale.tones[at]:
            continue
        goal = NUMERALS[number - 1].lower() if thirds == {"b3"} else NUMERALS[number - 1]
        for head in _LEADING:
            found = read_numeral(f"{head}/{goal}", scale)
            if found and found.root == chord.root and found.suffix == usual_suffix(chord.suffix):
                return f"{head}/{goal}"
    return None


def _place(note: PitchClass, scale: Scale) -> tuple[str, int]:
    """The accidental and the number by which a note is found in a scale; no accidental where the bare number is it."""
    offset = (note.semitone - scale.root.midi) % 12
    if offset in scale.offsets:
        at = scale.offsets.index(offset)
        label, number = scale.labels[at], scale.numbers[at]
        own = resolve_degree(scale, str(number))
        if isinstance(own, Pitch) and (own.midi - note.semitone) % 12 == 0:
            return "", number
        return label[:-1] or "n", number
    letters, semitones = interval_up(scale.root.pitch_class, note)
    plain = Label(letters + 1, 0)
    label = str(Label(plain.number, semitones - plain.offset))
    return label.rstrip("1234567") or "n", plain.number


def _thirds(root: PitchClass, scale: Scale) -> set[str]:
    """The one third that a scale has above a root, or nothing if it has both or none."""
    home = root.semitone - scale.root.midi
    found = {name for name, size in (("b3", 3), ("3", 4)) if (home + size) % 12 in scale.offsets}
    return found if len(found) == 1 else set()
