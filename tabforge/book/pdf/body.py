"""Chapters and exercises."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from typing import Final

from tabforge.book.model import Chapter, Exercise, Facts, Made, Part
from tabforge.book.naming import titles_of
from tabforge.book.pdf.album import Album
from tabforge.book.pdf.faces import MONO_WIDTH
from tabforge.book.pdf.markdown import headed, typeset
from tabforge.book.pdf.script import Code, call, content, millimetres
from tabforge.book.wording import breakable, short, with_signs

_USUAL: Final = "Guitar"
"""The instrument that is not named with each exercise."""

TAB_LABEL: Final = "The same music as tab in letters"
"""What is heard instead of ASCII tab."""

_POINT: Final = 25.4 / 72
_WHOLE: Final = 0.65
"""An exercise that takes less than this part of a page is not cut by the end of one: nobody turns pages while playing."""

_HEAD: Final = 24.0
_LINE: Final = 5.2
_TAB_LINE: Final = 4.4
_GAP: Final = 5.0
"""Millimetres of an exercise's head, a line of words or of tab, and the room between two things; a little more than they take."""

_BESIDE: Final = 0.5
"""A shape that takes less than this part of the width may have words beside it."""


def chapter(number: int, said: Chapter, album: Album, places: Container[str]) -> Iterator[Code]:
    """A chapter's head and introduction."""
    yield call("chapter", str(number), breakable(said.title), short(f"{number} {said.title}", album.layout.running))
    title, rest = headed(said.text)
    text = rest if title is not None and title.casefold() == said.title.casefold() else said.text
    if text.strip():
        yield call("prose", millimetres(album.layout.measure), typeset(text, above=1, places=places))


def exercise(said: Exercise, made: Made, title: str, album: Album) -> Code:
    """An exercise with all that belongs to it."""
    running = short(f"{said.number} {title}", album.layout.running)
    pieces = list(_pieces(made, album))
    return call("exercise", said.id, said.number, breakable(title), running, _is_whole(made, album), content(pieces))


def _pieces(made: Made, album: Album) -> Iterator[Code]:
    if made.failed:
        yield call("teaching", ["This exercise has mistakes in its study and could not be engraved."])
    if made.facts:
        yield call("fact-line", made.facts.level, [breakable(fact) for fact in _facts(made.facts)])
    yield call("teaching", [breakable(each) for each in made.text], width=millimetres(album.layout.measure))
    shown: set[str] = set()
    for part in made.parts:
        if part.title.strip() and (len(made.parts) > 1 or part.title.casefold() != made.title.casefold()):
            yield call("inner-heading", 3, breakable(part.title))
        yield from _part(part, album, shown)
    if made.plan:
        yield call("steps", "Practice plan", [breakable(line) for line in made.plan])


def _facts(facts: Facts) -> Iterator[str]:
    """What stands under the title; what is as usual is not said."""
    if facts.instrument != _USUAL:
        yield facts.instrument
    if facts.key:
        yield with_signs(facts.key)
    if facts.meter:
        yield facts.meter
    if facts.tempo:
        yield facts.tempo
    if not facts.tuning.startswith("standard"):
        yield facts.tuning


def _part(part: Part, album: Album, shown: set[str]) -> Iterator[Code]:
    """A block. A shape that the exercise has shown before is not shown again."""
    fresh = [picture for picture in part.pictures if picture.svg not in shown]
    shown.update(picture.svg for picture in fresh)
    words = [breakable(each) for each in part.text]
    layout = album.layout
    if len(fresh) == 1 and fresh[0].width < _BESIDE * layout.width:
        yield call("shapes", [album.picture(fresh[0])], words)
    else:
        yield call("teaching", words, width=millimetres(layout.measure))
        if fresh:
            yield call("shapes", [album.picture(picture) for picture in fresh], [])
    for system in part.sheet.systems if part.sheet else ():
        yield album.system(system)
    if part.tab:
        yield _tab(part.tab, album)


def _tab(tab: str, album: Album) -> Code:
    """ASCII tab, its systems apart, in letters small enough for the longest line."""
    longest = max(len(line) for line in tab.splitlines())
    size = min(album.layout.letters, album.layout.width / _POINT / (MONO_WIDTH * longest))
    systems: list[str] = []
    for each in tab.split("\n\n"):
        if systems and "|" not in systems[-1]:  # words that belong to the system below
            systems[-1] += f"\n{each}"
        else:
            systems.append(each.strip("\n"))
    return call("letters", Code(f"{size:.2f}pt"), TAB_LABEL, systems)


def _is_whole(made: Made, album: Album) -> bool:
    """Whether an exercise is short enough to stand on one page whatever comes before it. Words are reckoned with generously."""
    layout = album.layout
    height = _HEAD
    for part in made.parts:
        height += 2 * _GAP
        height += sum(min(1, layout.width / each.width) * each.height + _GAP for each in part.sheet.systems) if part.sheet else 0
        height += sum(picture.height + _GAP for picture in part.pictures)
        height += (part.tab.count("\n") + 2) * _TAB_LINE if part.tab else 0
        height += sum(_lines(each, layout.width * (1 - _BESIDE)) for each in part.text) * _LINE
    height += sum(_lines(each, layout.width) for each in (*made.text, *made.plan)) * _LINE
    return height < _WHOLE * layout.height


def _lines(words: str, width: float) -> int:
    """Lines that some words fill at most: letters are less than 2.6 mm wide."""
    return 1 + int(len(words) * 2.6 / width)


def all_of(chapters: Sequence[Chapter], exercises: Sequence[Exercise], made: Sequence[Made], album: Album) -> Iterator[Code]:
    """Every chapter with its exercises."""
    places = {each.id for each in exercises}
    named = list(zip(exercises, made, titles_of(made), strict=True))
    for number, said in enumerate(chapters):
        yield from chapter(number + 1, said, album, places)
        for each, done, title in named:
            if each.chapter == number:
                yield exercise(each, done, title, album)
    yield Code("[#metadata(none)<last-exercise>]")
