"""The way through a study, against music21's reading of the same study in MusicXML with its repeats played out."""

from __future__ import annotations

from typing import Any

import pytest

from tabforge.model.score import PLAIN_LINE, BarLine, Score
from tabforge.performance import PlayOptions, perform
from tabforge.performance.way import MAX_MORE, way_through
from tabforge.source import Span
from tabforge.writers.musicxml import write
from tabforge.writers.options import WriteOptions
from tests.proof.readsigns import parse
from tests.proof.scores import bar, note, score, section, voice

OPENS = BarLine(repeat="forward")
CLOSES = BarLine(repeat="backward")


def ending(*numbers: int, forward: bool = False) -> BarLine:
    return BarLine(endings=numbers, repeat="forward" if forward else None)


def closed(*numbers: int, times: int = 2) -> BarLine:
    return BarLine(repeat="backward", endings=numbers, times=times)


def study(*given: tuple[BarLine, BarLine, str]) -> Score:
    """A bar for each; bar n has fret n on string 1 and so a pitch of its own. Signs are parted by spaces."""
    bars = [
        bar(voice(note("w", f"1:{fret}")), left=left, right=right, signs=tuple(signs.split()))
        for fret, (left, right, signs) in enumerate(given)
    ]
    return score(section(*bars))


def plain(signs: str = "", left: BarLine = PLAIN_LINE, right: BarLine = PLAIN_LINE) -> tuple[BarLine, BarLine, str]:
    return left, right, signs


def bars_played(given: Score) -> list[int]:
    """The bars in their order, by their pitch: E4, MIDI 64, is bar 0."""
    return [sound.midi - 64 for sound in perform(given).sounds]


def bars_expanded(given: Score) -> list[int]:
    """The same as music21 has it."""
    document: Any = parse(write(given, WriteOptions(staves="notation"))[0])
    return [each.pitch.midi - 64 for each in document.parts[0].expandRepeats().flatten().notes]


EXPANDED = {
    "a repeat": study(plain(), plain(left=OPENS), plain(right=CLOSES), plain()),
    "a repeat from the beginning": study(plain(), plain(right=CLOSES), plain()),
    "three times": study(plain(left=OPENS), plain(right=BarLine(repeat="backward", times=3)), plain()),
    "two repeats": study(plain(left=OPENS), plain(right=CLOSES), plain(left=OPENS), plain(right=CLOSES)),
    "two endings": study(
        plain(left=OPENS), plain(left=ending(1), right=closed(1)), plain(left=ending(2), right=BarLine(endings=(2,))), plain()
    ),
    "three endings": study(
        plain(left=OPENS), plain(left=ending(1), right=closed(1)), plain(left=ending(2), right=closed(2)),
        plain(left=ending(3), right=BarLine(endings=(3,))), plain(),
    ),
    "an ending of two bars": study(
        plain(left=OPENS), plain(), plain(left=ending(1)), plain(right=closed(1)), plain(left=ending(2), right=BarLine(endings=(2,)))
    ),
    "da capo al fine": study(plain(), plain("fine"), plain("dcfine")),
    "da capo": study(plain(), plain(), plain("dc")),
    "dal segno al fine": study(plain(), plain("segno"), plain("fine"), plain("dsfine")),
    "dal segno al coda": study(plain(), plain("segno"), plain("tocoda"), plain("dscoda"), plain("coda"), plain()),
    "da capo al coda": study(plain(), plain("tocoda"), plain("dccoda"), plain("coda")),
}  # fmt: skip

