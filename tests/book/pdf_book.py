"""A small book of the Lantern Bay workshop to bind in tests: six exercises in two chapters, made once."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Final

from tabforge.book.making import Making, make
from tabforge.book.model import Book, BookStudy, Chapter, Exercise, Made, StudyOptions
from tabforge.book.pdf import bind
from tabforge.book.plan import exercises_of
from tabforge.pages import Engraver
from tests.book.bound import Bound

CLIMB: Final = """\
title Net Loft Ladder
scale Bb2 lydian
tempo 72
text  Warm up first; stop at pain or numbness.

run "Up"
  text     One finger a fret where you can.
  layout   3 per string from string 6
  path     up, down
  rhythm   e

run "Thirds"
  layout   3 per string from string 6
  path     up, down
  order    1 3
  rhythm   s
"""

MARKED: Final = """\
title  Rope Walk
tuning drop D
scale  D3 phrygian
tempo  132

riff "Rope"
  rhythm e   e q q   e e | q  q q e e
  frets  6:0 0 x 3:5 7 7 | 7  7 5 7 5
  marks  pm  - . h   . . | b1 . v p .
"""

LOW: Final = """\
instrument bass
title Tide Gauge
scale A1 dorian
tempo 60

riff "Gauge"
  rhythm q   q q q
  frets  3:0 3 2:0 2
  marks  .   st h .
"""

SEVEN: Final = """\
instrument seven-string guitar
title Harbour Wall
scale B1 phrygian dominant
tempo 90

run "Wall"
  layout 3 per string from string 7
  path   up
  rhythm s
"""

STUDIES: Final = {"climb.riff": CLIMB, "rope.riff": MARKED, "gauge.riff": LOW, "wall.riff": SEVEN}

INTRODUCTION: Final = """\
# Ropes and ladders

Climb *slowly*, and look at [the ladder](#climb-in-bb) again. See [our shed](https://harbour.example/shed), or **ask**.

## In the loft

1. Say the notes.
2. Play them.

| Week | Tempo |
|------|-------|
| 1    | 60    |

<blink>raw</blink> and `x = 1`
"""


def study(file: str, *each: StudyOptions) -> BookStudy:
    return BookStudy(file=file, each=each or (StudyOptions(),))


@cache
def book(paper: str = "a4") -> Book:
    shown = StudyOptions(diagrams=True, level="first steps")
    settled = replace(shown, level="settled")
    return Book(
        title="The Net Loft",
        subtitle="Six exercises for a cold week",
        author="The Lantern Bay Guitar Workshop",
        edition="Second edition",
        licence="CC BY-SA 4.0",
        paper=paper,
        language="en-GB",
        date="2026-11-01",
        cover=("For evenings in the loft",),
        cover_study="climb.riff",
        front_text="# For whom this is\n\nFor those who mend nets.\n",
        cautions=("The loft is cold: warm your hands first.",),
        chapters=(
            Chapter(
                title="Ropes and ladders",
                text=INTRODUCTION,
                studies=(
                    study("climb.riff", replace(shown, key="Bb"), replace(shown, key="F", tab=True)),
                    study("rope.riff", StudyOptions(level="fluent", tab=True)),
                ),
            ),
            Chapter(title="Low water", studies=(study("gauge.riff", settled), study("wall.riff", shown), study("rope.riff"))),
        ),
    )


@cache
def trial(paper: str = "a4") -> tuple[Book, tuple[Exercise, ...], tuple[Made, ...]]:
    """The book with its exercises made."""
    exercises = exercises_of(book(paper))
    engraver = Engraver()
    made = [make(each, STUDIES[each.file].encode(), Making(paper=paper, tracks=False), engraver) for each in exercises]
    assert not any(each.failed for each in made), [each.report for each in made if each.failed]
    planned = replace(made[0], plan=("Day 1: bars 1 and 2 at 60.", "Day 2: all of it at 66."))
    return book(paper), exercises, (planned, *made[1:])


@cache
def bound(paper: str = "a4") -> Bound:
    """The book as PDF, read."""
    data, told = bind(*trial(paper))
    assert told == ()
    return Bound(data)
