"""Any score is engraved: its numbers on their strings, its marks clear of each other, nothing cut off."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from lxml import etree

from tabforge.model.score import Score
from tabforge.pages import PageOptions, engrave
from tabforge.pages.engraving import lay_out
from tabforge.pages.stripping import stripped
from tests.pages.drawn import engraver, numerals, points
from tests.pages.test_pages_marks import collisions
from tests.proof.strategies import scores

INTO = {"slide in from below", "slide in from above"}
LEADS = {"hammer-on", "pull-off", "legato slide", "shift slide", "slide out upward", "slide out downward"}
"""What these scores may have two of on one note, coming into it or leading on: no player would write both."""
ACROSS = {"arpeggio upward", "arpeggio downward", "brush upward", "brush downward"}
"""Arrows, which a line of the other voice may have to cross."""


@given(scores())
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_score_is_engraved(score: Score) -> None:
    sheets, _ = engrave(score, PageOptions(), engraver())
    for sheet in sheets:
        for system in sheet.systems:
            etree.fromstring(system.svg)
            left, top, width, height = (float(each) for each in system.svg.partition('viewBox="')[2].partition('"')[0].split())
            assert [(x, y) for x, y in points(system.svg) if not (left <= x <= left + width and top <= y <= top + height)] == []
            if "data-string" in system.svg:
                assert [each for each in numerals(system.svg) if each.line != each.string] == []
    two = any(len(bar.voices) > 1 for section in score.sections for bar in section.bars)
    allowed = INTO | LEADS | (ACROSS if two else set())
    for part in stripped(score)[0]:
        for composed in lay_out(engraver(), score, part, PageOptions()).composed:
            assert [each for each in collisions(composed) if not set(each) <= allowed] == []