WALKED = {
    "a bare da capo ends at the fine, which music21 passes over": (study(plain(), plain("fine"), plain("dc")), [0, 1, 2, 0, 1]),
    "an ending for two passes": (
        study(plain(left=OPENS), plain(left=ending(1, 2), right=closed(1, 2)), plain(left=ending(3), right=BarLine(endings=(3,)))),
        [0, 1, 0, 1, 0, 2],
    ),
    "repeats are not taken again after a jump, and of endings the last is": (
        study(
            plain(left=OPENS), plain(left=ending(1), right=closed(1)), plain("fine", left=ending(2), right=BarLine(endings=(2,))),
            plain("dcfine"),
        ),
        [0, 1, 0, 2, 3, 0, 2],
    ),
    "a repeat in the coda is taken": (
        study(plain("tocoda"), plain("dccoda"), plain("coda", left=OPENS), plain(right=CLOSES)), [0, 1, 0, 2, 3, 2, 3]
    ),
    "a jump inside a repeat waits for the last pass": (
        study(plain(left=OPENS), plain("dcfine", right=CLOSES), plain("fine")), [0, 1, 0, 1, 0, 1, 2]
    ),
    "a single ending": (study(plain(left=OPENS), plain(left=ending(1), right=closed(1)), plain()), [0, 1, 0, 2]),
    # What contradicts itself is answered as ``way`` says.
    "a segno that is not there": (study(plain(), plain("dsfine"), plain()), [0, 1, 2]),
    "a coda that is not there": (study(plain("tocoda"), plain("dccoda"), plain()), [0, 1, 0, 1, 2]),
    "fine without a jump": (study(plain("fine"), plain()), [0, 1]),
    "two jumps in a row": (study(plain(), plain("dc"), plain("ds segno"), plain()), [0, 1, 0, 1, 2, 2, 3]),
    "repeats inside repeats": (
        study(plain(left=OPENS), plain(left=OPENS), plain(right=CLOSES), plain(right=CLOSES)), [0, 1, 2, 1, 2, 3, 3]
    ),
    "an ending that no pass reaches": (
        study(plain(left=OPENS), plain(left=ending(1), right=closed(1)), plain(left=ending(3), right=BarLine(endings=(3,))), plain()),
        [0, 1, 0, 3],
    ),
    "an ending that never ends": (study(plain(left=OPENS), plain(left=ending(1)), plain(right=CLOSES)), [0, 1, 2, 0]),
    "a repeat once": (study(plain(right=BarLine(repeat="backward", times=1)), plain()), [0, 1]),
}  # fmt: skip


@pytest.mark.parametrize("name", EXPANDED)
def test_repeats_are_played_out_as_music21_does(name: str) -> None:
    assert bars_played(EXPANDED[name]) == bars_expanded(EXPANDED[name])


@pytest.mark.parametrize("name", WALKED)
def test_what_music21_does_not_know_follows_common_practice(name: str) -> None:
    """Common practice, no source; what contradicts itself has the answer that ``way`` states."""
    given, expected = WALKED[name]
    assert bars_played(given) == expected


def test_a_way_that_is_too_long_is_not_gone() -> None:
    long = study(plain(), plain(right=BarLine(repeat="backward", times=MAX_MORE)), plain())
    assert perform(long).straight
    assert bars_played(long) == [0, 1, 2]
    just = study(plain(right=BarLine(repeat="backward", times=MAX_MORE // 2)), plain())
    assert not way_through(just.sections, (0,)).straight


def test_a_study_in_several_keys_begins_again_in_each() -> None:
    """The same blocks come again with the same places in the source."""
    bars = (bar(voice(note("w", "1:0"))), bar(voice(note("w", "1:1")), signs=("dc",)))
    moved = (bar(voice(note("w", "1:2"))), bar(voice(note("w", "1:3")), signs=("dc",)))
    given = score(section(*bars, span=Span(5, 9)), section(*moved, span=Span(5, 9)))
    assert bars_played(given) == [0, 1, 0, 1, 2, 3, 2, 3]


def test_a_way_leads_through_blocks() -> None:
    first = (bar(voice(note("w", "1:0"))), bar(voice(note("w", "1:1")), signs=("fine",)))
    second = (bar(voice(note("w", "1:2")), signs=("dcfine",)),)
    given = score(section(*first, span=Span(5, 9)), section(*second, span=Span(20, 22)))
    assert bars_played(given) == [0, 1, 2, 0, 1]
    played = perform(given)
    whole = 4 * given.divisions
    assert [(each.section, each.start, each.end) for each in played.passages] == [
        (0, 0, 2 * whole), (1, 2 * whole, 3 * whole), (0, 3 * whole, 5 * whole)
    ]  # fmt: skip


def test_sections_are_chosen() -> None:
    given = score(section(bar(voice(note("w", "1:0")))), section(bar(voice(note("w", "1:5")), right=CLOSES)))
    assert [sound.midi for sound in perform(given, PlayOptions(sections=(1,))).sounds] == [69, 69]
    assert [sound.midi for sound in perform(given, PlayOptions(sections=(1, 0))).sounds] == [69, 69, 64]
    with pytest.raises(IndexError):
        perform(given, PlayOptions(sections=(2,)))
