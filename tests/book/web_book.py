"""A book for tests of the web page: six exercises with what a page can hold, and texts that would like to be markup."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from tabforge.book.making import Making, make
from tabforge.book.manifest import Absent, read_book
from tabforge.book.model import Book, Exercise, Made
from tabforge.book.plan import exercises_of
from tabforge.pages import Engraver

HOSTILE = """</script><script>alert("1")</script>&amp;'"--><!--"""

MANIFEST = """\
book = 1
title = "Lamps on the Water"
subtitle = "Six exercises for evenings in the workshop"
author = "The Lantern Bay Guitar Workshop"
edition = "Trial edition"
licence = "CC BY-SA 4.0"
date = 2026-11-01
cover = ["For lessons and for evenings alone"]
cover-study = "climb.riff"
front = "front.md"
cautions = ["Leave the long reaches of chapter two for another day if your hand is small."]

[defaults]
diagrams = true

[[chapters]]
title = "Climbing"
introduction = "climbing.md"
[[chapters.studies]]
file = "climb.riff"
keys = ["C", "Bb"]
level = "first steps"
tracks = true
[[chapters.studies]]
file = "climb.riff"
title = "Down again, left-handed"
blocks = ["Down"]
hand = "left"
level = "settled"
tab = true

[[chapters]]
title = "Ropes & nets"
introduction = "ropes.md"
[[chapters.studies]]
file = "ropes.riff"
level = "fluent"
plan = true
[[chapters.studies]]
file = "deep.riff"
level = "settled"
[[chapters.studies]]
file = "chords.riff"
level = "demanding"
"""

FILES = {
    "front.md": """\
# How to use this book

Play *one* exercise an evening. **Slowly** is fast enough; begin with [the first](#climb-in-c).

## What is not here

Nothing about [the sea](https://example.org/sea?a=1&b=2) <b onclick="alert(1)">or bold</b> <script>alert(2)</script>.

- a [bad link](javascript:alert(3)) and [another](data:text/html,x) and [nowhere](#nowhere)
- ![a picture](https://example.org/lamp.png "of a lamp")

1. one
2. two

> Rest is part of practice.

| Week | What |
|---|---|
| 1 | Climbing |
| 2 | `ropes` & nets |
""",
    "climbing.md": "Let the first finger lead.\n\n#### Breathe\n\nBreathe out on the way down.\n\n```\ne|--5--7--\n```\n",
    "ropes.md": "Pull-offs want a finger that is already down.\n\n---\n\nMail [the workshop](mailto:lamp@example.org).\n",
    "climb.riff": """\
title Lantern Climb
text Warm up first. Stop at pain or numbness and ask your teacher.
scale C3 major
tempo 72

run "Up"
  text One finger a fret.
  layout position 7
  path up
  rhythm e

run "Down"
  layout position 7
  path down
  order 1 3
  rhythm 3(e e e)
""",
    "ropes.riff": """\
title Rope Work
scale A2 minor
tempo 84

riff "Haul"
  text Hammer, pull, bend and let it ring: the rope does the work, not the arm.
  rhythm   e e e e q q | q q h | e e e e q q | e e e e h
  frets    6:5 8 5:5 7 4:5 7 | 4:5 5:7 5:5 | 3:7 5 7 5 2:8 3:7 | 5:5 7 4:5 7 5
  marks    h . h . . v | pm - . | p . sl . b1 b1/2r | pm - - - v
""",
    "deep.riff": """\
title Deep Water
instrument bass
scale E1 minor
tempo 66

riff "Swell"
  rhythm   q q q q | h h
  degrees  1 3 4 5 | 4 1
""",
    "chords.riff": """\
title Tide Bells
scale G2 major
meter 3/4
tempo 60

riff "Bells"
  chords  G . . | C . . | D . . | G
  rhythm  q q q | q q q | q q q | h.
  frets   6:3+5:2+4:0 3:0 2:3 | 5:3+4:2 3:0 2:1 | 4:0+3:2 2:3 1:2 | 6:3+5:2+4:0+3:0+2:0+1:3
""",
}


def fetch(path: str) -> bytes | Absent:
    return FILES[path].encode() if path in FILES else Absent("there is no such file")


@cache
def trial() -> tuple[Book, tuple[Exercise, ...], tuple[Made, ...]]:
    """The book, its exercises, and those made."""
    book, findings = read_book("lamps.toml", MANIFEST.encode(), fetch)
    assert book is not None, findings
    exercises = exercises_of(book)
    engraver = Engraver()
    made = []
    for exercise in exercises:
        data = fetch(exercise.file)
        assert isinstance(data, bytes)
        one = make(exercise, data, Making(), engraver)
        assert not one.failed, one.report
        made.append(one)
    return book, exercises, tuple(made)


@cache
def hostile() -> tuple[Book, tuple[Exercise, ...], tuple[Made, ...]]:
    """The same book where every text that comes from outside would like to be markup."""
    book, exercises, made = trial()
    chapters = tuple(replace(each, title=HOSTILE, text=HOSTILE) for each in book.chapters)
    words = dict.fromkeys(("title", "subtitle", "author", "edition", "licence", "front_text", "text_font", "heading_font"), HOSTILE)
    worse = []
    for each in made:
        assert each.facts is not None
        parts = tuple(
            replace(part, title=HOSTILE, text=(HOSTILE,), tab=HOSTILE, pictures=tuple(replace(p, label=HOSTILE) for p in part.pictures))
            for part in each.parts
        )
        facts = replace(each.facts, instrument=HOSTILE, tuning=HOSTILE, key=HOSTILE, tempo=HOSTILE, level=HOSTILE, scales=(HOSTILE,))
        worse.append(replace(each, title=HOSTILE + "\x00\x0b\ud800", text=(HOSTILE,), parts=parts, facts=facts, plan=(HOSTILE,)))
    return replace(book, chapters=chapters, cover=(HOSTILE,), cautions=(HOSTILE,), **words), exercises, tuple(worse)
