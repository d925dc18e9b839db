"""What stands after the last chapter: the glossary of signs, the indexes, and whose book this is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from tabforge.book.glossing import Gloss, sign
from tabforge.book.html.markup import NOTHING, Markup, element, link, together, words
from tabforge.book.html.names import GLOSSARY, INDEX, sign_name
from tabforge.book.html.pictures import Gallery
from tabforge.book.indexing import Index
from tabforge.book.model import Book, Exercise
from tabforge.book.signs import drawing
from tabforge.book.wording import day_of

_FONT: Final = "Times, serif"


def glossary(glosses: Sequence[Gloss], gallery: Gallery) -> Markup:
    """The signs used, each drawn, with the exercises that use it."""
    if not glosses:
        return NOTHING
    from tabforge.pages import Engraver  # noqa: PLC0415  # needs the extra

    engraver = Engraver()
    entries = []
    for each in glosses:
        technique = each.technique
        name = [words(technique.name.capitalize()), element("span", words(" in ASCII tab "), element("code", words(sign(technique))))]
        inside = [gallery.small(drawing(technique, _FONT, engraver)), element("p", words(each.meaning)), _where(each.exercises)]
        entries.append(element("div", element("dt", *name), element("dd", *inside), class_="sign", id=sign_name(technique.name)))
    return _region(GLOSSARY, "The signs in this book", element("dl", *entries, class_="glossary"))


def index(found: Sequence[Index], titles: Callable[[Exercise], str]) -> Markup:
    """The indexes. ``titles`` are what exercises are called."""
    if not found:
        return NOTHING
    groups = []
    for each in found:
        rows = [
            element("div", element("dt", words(entry.word)), element("dd", _links(entry.exercises, titles))) for entry in each.entries
        ]
        groups.append(element("div", element("h3", words(each.title)), element("dl", *rows), class_="group"))
    return _region(INDEX, "Index", *groups)


def imprint(book: Book) -> Markup:
    """The foot of the page."""
    day = day_of(book.date) if book.date else None
    said = [book.title, book.author, book.edition, day and day.words, f"Licence: {book.licence}" if book.licence else None]
    return element("footer", *(element("p", words(each)) for each in said if each))


def _region(name: str, title: str, *inside: Markup) -> Markup:
    heading = element("h2", words(title), id=f"{name}_title")
    return element("section", heading, *inside, id=name, class_="after", aria_labelledby=f"{name}_title")


def _where(exercises: Sequence[Exercise]) -> Markup:
    links = (link(f"#{each.id}", words(each.number)) for each in exercises)
    return element("p", words("In exercise " if len(exercises) == 1 else "In exercises "), together(links, ", "), class_="where")


def _links(exercises: Sequence[Exercise], titles: Callable[[Exercise], str]) -> Markup:
    """Numbers to touch; the title is told to those who hear the page."""
    return together((link(f"#{each.id}", words(each.number), title=titles(each)) for each in exercises), " ")
