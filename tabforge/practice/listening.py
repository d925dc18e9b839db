"""What to listen for in a block, from what is in it: its colour, chords, techniques, rhythm, and what the hand has to do.

What of it matters in which order is common practice in teaching, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from tabforge.explaining.facts import BlockFacts, Heard, Stretch
from tabforge.explaining.layout import kept, listed
from tabforge.explaining.studies import block_facts
from tabforge.model.score import Score, Section
from tabforge.practice.hand import hand_points
from tabforge.practice.model import Listening
from tabforge.practice.rhythm import rhythm_points
from tabforge.practice.techniques import SOUNDS

MOST_TECHNIQUES: Final = 4
"""Of more techniques than these the ones used most are spoken of: an ear follows few things at a time."""

_MOST_CHANGES: Final = 4


def listening_of(score: Score, section: Section) -> tuple[Listening, ...]:
    """What to listen for in a block, the most telling first; never empty."""
    block = block_facts(section, score.divisions)
    return (
        *_colour(block),
        *_techniques(block),
        *_chords(block),
        *rhythm_points(section, score.divisions),
        *hand_points(score, section),
        *_evenness(block, section),
    )


def _colour(block: BlockFacts) -> Iterator[Listening]:
    for stretch in block["stretches"]:
        scale = stretch["scale"]
        if scale is None:
            continue
        where = "" if len(block["stretches"]) == 1 else f"in bars {stretch['first_bar']} to {stretch['last_bar']} "
        heard = [tone for tone in stretch["characteristic"] if tone["times"]]
        if heard:
            one = len(heard) == 1
            yield Listening(
                "colour",
                f"{where}{listed(map(_placed, heard))}: {'the note that makes' if one else 'the notes that make'} it {scale}. "
                f"Sing {'it' if one else 'them'} against the root before you play.",
            )
        else:
            root = stretch["notes"][0]
            yield Listening("home", f"{where}{root}, the root of {scale}: each time it comes round, let it sound like coming home.")
        yield from _outside(stretch)


def _placed(tone: Heard) -> str:
    return kept(f"{tone['degree']} ({tone['note']}, bar {tone['bar']})")


def _outside(stretch: Stretch) -> Iterator[Listening]:
    notes = stretch["outside"]
    if notes:
        one = "it leans" if len(notes) == 1 else "each of them leans"
        yield Listening("outside the scale", f"{listed(map(_placed, notes))}: hear where {one}, and let the next note answer.")


def _techniques(block: BlockFacts) -> Iterator[Listening]:
    told = [each["name"] for each in block["techniques"] if each["name"] in SOUNDS]
    said: set[str] = set()
    for name in told[:MOST_TECHNIQUES]:
        if SOUNDS[name] not in said:
            said.add(SOUNDS[name])
            yield Listening(name, f"{SOUNDS[name]}.")


def _chords(block: BlockFacts) -> Iterator[Listening]:
    names = [chord["chord"] for stretch in block["stretches"] for chord in stretch["chords"]]
    changes = list(dict.fromkeys(f"{old} to {new}" for old, new in pairwise(names) if old != new))
    if changes:
        more = " and the others" if len(changes) > _MOST_CHANGES else ""
        yield Listening(
            "changes",
            f"{listed(map(kept, changes[:_MOST_CHANGES])) if not more else ', '.join(map(kept, changes[:_MOST_CHANGES])) + more}: "
            "the new chord is there on its beat, nothing of the old one rings into it, and no beat waits for the hand.",
        )


def _evenness(block: BlockFacts, section: Section) -> Iterator[Listening]:
    chords = any(len(event.notes) > 1 for bar in section.bars for voice in bar.voices for event in voice)
    if chords:
        yield Listening("every string", "each note of each chord speaks: now and then play one slowly, string by string.")
    across = ", most of all where the string changes" if len(block["strings"]) > 1 else ""
    yield Listening("evenness", f"every note as long and as loud as its neighbours unless a mark says otherwise{across}.")
