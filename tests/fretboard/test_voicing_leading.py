"""Voice leading: the chain that is chosen is the cheapest of all, by trying every chain."""

from __future__ import annotations

from itertools import combinations, pairwise, permutations, product
from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.fretboard.gripped import Grip, NoGrip
from tabforge.fretboard.leading import ENTERING, VOICE, lead_through, step_cost, voice_steps
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.players import PLAYERS
from tabforge.fretboard.voicings import VOICING_KINDS, VoicingKind, VoicingStyle, choose_grips, grips_of
from tabforge.model.harmony import ChordSymbol
from tabforge.theory.chords import parse_chord
from tests.fretboard.necks import BASS, GUITAR, MANDOLIN, UKULELE, necks

USUAL = PLAYERS["usual"]


def chords(text: str) -> list[ChordSymbol]:
    found = [parse_chord(name) for name in text.split()]
    return [symbol for symbol in found if symbol is not None]


def choices(neck: Neck, symbols: list[ChordSymbol], style: VoicingStyle, most: int) -> list[tuple[Grip, ...]]:
    found = [grips_of(neck, symbol, style, USUAL) for symbol in symbols]
    return [grips[:most] for grips in found if not isinstance(grips, NoGrip)]


def price(chain: tuple[Grip, ...], neck: Neck) -> int:
    """What a chain costs, from first principles: own costs, half steps of the voices, 10 mm begun of the hand's way."""
    total = sum(grip.cost for grip in chain)
    for before, after in pairwise(chain):
        total += VOICE * fewest_steps(before.pitches, after.pitches)
        if before.hand and after.hand:
            # Tenths of a millimetre from the nut, by the twelfth root of two.
            frets = (neck.capo + before.hand, neck.capo + after.hand)
            marks = [round(10 * neck.scale_length * (2 ** (-neck.capo / 12) - 2 ** (-fret / 12))) for fret in frets]
            total += ceil(abs(marks[1] - marks[0]) / 100)
    return total


def fewest_steps(before: tuple[int, ...], after: tuple[int, ...]) -> int:
    """Over every way to match voices, crossing or not."""
    few, many = sorted((before, after), key=len)
    ways = (sum(abs(low - high) for low, high in zip(few, some, strict=True)) for some in permutations(many, len(few)))
    return min(ways) + ENTERING * (len(many) - len(few))


pitches = st.lists(st.integers(36, 76), min_size=1, max_size=5).map(sorted).map(tuple)


@settings(max_examples=200, deadline=None)
@given(pitches, pitches)
def test_no_matching_of_voices_moves_less(before: tuple[int, ...], after: tuple[int, ...]) -> None:
    assert voice_steps(before, after) == voice_steps(after, before) == fewest_steps(before, after)


def test_voices_by_hand() -> None:
    assert voice_steps((48, 52, 55), (47, 50, 55)) == 3  # C E G to B D G: a half step, a whole step and a voice that stays
    assert voice_steps((48, 52, 55), (48, 52, 55, 60)) == ENTERING
    assert voice_steps((40, 60), (59,)) == 1 + ENTERING


@pytest.mark.parametrize("kind", VOICING_KINDS)
@pytest.mark.parametrize("neck", [GUITAR, UKULELE], ids=["guitar", "ukulele"])
def test_the_chain_is_the_best_of_all(kind: VoicingKind, neck: Neck) -> None:
    offered = choices(neck, chords("Dm7 G7 Cmaj7 A7 Dm7"), VoicingStyle(kind=kind), 5)
    every = list(product(*offered))
    best = min(price(chain, neck) for chain in every)
    chosen = tuple(lead_through(offered, neck))
    assert price(chosen, neck) == best
    assert chosen == next(chain for chain in every if price(chain, neck) == best)  # ties: the first of each chord's that will do


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from([GUITAR, BASS, MANDOLIN]) | necks(),
    st.lists(st.sampled_from(["C", "F#m7", "Bb7", "E", "Gsus4", "Ddim", "Amaj7"]), min_size=1, max_size=4),
    st.sampled_from(sorted(VOICING_KINDS)),
)
def test_it_is_so_on_any_neck(neck: Neck, names: list[str], kind: VoicingKind) -> None:
    offered = choices(neck, chords(" ".join(names)), VoicingStyle(kind=kind), 4)
    if not offered:
        return
    assert price(tuple(lead_through(offered, neck)), neck) == min(price(chain, neck) for chain in product(*offered))


def test_what_a_progression_gets_is_the_chain_over_all_grips() -> None:
    symbols = chords("G D Em C")
    style = VoicingStyle(kind="triads", strings=(4, 3, 2))
    offered = choices(GUITAR, symbols, style, 100)
    chosen = choose_grips(GUITAR, symbols, style, USUAL)
    best = min(price(chain, GUITAR) for chain in product(*offered))
    assert price(tuple(grip for grip in chosen if isinstance(grip, Grip)), GUITAR) == best
    alone = choose_grips(GUITAR, symbols, style, USUAL, lead=False)
    assert alone == tuple(grips[0] for grips in offered)
    assert moves(chosen) < moves(alone)


def moves(chain: tuple[Grip | NoGrip, ...]) -> int:
    grips = [grip for grip in chain if isinstance(grip, Grip)]
    return sum(voice_steps(before.pitches, after.pitches) for before, after in pairwise(grips))


def test_guide_tones_of_two_five_one_move_by_step() -> None:
    """In shells the seventh falls to the third and the third stays to be the seventh (any handbook of harmony; from memory)."""
    chain = choose_grips(GUITAR, chords("Dm7 G7 Cmaj7"), VoicingStyle(kind="shell"), USUAL)
    for before, after in pairwise(chain):
        assert isinstance(before, Grip)
        assert isinstance(after, Grip)
        assert all(abs(low - high) <= 2 for low, high in zip(before.pitches[1:], after.pitches[1:], strict=True))


def test_a_chord_without_a_grip_breaks_no_chain() -> None:
    style = VoicingStyle(kind="drop2", strings=(4, 3, 2, 1))
    chain = choose_grips(GUITAR, chords("Dm7 G C7 Fmaj7"), style, USUAL)
    assert [isinstance(grip, NoGrip) for grip in chain] == [False, True, False, False]
    assert chain[:1] + chain[2:] == choose_grips(GUITAR, chords("Dm7 C7 Fmaj7"), style, USUAL)
    assert choose_grips(GUITAR, [], style, USUAL) == ()


def test_steps_are_alike_in_both_directions() -> None:
    grips = [grip for each in choices(GUITAR, chords("C Am7"), VoicingStyle(kind="free"), 6) for grip in each]
    for before, after in combinations(grips, 2):
        way = price((before, after), GUITAR) - before.cost - after.cost
        assert step_cost(before, after, GUITAR) == step_cost(after, before, GUITAR) == way
