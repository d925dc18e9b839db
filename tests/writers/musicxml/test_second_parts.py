"""Second parts as parts of the file. That it is valid, and that an independent reader and an engraver have all of it, is proved case by
case (``tests.test_cases``); here, what must hold between the parts.

Sources: music21 as an independent reader; W3C MusicXML 4.0: ``score-part``, ``note``'s attribute ``dynamics``, ``multiple-rest``.
"""

from __future__ import annotations

import re
from typing import Any

import pytest
from music21 import converter, repeat

from tabforge.model.score import Score
from tabforge.pipeline import study_from
from tabforge.writers.musicxml import write
from tabforge.writers.options import STAVES, Staves, WriteOptions
from tests.proof.readback import compare
from tests.proof.xsd import problems

STUDY = """\
scale    C3 major

riff "Alone"
  rhythm   w
  degrees  1 | r | r | r

riff "Accompanied"
  drone    1+5
  vamp     I | V
  pickup   q
  rhythm   q  | q q q q    | w    | w    | w | w
  degrees  5  |: 1 2 3 4 |[1 5 :|[2 8 | r | r

riff "Unseen"
  backing  hide
  drone    1 every h
  rhythm   w
  degrees  1 | r | r
"""


def score(text: str = STUDY) -> Score:
    found = study_from("sample.riff", text.encode())
    assert found.score is not None, [each.headline for each in found.diagnostics]
    return found.score


def parts(staves: Staves) -> tuple[str, list[Any]]:
    document, losses = write(score(), WriteOptions(staves=staves))
    assert losses == ()
    assert problems(document) == []
    assert compare(score(), document, staves) == []
    return document.decode(), list(converter.parseData(document.decode(), format="musicxml").parts)


@pytest.mark.parametrize("staves", STAVES)
def test_every_part_has_the_same_bars_keys_and_repeats(staves: Staves) -> None:
    _, found = parts(staves)
    lines = []
    for part in found:
        measures = list(part.getElementsByClass("Measure"))
        lines.append([
            (each.number, each.numberSuffix, each.offset, each.duration.quarterLength, str(each.leftBarline), str(each.rightBarline))
            for each in measures
        ])
        assert any(isinstance(each.rightBarline, repeat.RepeatMark) for each in measures)
    assert all(each == lines[0] for each in lines)


@pytest.mark.parametrize(("staves", "names"), [
    ("both", ["Guitar", "Drone", "Vamp"]), ("tab", ["Guitar", "Drone", "Vamp"]), ("notation", ["Guitar", "Drone", "Vamp"]),
    ("parts", ["Guitar", "Guitar (TAB)", "Drone", "Drone (TAB)", "Vamp", "Vamp (TAB)"]),
])  # fmt: skip
def test_they_are_named_and_numbered(staves: Staves, names: list[str]) -> None:
    document, _ = parts(staves)
    assert re.findall("<part-name>(.*?)</part-name>", document) == names
    assert re.findall('<part id="(.*?)">', document) == [f"P{number}" for number in range(1, len(names) + 1)]


@pytest.mark.parametrize("staves", STAVES)
def test_each_note_is_played_once(staves: Staves) -> None:
    """Of the two copies of a note, on staff and TAB, the one on TAB is silent (``dynamics="0"``)."""
    document, _ = parts(staves)
    pitched = [note for note in re.findall("<note[^>]*>.*?</note>", document) if "<pitch>" in note]
    silent = [note for note in pitched if note.startswith('<note dynamics="0"')]
    given = score()
    events = [event for section in given.sections for bar in section.bars for event in bar.voices[0]]
    events += [event for section in given.sections for part in section.backing if part.shown for bar in part.bars for event in bar]
    assert len(pitched) - len(silent) == sum(len(event.notes) for event in events)
    assert bool(silent) is (staves in ("both", "parts"))


def test_what_is_only_played_is_not_printed() -> None:
    hidden = score(STUDY.replace("  drone    1+5\n  vamp     I | V\n", "  backing  hide\n  drone    1+5\n  vamp     I | V\n"))
    plain = score(STUDY.replace("  drone    1+5\n  vamp     I | V\n", "").replace("  backing  hide\n  drone    1 every h\n", ""))
    assert write(hidden)[0] == write(plain)[0]


def test_rests_of_several_bars_are_one_only_where_every_part_rests() -> None:
    document, _ = parts("notation")
    assert re.findall("<multiple-rest>(.*?)</multiple-rest>", document) == ["3", "2"] * 3


def test_a_section_without_the_part_is_silent_in_it() -> None:
    _, (_, drone, vamp) = parts("notation")
    for part in (drone, vamp):
        bars = list(part.getElementsByClass("Measure"))
        sounding = [any(type(note).__name__ in ("Note", "Chord") for note in each.recurse().notes) for each in bars]
        assert not any(sounding[:4] + sounding[-3:])
        assert any(sounding[4:-3])
