"""What to listen for is in the block, and what is in the block is listened for. The sentences are common practice, no source."""

from __future__ import annotations

import pytest

from tabforge.explaining.layout import HARD
from tabforge.model.techniques import BY_NAME, TECHNIQUES
from tabforge.practice import plan_lines
from tabforge.practice.listening import MOST_TECHNIQUES, listening_of
from tabforge.practice.model import Listening
from tabforge.practice.techniques import SOUNDS, UNHEARD
from tests.practice.planning import EXAMPLES, example, plain, score_of


def heard(body: str, head: str = "scale C3 major\ntempo 90\n") -> dict[str, str]:
    score = score_of(f'title A\n{head}riff "B"\n{body}')
    return {point.about: point.text.replace(HARD, " ") for point in listening_of(score, score.sections[0])}


def test_every_technique_has_a_sentence_or_a_reason_why_not() -> None:
    assert SOUNDS.keys() | UNHEARD.keys() == BY_NAME.keys()
    assert not SOUNDS.keys() & UNHEARD.keys()
    for text in SOUNDS.values():
        assert 25 <= len(text) <= 140
        assert text[0].islower()
        assert text[-1] not in ".,;: "
    assert all(reason.strip() for reason in UNHEARD.values())
    assert len(SOUNDS) + len(UNHEARD) == len(TECHNIQUES)


@pytest.mark.parametrize(("marks", "names"), [
    ("b1 . . .", {"bend"}),
    ("h . v .", {"hammer-on", "vibrato"}),
    ("pm - - -", {"palm mute"}),
    ("8va - - -", set()),
    (". . . .", set()),
])
def test_the_techniques_of_a_block_are_listened_for(marks: str, names: set[str]) -> None:
    found = heard(f" rhythm q q q q\n frets 3:5 7 5 4\n marks {marks}\n")
    assert found.keys() & SOUNDS.keys() == names
    assert all(found[name] == f"{SOUNDS[name]}." for name in names)


def test_no_more_techniques_than_an_ear_can_follow() -> None:
    found = heard(" rhythm e*8\n frets 3:5 7 5 7 5 7 5 7\n marks h v . st tn ac gh x\n")
    assert len(found.keys() & SOUNDS.keys()) == MOST_TECHNIQUES


def test_the_characteristic_tone_is_named_where_it_is_heard() -> None:
    """Lydian's raised fourth (common practice): B over F."""
    found = heard(" rhythm q q q q | q q h\n degrees 1 3 5 3 | #4 5 1\n", "scale F3 lydian\ntempo 90\n")
    assert found["colour"].startswith("#4 (B, bar 2): the note that makes it F lydian.")
    plain_one = heard(" rhythm q q q q\n degrees 1 3 5 3\n", "scale F3 lydian\ntempo 90\n")
    assert "colour" not in plain_one
    assert plain_one["home"].startswith("F, the root of F lydian")


def test_notes_outside_the_scale() -> None:
    assert "b3 (Eb, bar 1)" in heard(" rhythm q q q q\n degrees 1 b3 3 5\n")["outside the scale"]
    assert "outside the scale" not in heard(" rhythm q q q q\n degrees 1 2 3 5\n")


def test_chord_changes_are_counted_once() -> None:
    found = heard(" chords C . F . | C . F .\n rhythm q q q q | q q q q\n degrees 1 1 4 4 | 1 1 4 4\n")
    assert found["changes"].startswith("C to F and F to C: ")
    assert "changes" not in heard(" chords C . . .\n rhythm q q q q\n degrees 1 2 3 4\n")


@pytest.mark.parametrize(("body", "about", "said"), [
    (" rhythm 3(e e e) q h\n degrees 1 2 3 4 5\n", "triplets", "plain notes beside them"),
    (" rhythm 5(s s s s s) q h\n degrees 1 2 3 4 5 6 7\n", "tuplets", "5 in the time of 4"),
    (" rhythm q. q. q\n degrees 1 2 3\n", "off the beat", "tap the beat"),
    (" swing e 2:1\n rhythm e*8\n degrees 1 2 3 4 5 4 3 2\n", "swing", "2 to 1"),
    (" dynamics p . < f\n rhythm q q q q\n degrees 1 2 3 4\n", "loudness", "softest"),
    (" tempo . | rit\n rhythm q q q q | w\n degrees 1 2 3 4 | 5\n", "tempo", "rit."),
    (" rhythm q q q q | q q q\n degrees 1 2 3 4 | 5 6 7\n meter 4/4 | 3/4\n", "meter", "4/4 and 3/4"),
    (" frets 3:0 2 12 14\n rhythm q q q q\n", "position", "fret 2 to fret 12 (bar 1)"),
    (" frets 6:1+5:6 6:1+5:6\n rhythm h h\n", "stretch", "frets 1 to 6"),
    (" frets 6:3+5:2+4:0 6:3+5:2+4:0\n rhythm h h\n", "every string", "string by string"),
])  # fmt: skip
def test_rhythm_and_hand(body: str, about: str, said: str) -> None:
    found = heard(body)
    assert about in found, found
    assert said in found[about]
    plain_one = heard(" rhythm q q q q\n degrees 1 2 3 4\n")
    assert about not in plain_one


def test_a_line_that_moves_along_one_string_is_no_stretch() -> None:
    assert "stretch" not in heard(" rhythm e*8\n frets 6:1 2 3 4 5 6 7 8\n")
    assert "stretch" in heard(" rhythm q q q q\n frets 6:1 3 6 5:1\n")
    assert "stretch" not in heard(" rhythm q q q q\n frets 6:1 r 6 5:4\n")  # in a rest the hand moves


def test_evenness_is_always_listened_for() -> None:
    for path in EXAMPLES:
        score = example(path)
        for section in score.sections:
            if section.bars:
                points = listening_of(score, section)
                assert points[-1].about == "evenness"
                assert all(isinstance(point, Listening) and point.text.endswith(".") for point in points)
                assert len({point.text for point in points}) == len(points)


def test_a_few_lines_for_a_book_say_nothing_twice() -> None:
    lines = plan_lines(plain())
    assert lines[1] == "Tempo ladder: 58, 67, 77, 86, 96, 106 quarter notes a minute."
    assert "three times in a row" in lines[2]
    assert sum("Home: C" in line for line in lines) == 1
    assert any("pain, tingling or numbness" in line for line in lines)
