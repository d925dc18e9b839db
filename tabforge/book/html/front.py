"""What stands before the first chapter: cover, contents with the search, cautions and the book's own front matter."""

from __future__ import annotations

from collections.abc import Container, Sequence
from typing import TYPE_CHECKING, Final

from tabforge.book.cautions import END, HEADING, LEAD, cautions_of
from tabforge.book.html.markup import NOTHING, Markup, element, link, paragraphs, together, words
from tabforge.book.html.names import CAUTIONS, CONTENTS, GLOSSARY, INDEX, TOP, chapter_name
from tabforge.book.html.pictures import Gallery
from tabforge.book.html.prose import prose
from tabforge.book.model import LEVELS, Book, Exercise, Made
from tabforge.book.naming import titles_of
from tabforge.book.wording import day_of

if TYPE_CHECKING:
    from tabforge.pages import System

_FEW: Final = 40
"""Up to so many exercises, the contents show them all at once."""


def cover(book: Book, music: System | None, gallery: Gallery) -> Markup:
    """The head of the page."""
    day = day_of(book.date) if book.date else None
    edition = ", ".join(each for each in (book.edition, day and day.words) if each)
    inside = [
        element("h1", words(book.title)),
        element("p", words(book.subtitle), class_="subtitle") if book.subtitle else NOTHING,
        element("div", gallery.system(music), class_="cover-music scroll") if music else NOTHING,
        paragraphs(book.cover, class_="cover-line"),
        element("p", words(book.author), class_="author") if book.author else NOTHING,
        element("p", words(edition), class_="edition") if edition else NOTHING,
    ]
    return element("header", *inside, class_="cover", id=TOP)


def contents(book: Book, exercises: Sequence[Exercise], made: Sequence[Made], *, signs: bool, index: bool) -> Markup:
    """Chapters and exercises as links. ``signs``, ``index``: those parts are there too."""
    pairs = list(zip(exercises, made, strict=True))
    named = list(zip(exercises, titles_of(made), strict=True))
    parts = [element("p", link(f"#{CAUTIONS}", words(HEADING)), class_="beside")]
    for number, chapter in enumerate(book.chapters):
        own = [(each, called) for each, called in named if each.chapter == number]
        listed = (element("li", link(f"#{each.id}", _number(each.number), words(f" {called}"))) for each, called in own)
        title = element("summary", _number(f"{number + 1}"), words(f" {chapter.title}"))
        start = element("p", link(f"#{chapter_name(number)}", words("To the beginning of the chapter")), class_="start")
        parts.append(element("details", title, start, element("ul", *listed), open=len(pairs) <= _FEW))
    for wanted, name, said in ((signs, GLOSSARY, "The signs in this book"), (index, INDEX, "Index")):
        if wanted:
            parts.append(element("p", link(f"#{name}", words(said)), class_="beside"))
    heading = element("h2", words("Contents"), id=f"{CONTENTS}_title")
    listed_all = element("div", *parts, class_="listed")
    return element("nav", heading, _search(pairs), listed_all, id=CONTENTS, class_="contents", aria_labelledby=f"{CONTENTS}_title")


def before(book: Book, places: Container[str]) -> Markup:
    """Cautions and front matter."""
    listed = element("ul", *(element("li", words(each)) for each in cautions_of(book)))
    heading = element("h2", words(HEADING), id=f"{CAUTIONS}_title")
    inside = [heading, element("p", words(LEAD)), listed, element("p", words(END))]
    cautions = element("section", *inside, id=CAUTIONS, class_="cautions", aria_labelledby=f"{CAUTIONS}_title")
    if not book.front_text.strip():
        return cautions
    return together((cautions, element("div", prose(book.front_text, above=1, places=places), class_="prose front")), "\n")


def _number(number: str) -> Markup:
    return element("span", words(number), class_="number")


def _search(pairs: Sequence[tuple[Exercise, Made]]) -> Markup:
    """The form that a script makes work; it is not there without one."""
    facts = [each.facts for _, each in pairs if each.facts]
    levels = {fact.level for fact in facts}
    techniques = sorted({name for fact in facts for name in fact.techniques})
    inside = [
        element("label", words("Words "), Markup('<input type="search" name="words" autocomplete="off" spellcheck="false">')),
        _choice("Level", "level", [level for level in LEVELS if level in levels]),
        _choice("Technique", "technique", techniques),
        element("button", words("Show all"), type="reset"),
        element("output", name="told", aria_live="polite"),
    ]
    return element("form", *inside, role="search", class_="search", hidden=True, aria_label="Find exercises")


def _choice(said: str, name: str, options: Sequence[str]) -> Markup:
    if not options:
        return NOTHING
    listed = [element("option", words("any"), value=""), *(element("option", words(each)) for each in options)]
    return element("label", words(f"{said} "), element("select", *listed, name=name))
