"""Voice plans: which notes a voicing has, from the lowest up.

A plan names notes without octaves: each voice is the next one of its name above the voice before. Close position is such a plan by itself
(C E G B); where the second voice from the top goes an octave down it becomes the lowest, and all others stay: G C E B. Definitions and
what is left out are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, permutations
from typing import Final, NamedTuple

from tabforge.fretboard.chord_needs import Needs
from tabforge.fretboard.voicing_styles import INVERSIONS, VoicingKind
from tabforge.theory.labels import Label, read_label

Plan = tuple[int, ...]
"""Pitch classes, 0 to 11, from the lowest voice up."""

DEGREES: Final[tuple[tuple[int, ...], ...]] = ((1,), (3, 4, 2), (5,), (7, 6))
"""What counts as root, third, fifth and seventh of a chord: the first of these that it has. A suspended fourth or second stands for the
third, a sixth for the seventh.
"""

_WORDS: Final = ("root", "third", "fifth", "seventh or sixth")
_FOUR: Final = 4


class Refusal(NamedTuple):
    """Why a chord has no voicing of a style, in a whole sentence."""

    why: str


def inner_tone(needs: Needs, at: int) -> int | None:
    """The pitch class of a chord's root (0), third (1), fifth (2) or seventh (3); None if it has none."""
    by_number: dict[int, int] = {}
    for label, tone in needs.named.items():
        by_number.setdefault(read_label(label).number, tone)
    return next((by_number[number] for number in DEGREES[at] if number in by_number), None)


def bass_of(needs: Needs, inversion: int | None, name: str) -> int | Refusal | None:
    """The pitch class that must be the lowest: the bass a symbol names, or that of the inversion; None if any may be."""
    if needs.bass is not None or inversion is None:
        return needs.bass
    tone = inner_tone(needs, inversion)
    return Refusal(f"{name} has no {_WORDS[inversion]}, so there is no {INVERSIONS[inversion]} of it.") if tone is None else tone


def plans(kind: VoicingKind, needs: Needs, bass: int | None, name: str) -> list[Plan] | Refusal:
    """Every plan of a chord in a style, with that bass if there is one."""
    if kind == "power":
        return _power(needs, bass, name)
    if kind == "shell":
        return _shell(needs, bass, name)
    if kind in ("triads", "spread"):
        return _triads(kind, needs, bass, name)
    return _dropped(2 if kind == "drop2" else 3, needs, bass, name)


def _power(needs: Needs, bass: int | None, name: str) -> list[Plan] | Refusal:
    fifth = inner_tone(needs, 2)
    if fifth is None:
        return Refusal(f"{name} has no fifth.")
    if bass in (None, needs.root):
        return [(needs.root, fifth, needs.root), (needs.root, fifth)]
    return [(fifth, needs.root)] if bass == fifth else [(bass or 0, needs.root, fifth)]


def _shell(needs: Needs, bass: int | None, name: str) -> list[Plan] | Refusal:
    third = inner_tone(needs, 1)
    above = inner_tone(needs, 3)
    above = inner_tone(needs, 2) if above is None else above
    if third is None or above is None:
        return Refusal(f"{name} has no {_WORDS[1] if third is None else 'fifth or seventh'}.")
    lowest = needs.root if bass is None else bass
    # A bass that is none of the three takes the root's place.
    others = [tone for tone in (needs.root, third, above) if tone != lowest]
    others = others[-2:]
    return [(lowest, *order) for order in permutations(others)]


def _triads(kind: VoicingKind, needs: Needs, bass: int | None, name: str) -> list[Plan] | Refusal:
    tones = [inner_tone(needs, at) for at in range(3)]
    lacking = [word for word, tone in zip(_WORDS, tones, strict=False) if tone is None]
    if lacking:
        return Refusal(f"{name} has no {lacking[0]}, and a triad has root, third and fifth.")
    own = _rising([tone for tone in tones if tone is not None], needs.root)
    close = [(own[at], own[(at + 1) % 3], own[(at + 2) % 3]) for at in range(3)]
    found: list[Plan] = [(middle, low, high) if kind == "spread" else (low, middle, high) for low, middle, high in close]
    if bass is None:
        return found
    if bass in own:
        return [plan for plan in found if plan[0] == bass]
    return [(bass, *plan) for plan in found]


def _dropped(voice: int, needs: Needs, bass: int | None, name: str) -> list[Plan] | Refusal:
    """Close positions of four voices with one of them, counted from the top, an octave lower."""
    kept = _four(needs, bass)
    if len(kept) < _FOUR:
        return Refusal(f"{name} has {len(kept)} notes, and a drop {voice} voicing has four: write a sixth or a seventh chord.")
    inner = {inner_tone(needs, at) for at in range(_FOUR)}
    found = []
    own = _rising(kept, needs.root)
    for at in range(_FOUR):
        close = [*own[at:], *own[:at]]
        plan = (close.pop(-voice), *close)
        if plan[0] == bass or (bass is None and plan[0] in inner):
            found.append(plan)
    return found


def _four(needs: Needs, bass: int | None) -> list[int]:
    """The notes of a chord that four voices have; fewer if it has no more.

    Left out are, as many as need be, the fifth, what lies between the seventh and the highest note from the eleventh down, the root,
    and then the lowest; never the third, the seventh or the bass. A bass that is none of the chord's notes takes the root's place.
    """
    own = {read_label(label): tone for label, tone in needs.named.items()}
    labels = sorted(own)
    keep = {inner_tone(needs, 1), inner_tone(needs, 3), bass}
    sparing = [Label(5, 0), *(label for label in (Label(11, 0), Label(9, 0)) if label != labels[-1]), Label(1, 0)]
    order = [*sparing, *(label for label in labels if label not in sparing)]
    if bass is not None and bass not in own.values():
        own.pop(Label(1, 0), None)
        own[Label(0, 0)] = bass
    for label in order:
        if len(own) > _FOUR and label in own and own[label] not in keep:
            del own[label]
    return list(own.values())


def _rising(tones: Sequence[int], root: int) -> list[int]:
    """Pitch classes from the root up."""
    return sorted(set(tones), key=lambda tone: (tone - root) % 12)


def offsets(plan: Plan) -> tuple[int, ...]:
    """Half steps of a plan's voices above the lowest."""
    found = [0]
    for below, tone in pairwise(plan):
        found.append(found[-1] + ((tone - below) % 12 or 12))
    return tuple(found)
