"""A change of scale within a section in words: MusicXML 4.0 ``direction``, ``words``; the signature alone need not show it."""

from __future__ import annotations

from dataclasses import replace

from tests.proof.scores import bar, note, scale, score, section, voice
from tests.writers.musicxml.xml import tree

DORIAN = scale("D3", "dorian", "1 2 b3 4 5 6 b7", "D E F G A B C", 0)
MAJOR = scale("C3", "major", "1 2 3 4 5 6 7", "C D E F G A B", 0)
WHOLE = bar(voice(note("w", "3:5")))


def test_a_scale_of_the_same_signature_is_named_at_its_bar_once() -> None:
    document = tree(score(section(WHOLE, replace(WHOLE, scale=MAJOR), WHOLE, scale=DORIAN)))
    measures = document.findall(".//measure")
    said = [[each.text for each in measure.findall("direction[@placement='above']/direction-type/words")] for measure in measures]
    assert said == [[], ["C major"], []]
    assert measures[1].find("direction/staff").text == "1"
