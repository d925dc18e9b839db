"""What people mistype: each text earns one error, at the place between ⟦ and ⟧, and the suggestion given for it is right.

The mistakes are those a teacher makes who comes from other notations, other programs or another language (common practice, no source).
"""

from __future__ import annotations

import pytest

from tabforge.diagnostics import Code
from tabforge.diagnostics.catalogue import text as codes
from tests.syntax.reading import findings, riff, run, unmarked

MISTAKES: list[tuple[Code, str, str | None]] = [
    # words at the start of a line
    (codes.UNKNOWN_WORD, riff("rhythm q q", "⟦degree⟧ 1 2"), "degrees"),
    (codes.UNKNOWN_WORD, riff("⟦Rhythm⟧ q q", "degrees 1 2"), "rhythm"),
    (codes.UNKNOWN_WORD, riff("⟦rythm⟧ q q", "degrees 1 2"), "rhythm"),
    (codes.UNKNOWN_WORD, riff("degrees 1 2", "⟦lyrics⟧ a b"), "words"),
    (codes.UNKNOWN_WORD, riff("⟦tab⟧ 6:1 2"), "frets"),
    (codes.UNKNOWN_WORD, riff("degrees 1", "⟦zzzz⟧ 1 2"), None),
    (codes.UNKNOWN_WORD, riff("degrees 1", "", "⟦1⟧ 2 3"), None),
    (codes.UNKNOWN_WORD, "⟦tunning⟧ E2 A2 D3 G3 B3 E4\n", "tuning"),
    (codes.UNKNOWN_WORD, "⟦title:⟧ Lantern Bay\n", "title"),
    (codes.WRONG_PLACE, "⟦key⟧ Bb lydian\n", "scale"),
    (codes.WRONG_PLACE, 'text ⟦"Let the thumb lead."⟧\nscale D3 major\n', "Let the thumb lead."),
    (codes.UNKNOWN_WORD, "⟦bpm⟧ 96\n", "tempo"),
    (codes.UNKNOWN_WORD, "⟦time⟧ 4/4\n", "meter"),
    (codes.UNKNOWN_WORD, "⟦#⟧ a comment\n", None),
    (codes.UNKNOWN_WORD, '⟦Riff⟧ "A"\n  degrees 1\n', "riff"),
    (codes.UNKNOWN_WORD, "⟦scal⟧ C3 major", "scale"),
    # the wrong place
    (codes.WRONG_PLACE, "⟦degrees⟧ 1 2\n", None),
    (codes.WRONG_PLACE, "⟦layout⟧ free\n", None),
    (codes.WRONG_PLACE, riff("⟦layout⟧ free", "degrees 1"), None),
    (codes.WRONG_PLACE, riff("⟦title⟧ Bay", "degrees 1"), None),
    (codes.WRONG_PLACE, riff("degrees 1", "⟦scale⟧ C3 major"), None),
    (codes.WRONG_PLACE, run("⟦degrees⟧ 1 2"), None),
    (codes.WRONG_PLACE, run("⟦voice⟧ 2"), None),
    (codes.WRONG_PLACE, run("path up") + "⟦title⟧ Bay\n", None),
    (codes.WRONG_PLACE, 'text "A"\n  one\n⟦scale⟧ C3 major\n', None),
    # given twice, or not at all
    (codes.TWICE, "title A\n⟦title⟧ B\n", None),
    (codes.TWICE, riff("meter 3/4", "⟦meter⟧ 4/4", "degrees 1"), None),
    (codes.NO_VALUE, "⟦title⟧\n", None),
    (codes.NO_VALUE, "⟦capo⟧   // none\n", None),
    (codes.NO_VALUE, riff("degrees⟦⟧"), None),
    (codes.NO_VALUE, riff("rhythm ⟦|⟧", "degrees 1"), None),
    # margins and names
    (codes.AT_MARGIN, 'riff "A"\n⟦rhythm⟧ q\ndegrees 1\n', None),
    (codes.AT_MARGIN, riff("degrees 1") + "⟦scale⟧ C3 major\n", None),
    (codes.AT_MARGIN, '  ⟦riff⟧ "A"\n    degrees 1\n', None),
    (codes.AT_MARGIN, 'text "A"\n⟦Play slowly.⟧\nAnd more.\n', None),
    (codes.BLOCK_NAME, "riff ⟦Bay⟧\n  degrees 1\n", '"Bay"'),
    (codes.BLOCK_NAME, "riff ⟦“Bay”⟧\n  degrees 1\n", '"Bay"'),
    (codes.BLOCK_NAME, 'riff "Bay" ⟦{⟧\n  degrees 1\n', None),
    (codes.BLOCK_NAME, 'run "Bay"⟦:⟧\n', None),
    (codes.UNCLOSED_QUOTE, 'riff ⟦"Bay⟧\n  degrees 1\n', '"Bay"'),
    (codes.UNCLOSED_QUOTE, riff("degrees 1 2", 'words a ⟦"b c⟧'), None),
    # values
    (codes.BAD_VALUE, "capo ⟦II⟧\n", None),
    (codes.BAD_VALUE, "capo ⟦fret 3⟧\n", "3"),
    (codes.BAD_VALUE, "meter ⟦4:4⟧\n", "4/4"),
    (codes.BAD_VALUE, "meter ⟦C⟧\n", "4/4"),
    (codes.BAD_VALUE, "meter ⟦3/3⟧\n", None),
    (codes.BAD_VALUE, "tempo ⟦96 bpm⟧\n", "96"),
    (codes.BAD_VALUE, "tempo ⟦Slowly 60⟧\n", '"Slowly" 60'),
    (codes.BAD_VALUE, "tempo ⟦60=q⟧\n", "q=60"),
    (codes.BAD_VALUE, "tempo ⟦600⟧\n", None),
    (codes.BAD_VALUE, "tempo ⟦5⟧\n", None),
    (codes.BAD_VALUE, "pickup ⟦1/8⟧\n", "e"),
    (codes.BAD_VALUE, "swing ⟦8⟧\n", "e"),
    (codes.BAD_VALUE, "swing ⟦e 2/1⟧\n", "e 2:1"),
    (codes.BAD_VALUE, "keys ⟦F,⟧ A\n", "F"),
    (codes.BAD_VALUE, "keys ⟦H⟧ A\n", "B"),
    (codes.BAD_VALUE, "keys ⟦fifth⟧\n", "fifths"),
    (codes.BAD_VALUE, "keys ⟦circle of fifths⟧\n", "fifths"),
    (codes.BAD_VALUE, "scale ⟦lydian Bb2⟧\n", "Bb2 lydian"),
    (codes.BAD_VALUE, "scale ⟦Bb2lydian⟧\n", "Bb2 lydian"),
    (codes.BAD_VALUE, "scale ⟦Bb2⟧\n", None),
    (codes.BAD_VALUE, "scale ⟦Am⟧\n", "A minor"),
    (codes.BAD_VALUE, "scale ⟦bb2⟧ lydian\n", "Bb2"),
    (codes.BAD_VALUE, "scale ⟦B♭2⟧ lydian\n", "Bb2"),
    (codes.BAD_VALUE, "scale ⟦H2⟧ minor\n", "B2"),
    (codes.BAD_VALUE, "scale C3 ⟦Kiln fire⟧ steps W W H W W W H\n", '"Kiln fire"'),
    (codes.BAD_VALUE, "scale C3 steps W W ⟦w⟧\n", "W"),
    (codes.BAD_VALUE, "scale C3 semitones 0 2 ⟦2⟧\n", None),
    (codes.BAD_VALUE, "scale C3 degrees 1 ⟦3b⟧ 5\n", "b3"),
    (codes.BAD_VALUE, "tuning ⟦D A D G A D⟧\n", None),
    (codes.BAD_VALUE, "tuning ⟦e2⟧ A2 D3 G3 B3 E4\n", "E2"),
    (codes.BAD_VALUE, "tuning ⟦E2 A2⟧\n", None),
    (codes.BAD_VALUE, run("layout ⟦3nps from string 6⟧"), "3 per string from string 6"),
    (codes.BAD_VALUE, run("layout ⟦3 notes per string⟧"), "3 per string from string 6"),
    (codes.BAD_VALUE, run("layout ⟦pos 5⟧"), "position 5"),
    (codes.BAD_VALUE, run("strokes ⟦alternat⟧"), "alternate"),
    (codes.BAD_VALUE, "strokes ⟦sweep⟧\n", None),
    (codes.BAD_VALUE, run("layout ⟦E shape⟧"), "shape E"),
    (codes.BAD_VALUE, run("layout shape ⟦e⟧"), "E"),
    (codes.BAD_VALUE, run("layout shape ⟦F⟧"), None),
    (codes.BAD_VALUE, run("layout shape A ⟦frets⟧ 5"), "fret"),
    (codes.BAD_VALUE, run("layout ⟦diagonal 5⟧"), "diagonal from string 5"),
    (codes.BAD_VALUE, run("layout ⟦fragments 2⟧"), "fragment 2 per string from string 6"),
    (codes.BAD_VALUE, run("layout diagonal from string ⟦13⟧"), None),
    (codes.BAD_VALUE, run("layout 3 per string from string ⟦13⟧"), None),
    (codes.BAD_VALUE, run("path ⟦ascending⟧"), "up"),
    (codes.BAD_VALUE, run("order 1 ⟦3,⟧ 2"), "3"),
    (codes.BAD_VALUE, run("tones 1 ⟦3b⟧"), "b3"),
    (codes.BAD_VALUE, run("octaves ⟦two⟧"), None),
    (codes.BAD_VALUE, run("rhythm e ⟦|⟧ e"), None),
    (codes.AT_ODDS, run("octaves 1", "⟦to⟧ 8"), None),
    (codes.AT_ODDS, run("layout ⟦3 per string from string 6 fret 5 degree 2⟧"), None),
    # cells
    (codes.BAD_CELL, riff("rhythm q ⟦8⟧ e", "degrees 1 2 3"), "e"),
    (codes.BAD_CELL, riff("rhythm q ⟦8.⟧ e", "degrees 1 2 3"), "e."),
    (codes.BAD_CELL, riff("rhythm ⟦quarter⟧", "degrees 1"), "q"),
    (codes.BAD_CELL, riff("rhythm ⟦Q⟧", "degrees 1"), "q"),
    (codes.BAD_CELL, riff("rhythm 3(e ⟦8⟧*2) e", "degrees 1 2 3 4"), "e"),
    (codes.BAD_CELL, riff("degrees 1 ⟦h⟧ 3"), None),
    (codes.BAD_CELL, riff("degrees 1 ⟦3b⟧"), "b3"),
    (codes.BAD_CELL, riff("degrees ⟦1+⟧"), "1"),
    (codes.BAD_CELL, riff("degrees 1 ⟦♭7⟧"), "b7"),
    (codes.BAD_CELL, riff("degrees 1 ⟦-⟧"), "="),
    (codes.BAD_CELL, riff("degrees 1 ⟦R⟧"), "r"),
    (codes.BAD_CELL, riff("degrees 1 ⟦0⟧"), None),
    (codes.BAD_CELL, riff("degrees ⟦1,3⟧"), "1+3"),
    (codes.BAD_CELL, riff("degrees ⟦x6⟧"), "x@6"),
    (codes.BAD_CELL, riff("notes ⟦H3⟧"), "B3"),
    (codes.BAD_CELL, riff("notes ⟦c4⟧"), "C4"),
    (codes.BAD_CELL, riff("notes ⟦Fis3⟧"), "F#3"),
    (codes.BAD_CELL, riff("notes ⟦Es4⟧"), "Eb4"),
    (codes.BAD_CELL, riff("notes ⟦E⟧ C4"), None),
    (codes.BAD_CELL, riff("notes ⟦C4+e4⟧"), "C4+E4"),
    (codes.BAD_CELL, riff("frets ⟦6-3⟧"), "6:3"),
    (codes.BAD_CELL, riff("frets 6:1 ⟦6:40⟧"), None),
    (codes.BAD_CELL, riff("frets 6:1 ⟦5h7⟧"), None),
    (codes.BAD_CELL, riff("frets ⟦6x⟧"), "6:x"),
    (codes.BAD_CELL, riff("degrees 1", "marks ⟦hammer-on⟧"), "h"),
    (codes.BAD_CELL, riff("degrees 1", "marks ⟦PM⟧"), "pm"),
    (codes.BAD_CELL, riff("degrees 1", "marks ⟦b⟧"), "b1"),
    (codes.BAD_CELL, riff("degrees 1", "marks ⟦~⟧"), "v"),
    (codes.BAD_CELL, riff("degrees 1", "picks ⟦down⟧"), "d"),
    (codes.BAD_CELL, riff("degrees 1 2", "dynamics ⟦forte⟧ ."), "f"),
    (codes.BAD_CELL, riff("degrees 1 2", "dynamics p ⟦cresc.⟧"), "<"),
    (codes.BAD_CELL, riff("degrees 1 | 2", "signs ⟦A⟧ | ."), "[A]"),
    (codes.BAD_CELL, riff("degrees 1 | 2", "signs . | ⟦D.S.⟧"), "ds"),
    (codes.BAD_CELL, riff("degrees 1", "fingers ⟦5⟧"), None),
    (codes.BAD_CELL, riff("degrees 1 2", 'words a⟦"⟧b" c'), None),
    (codes.BAD_CELL, riff("degrees 1 | 2", "meter ⟦4/4 3/4⟧ | ."), None),
    (codes.BAD_CELL, riff("degrees 1 | 2", "tempo 96 | ⟦600⟧"), None),
    (codes.BAD_CELL, riff("degrees 1 | 2", "meter 4/4 | ⟦%⟧"), None),
    # repeats, groups and tuplets
    (codes.BAD_REPEAT, riff("degrees ⟦1*0⟧"), None),
    (codes.BAD_REPEAT, riff("degrees ⟦1*1000⟧"), None),
    (codes.BAD_REPEAT, riff("degrees (1 2⟦)*x⟧ 3"), None),
    (codes.BAD_REPEAT, riff("degrees 5 ⟦*4⟧"), None),
    (codes.BAD_REPEAT, riff("degrees 5 | ⟦%*0⟧"), None),
    (codes.PARENTHESES, riff("degrees ⟦(⟧1 2 | 3"), None),
    (codes.PARENTHESES, riff("degrees 1 2⟦)⟧ 3"), None),
    (codes.PARENTHESES, riff("degrees (⟦)⟧ 3"), None),
    (codes.PARENTHESES, riff("degrees (1 2)⟦3⟧"), None),
    (codes.PARENTHESES, riff("rhythm ⟦e(⟧e e)", "degrees 1"), None),
    (codes.PARENTHESES, riff("degrees 1", "chords ⟦C7(⟧b9)"), None),
    (codes.BAR_IN_GROUP, riff("degrees (1 2 ⟦|⟧ 3 4)*2"), None),
    (codes.BAD_TUPLET, riff("rhythm ⟦1(⟧e)", "degrees 1"), None),
    (codes.BAD_TUPLET, riff("rhythm ⟦33(⟧e)", "degrees 1"), None),
    (codes.BAD_TUPLET, riff("rhythm ⟦3:33(⟧e)", "degrees 1"), None),
    (codes.BAD_TUPLET, riff("degrees ⟦3(⟧1 2 3)"), None),
    (codes.LIMIT, riff("rhythm 3(3(3(⟦3(⟧e))))", "degrees 1"), None),
    (codes.REPEATED_BAR, riff("degrees 1 | ⟦% 2⟧"), None),
    (codes.REPEATED_BAR, run("marks ⟦%⟧"), None),
    # bar lines, rows and voices
    (codes.BAD_SIGN, riff("degrees ⟦||:⟧ 1 | 2 :|"), "|:"),
    (codes.BAD_SIGN, riff("degrees 1 | 2 ⟦:||⟧"), ":|"),
    (codes.BAD_SIGN, riff("degrees 1 ⟦|||⟧ 2"), "||"),
    (codes.BAD_SIGN, riff("degrees 1 ⟦|[12⟧ 2"), "|[1,2"),
    (codes.BAD_SIGN, riff("degrees 1 ⟦|[1x⟧ 2 | 3"), "|[1"),
    (codes.BAD_SIGN, riff("degrees 1 2 ⟦:|*⟧"), ":|*3"),
    (codes.EMPTY_BAR, riff("degrees 1 ⟦| |⟧ 2"), None),
    (codes.EMPTY_BAR, riff("degrees 1 :⟦| |⟧: 2"), None),
    (codes.EMPTY_BAR, riff("rhythm q ⟦| |⟧ q", "degrees 1 | 2 | 3"), None),
    (codes.BARS_DISAGREE, riff("degrees 1 | 2", "marks . | . | ⟦h .⟧"), None),
    (codes.BARS_DISAGREE, riff("rhythm q | q | ⟦q⟧", "degrees 1 | 2", "marks . | . | h"), None),
    (codes.BARS_DISAGREE, riff("degrees 1 | 2", "voice 2", "⟦degrees⟧ 1"), None),
    (codes.SIGNS_DISAGREE, riff("rhythm q | q ⟦:|⟧", "degrees |: 1 | 2 ||"), None),
    (codes.SIGNS_DISAGREE, riff("rhythm |: q ⟦:|⟧", "degrees |: 1 | 2 :|"), None),
    (codes.TWO_ROWS_SOUND, riff("degrees 1", "⟦notes⟧ C3"), None),
    (codes.NO_ROW_SOUNDS, riff("⟦rhythm⟧ q", "", "degrees 1"), None),
    (codes.NO_ROW_SOUNDS, riff("degrees 1", "⟦voice 2⟧"), None),
    (codes.BAD_VOICE, riff("degrees 1", "⟦voice 1⟧", "degrees 2"), "voice 2"),
    (codes.BAD_VOICE, riff("⟦voice 2⟧", "degrees 1"), None),
    (codes.BAD_VOICE, riff("degrees 1", "", "⟦voice 2⟧", "degrees 1"), None),
    (codes.BAD_VOICE, riff("degrees 1", "voice 2", "degrees 1", "⟦voice 2⟧"), None),
    (codes.BAD_VOICE, riff("degrees 1", "voice 2", "⟦chords⟧ C", "degrees 1"), None),
    (codes.NO_ROWS, '⟦riff "A"⟧\n', None),
]


