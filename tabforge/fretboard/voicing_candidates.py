"""Candidates: the grips of one chord in one style, the best first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from typing import Final

from tabforge.fretboard.chord_needs import Needs, needs_of
from tabforge.fretboard.cost import Weights
from tabforge.fretboard.grip_holding import FARTHER, FINGER, fingers_of, held, least_cost, reach_on
from tabforge.fretboard.grip_shapes import DEEP, INNER, MOST_INNER, Part, order, shapes_in
from tabforge.fretboard.gripped import Frets, Grip
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import HAND_FRETS
from tabforge.fretboard.voice_places import LEFT_OUT, places_of, string_sets
from tabforge.fretboard.voice_plans import Refusal, bass_of, plans
from tabforge.fretboard.voicing_styles import VoicingKind, VoicingStyle, called
from tabforge.model.harmony import ChordSymbol

MOST_GRIPS: Final = 20
"""Grips of a chord that leading chooses from: those that weigh least by themselves."""

MOST_JUDGED: Final = 24
"""Grips of a part of the neck, or of a voice plan's, that are held to a hand: those that can weigh least."""

HIGHEST: Final = 12
"""Lowest fret of a grip at most: beyond the octave all grips come again (common practice, no source)."""

CLOSED: Final = 5
"""A grip in the first frets without an open string, where open strings are asked for."""

WORSE: Final[dict[VoicingKind, int]] = {"open": 3, "barre": 10, "free": 3}
"""How much more than a chord's best grip another may weigh, to be led to all the same. A voice plan's grips serve alike."""

BASS_BESIDE: Final = 5
"""A barre grip whose lowest string is not under the barre, on an instrument with a bass: there the usual ones have the root under the first
finger. A ukulele's have not: its Bm is 4222, with a high fourth string as with a low one.
"""

UNSTRUMMED: Final = 2
"""Each string that is not played in a barre grip on an instrument without a bass, more than in any other: it is strummed from end to end.
A string that begins farther up the neck is not counted.
"""

WIDE: Final = 5
"""A barre grip that reaches farther above its barre than USUAL_WIDTH."""

USUAL_WIDTH: Final = 3
"""Frets above the barre: the shapes of open chords that are moved behind one have no more."""

BELOW: Final[dict[VoicingKind, int]] = {"power": 4, "shell": 3}
"""Each string that is left out below such a voicing: they lie on the lower strings."""

BASS_OTHER: Final = 4
"""Another note than the root in the bass of a voice plan that nobody asked for."""

MUDDY: Final = 4
"""Two voices less than a fourth apart, the lower of them below LOW: they are heard as a rumble rather than as an interval."""

LOW: Final = 48
"""The pitch (C3) below which thirds and seconds are muddy: arrangers' low interval limits, from memory."""

FOURTH: Final = 5

NO_OCTAVE: Final = 3
"""Root and fifth without the octave."""

THIN: Final = 1
"""Each string that is not played in a grip of the first frets, more than in any other: open strings are there to ring."""

EVEN: Final = ("diminished-seventh", "augmented")
"""Kinds whose steps are all alike, so that any of their tones serves as the root."""

NOTHING: Final = 999
"""More than any grip weighs."""

LEAST_BARRE: Final = 3
"""Strings under a barre at least, or half of the neck's if that is fewer."""


@lru_cache(maxsize=4096)
def candidates(neck: Neck, chord: ChordSymbol, style: VoicingStyle, weights: Weights) -> tuple[Grip, ...] | Refusal:
    """The grips of a chord in a style, at most MOST_GRIPS, the best first; why there is none where the chord or the strings cannot have it,
    and nothing where no hand reaches one.
    """
    needs = needs_of(chord, len(neck.tuning))
    if needs is None:
        return Refusal(f"{chord.text} is no chord: nothing sounds.")
    missing = [string for string in style.strings if not 1 <= string <= len(neck.tuning)]
    if missing:
        return Refusal(f"There is no string {missing[0]} on a neck of {len(neck.tuning)} strings.")
    bass = bass_of(needs, style.inversion, chord.text)
    if isinstance(bass, Refusal):
        return bass
    if style.kind not in LEFT_OUT:
        if bass is not None:
            return _best(_looked_for(neck, style, _over(needs, bass), weights), WORSE[style.kind])
        rootless = chord.kind in EVEN and style.kind != "barre"
        if needs.bass is None and neck.lowest < DEEP and not rootless:
            # A plain name has its root lowest, where the instrument has a bass to speak of (common practice, no source).
            rooted = _looked_for(neck, style, _over(needs, needs.root), weights)
            if rooted or style.kind == "barre":  # the usual barre grips have it under the first finger
                return _best(rooted, WORSE[style.kind])
        return _best(_looked_for(neck, style, needs, weights), WORSE[style.kind])
    shapes = _planned(neck, chord, style, needs, bass, weights)
    if isinstance(shapes, Refusal):
        return shapes
    first = sorted(shapes, key=lambda each: (least_cost(each[1], each[0], weights), order(each[1])))[:MOST_JUDGED]
    return _best([grip for lack, frets in first if (grip := held(frets, neck, weights, lack))], None)


def _over(needs: Needs, bass: int) -> Needs:
    """The needs of a chord over one of its tones, or over another."""
    return replace(needs, bass=bass, needed=needs.needed | 1 << bass)


