"""Chapters and exercises."""

from __future__ import annotations

import json
from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from tabforge.book.glossing import sign
from tabforge.book.html.downloads import files, track
from tabforge.book.html.markup import NOTHING, Markup, element, link, paragraphs, together, words
from tabforge.book.html.names import CONTENTS, chapter_name, sign_name
from tabforge.book.html.pictures import Gallery, height_of
from tabforge.book.html.prose import prose
from tabforge.book.model import Book, Exercise, Facts, Made, Part
from tabforge.book.naming import titles_of
from tabforge.book.wording import with_signs
from tabforge.model.techniques import BY_NAME

_USUAL: Final = "Guitar"
"""The instrument that is not named with each exercise."""

STEP: Final = 200
"""Heights of exercises are told in steps of so many CSS pixels, so that few rules serve many of them."""

_AROUND: Final = 260.0
_BLOCK: Final = 70.0
_LINE: Final = 26.0
_LETTERS: Final = 70
"""CSS pixels of an exercise's head and foot, of what stands around a block, of a line of text; letters in such a line."""


@dataclass(frozen=True, slots=True)
class Chapters:
    """The chapters as HTML, and the steps of height that occur."""

    markup: Markup
    steps: tuple[int, ...]


def chapters(book: Book, exercises: Sequence[Exercise], made: Sequence[Made], gallery: Gallery, places: Container[str]) -> Chapters:
    """Every chapter with its exercises. ``places`` are the ids that introductions may link to."""
    named = list(zip(exercises, made, titles_of(made), strict=True))
    steps: dict[int, None] = {}
    out = []
    for number, said in enumerate(book.chapters):
        name = chapter_name(number)
        heading = element("h2", element("span", words(f"{number + 1}"), class_="number"), words(f" {said.title}"), id=f"{name}_title")
        inside = [heading]
        if said.text.strip():
            inside.append(element("div", prose(said.text, above=2, places=places), class_="prose"))
        for exercise, each, title in named:
            if exercise.chapter == number:
                step = _step(each)
                steps[step] = None
                inside.append(_exercise(exercise, each, title, gallery, step))
        out.append(element("section", *inside, id=name, class_="chapter", aria_labelledby=f"{name}_title"))
    return Chapters(together(out, "\n"), tuple(sorted(steps)))


def _exercise(exercise: Exercise, made: Made, title: str, gallery: Gallery, step: int) -> Markup:
    facts = made.facts
    heading = f"{exercise.id}_title"
    inside = [
        element("h3", element("span", words(exercise.number), class_="number"), words(f" {title}"), id=heading),
        _facts(facts) if facts else NOTHING,
        paragraphs(["This exercise has mistakes in its study and could not be engraved."]) if made.failed else NOTHING,
        paragraphs(made.text),
        *_parts(made, gallery),
        _plan(made.plan),
        track(exercise, made),
        _letters(exercise, made),
        files(exercise, made),
        element("p", link(f"#{CONTENTS}", words("Back to the contents")), class_="back"),
    ]
    return element(
        "article",
        *inside,
        id=exercise.id,
        class_=f"exercise tall-{step}",
        aria_labelledby=heading,
        data_level=facts.level if facts else None,
        data_techniques=json.dumps(facts.techniques, ensure_ascii=False) if facts and facts.techniques else None,
        data_words=_searched(exercise, made),
    )


def _facts(facts: Facts) -> Markup:
    """What stands under the title; what is as usual is not said."""
    said = [element("li", words(facts.level), class_="level")] if facts.level else []
    instrument = facts.instrument if facts.instrument != _USUAL else None
    tuning = facts.tuning if not facts.tuning.startswith("standard") else None
    key = with_signs(facts.key) if facts.key else None
    said += [element("li", words(each)) for each in (instrument, key, facts.meter, facts.tempo, tuning) if each]
    for name in facts.techniques:
        said.append(element("li", link(f"#{sign_name(name)}", words(name))))
    return element("ul", *said, class_="facts", aria_label="About this exercise") if said else NOTHING


def _parts(made: Made, gallery: Gallery) -> Iterator[Markup]:
    shown: set[str] = set()
    for part in made.parts:
        if part.title and (len(made.parts) > 1 or part.title.casefold() != made.title.casefold()):
            yield element("h4", words(part.title))
        yield from _part(part, made, gallery, shown)


def _part(part: Part, made: Made, gallery: Gallery, shown: set[str]) -> Iterator[Markup]:
    """A block. A shape that the exercise has shown before is not shown again."""
    yield paragraphs(part.text)
    fresh = [picture for picture in part.pictures if picture.svg not in shown]
    shown.update(picture.svg for picture in fresh)
    if fresh:
        yield element("div", *(gallery.shape(picture) for picture in fresh), class_="shapes")
    name = part.title or made.title
    if part.sheet is not None:
        systems = (gallery.system(system) for system in part.sheet.systems)
        yield element("div", *systems, class_="music scroll", role="group", aria_label=f"Music: {name}")
    if part.tab:
        yield element("pre", words(part.tab), class_="letters scroll", role="group", aria_label=f"ASCII tab: {name}")


def _plan(lines: Sequence[str]) -> Markup:
    if not lines:
        return NOTHING
    listed = element("ul", *(element("li", words(line)) for line in lines))
    return element("details", element("summary", words("Practice plan")), listed, class_="plan", open=True)


def _letters(exercise: Exercise, made: Made) -> Markup:
    """The whole exercise as text, for those who hear the page or have no use for its pictures."""
    data = made.files.get(".tab.txt")
    if data is None:
        return NOTHING
    said = element("summary", words("As text (ASCII tab)"), element("span", words(f", exercise {exercise.number}"), class_="unseen"))
    text = words(data.decode().strip("\n"))
    block = element("pre", text, class_="letters scroll", role="group", aria_label=f"ASCII tab of exercise {exercise.number}")
    return element("details", said, block, class_="as-text")


def _searched(exercise: Exercise, made: Made) -> str:
    """What the search looks through."""
    facts = made.facts
    said = [exercise.number, made.title, *(part.title for part in made.parts)]
    if facts:
        said += [facts.instrument, facts.tuning, facts.key or "", *facts.scales, *facts.techniques]
        said += [sign(BY_NAME[name]) for name in facts.techniques if name in BY_NAME]
    return " ".join(dict.fromkeys(each for each in said if each)).casefold()


def _step(made: Made) -> int:
    """The height that an exercise probably takes on a wide screen, rounded up to a step."""
    height = _AROUND + len(made.plan) * _LINE
    shown: set[str] = set()
    texts = [*made.text]
    for part in made.parts:
        height += _BLOCK
        texts += part.text
        fresh = [picture for picture in part.pictures if picture.svg not in shown]
        shown.update(picture.svg for picture in fresh)
        height += max((height_of([picture]) for picture in fresh), default=0.0)
        height += height_of(part.sheet.systems) if part.sheet else 0.0
        height += (part.tab.count("\n") + 1) * _LINE * 0.7 if part.tab else 0.0
    height += sum(1 + len(text) // _LETTERS for text in texts) * _LINE
    return int(height // STEP + 1) * STEP