@pytest.mark.parametrize(("code", "marked", "suggestion"), MISTAKES, ids=[f"{code.id}-{text.strip()[-40:]}" for code, text, _ in MISTAKES])
def test_a_mistake_is_found_where_it_is(code: Code, marked: str, suggestion: str | None) -> None:
    text, (span,) = unmarked(marked)
    (found,) = findings(text)
    assert (found.code.id, found.headline and text[slice(*found.span)], found.span) == (code.id, text[slice(*span)], span)
    assert found.suggestion == suggestion


@pytest.mark.parametrize(("marked", "suggestion"), [(text, near) for _, text, near in MISTAKES if near is not None])
def test_a_suggestion_mends_the_mistake(marked: str, suggestion: str) -> None:
    text, (span,) = unmarked(marked)
    mended = text[: span.start] + suggestion + text[span.end :]
    assert not [each.headline for each in findings(mended) if each.span.start <= span.start + len(suggestion)]


def test_every_code_is_earned() -> None:
    assert {code.id for code, _, _ in MISTAKES} == {code.id for code in vars(codes).values() if isinstance(code, Code)}


def test_all_mistakes_of_a_text_are_told_in_one_run() -> None:
    marked = "⟦titel⟧ A\nmeter ⟦4:4⟧\n\nriff ⟦B⟧\n  rhythm q ⟦8⟧ | q\n  degrees 1 ⟦3b⟧ | ⟦(⟧2\n  marks . ⟦hammer⟧\n\n" + run("path ⟦upp⟧")
    text, spans = unmarked(marked)
    assert sorted(each.span for each in findings(text)) == spans