def _best(grips: Iterable[Grip], worse: int | None) -> tuple[Grip, ...]:
    """At most MOST_GRIPS grips, the best first, none of them so much worse than the best."""
    rising = sorted(grips, key=lambda grip: (grip.cost, order(grip.frets)))[:MOST_GRIPS]
    return tuple(grip for grip in rising if worse is None or grip.cost <= rising[0].cost + worse)


def _looked_for(neck: Neck, style: VoicingStyle, needs: Needs, weights: Weights) -> list[Grip]:
    """Grips of open, barre and free style: all that are worth having, and some others."""
    kind, strings = style.kind, tuple(sorted(set(style.strings)))
    reach = reach_on(neck, weights.hand)
    fingers, inner = fingers_of(weights), 0 if kind == "barre" else MOST_INNER
    best = NOTHING
    found: dict[Frets, Grip] = {}
    top = min(HAND_FRETS, neck.last) if kind == "open" else neck.last
    parts = [
        Part(base, min(reach[base] if base <= neck.last else 0, top), kind != "barre", strings, fingers, inner)
        for base in range(1, max(1, min(HIGHEST, top)) + 1)
    ]
    for part in parts:
        # A grip that lies up the neck weighs at least that much, and one finger.
        worst = best + WORSE[kind] - FINGER - FARTHER * (part.base - 1 if part.base > HAND_FRETS else 0)
        judged = []
        for lack, frets in shapes_in(part, needs, neck, worst):
            if frets not in found and (kind != "barre" or _barred(frets, part.base)):
                suffers = lack + _beside(kind, frets, neck)
                judged.append((least_cost(frets, suffers, weights), order(frets), suffers, frets))
        for least, _, lack, frets in sorted(judged)[:MOST_JUDGED]:
            if least > best + WORSE[kind]:
                break
            grip = held(frets, neck, weights, lack, barred=kind == "barre")
            if grip:
                found[frets] = grip
                best = min(best, grip.cost)
    return list(found.values())


def _planned(
    neck: Neck, chord: ChordSymbol, style: VoicingStyle, needs: Needs, bass: int | None, weights: Weights
) -> Iterable[tuple[int, Frets]] | Refusal:
    """Grips of a style that says which voice comes next."""
    found = plans(style.kind, needs, bass, chord.text)
    if isinstance(found, Refusal):
        return found
    asked = tuple(sorted(set(style.strings)))
    voices = sorted({len(plan) for plan in found})
    if asked and len(asked) not in voices:
        many = " or ".join(map(str, voices))
        given = "one string is" if len(asked) == 1 else f"{len(asked)} strings are"
        return Refusal(f"A {called(style.kind)} of {chord.text} has {many} voices, and {given} asked for.")
    if len(neck.tuning) < voices[0]:
        return Refusal(f"A {called(style.kind)} of {chord.text} has {voices[0]} voices, and this neck {len(neck.tuning)} strings.")
    reach = reach_on(neck, weights.hand)
    made = []
    for plan in found:
        left_out = LEFT_OUT[style.kind] + (bass is not None and bass not in needs.named.values())
        sets = [asked] if asked else string_sets(len(neck.tuning), len(plan), left_out)
        for strings in sets:
            if len(strings) != len(plan):
                continue
            lack = INNER * (strings[-1] - strings[0] + 1 - len(strings)) + BELOW.get(style.kind, 0) * (len(neck.tuning) - strings[-1])
            lack += BASS_OTHER if bass is None and plan[0] != needs.root else 0
            lack += NO_OCTAVE if style.kind == "power" and len(plan) < len(found[0]) else 0
            for frets in places_of(plan, strings, neck, reach):
                if _lowest(frets) <= HIGHEST:
                    made.append((lack + _mud(frets, neck), frets))
    return made


def _beside(kind: VoicingKind, frets: Frets, neck: Neck) -> int:
    """What a grip suffers besides what it lacks."""
    if kind == "open":
        return THIN * frets.count(None) + (CLOSED if 0 not in frets else 0)
    if kind != "barre":
        return 0
    barre, highest = _lowest(frets), max(fret for fret in frets if fret is not None)
    wide = WIDE * (highest - barre > USUAL_WIDTH)
    if neck.lowest < DEEP:
        return wide + BASS_BESIDE * (next(fret for fret in reversed(frets) if fret is not None) != barre)
    return wide + UNSTRUMMED * sum(fret is None and neck.has(string, 1) for string, fret in enumerate(frets, 1))


def _lowest(frets: Frets) -> int:
    return min((fret for fret in frets if fret), default=0)


def _barred(frets: Frets, base: int) -> bool:
    """Whether the first finger can lie across enough strings at a grip's lowest fret, all of them sounding."""
    at = [place for place, fret in enumerate(frets) if fret == base]
    least = min(LEAST_BARRE, max(2, len(frets) // 2))
    return at[-1] - at[0] + 1 >= least and None not in frets[at[0] : at[-1]]


def _mud(frets: Frets, neck: Neck) -> int:
    pitches = sorted(neck.midi_at(string, fret) for string, fret in enumerate(frets, 1) if fret is not None)
    return MUDDY * sum(low < LOW and high - low < FOURTH for low, high in pairwise(pitches))
