"""The frame of the page: what the browser may do, how it looks, what its script does."""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Final

from tabforge.book.html.markup import NOTHING, Markup, element, link, together, words
from tabforge.book.html.names import CONTENTS, GLOSSARY, INDEX, MAIN, TOP
from tabforge.book.html.pictures import PIXELS
from tabforge.book.model import Book
from tabforge.pages.options import MARGIN, PAPERS

_SERIF: Final = '"Iowan Old Style", "Palatino Linotype", Palatino, "Book Antiqua", P052, Georgia, "Times New Roman", serif'


_WHOLE: Final = 0.85
"""Of a printed page: an exercise that takes less is kept together."""


def page(book: Book, body: Markup, signs: Markup, steps: tuple[int, ...], *, glossary: bool, index: bool) -> bytes:
    """The whole file. ``body`` is all that stands between the bar at the top and the end; ``signs`` come before it."""
    style = f"{_file('page.css')}{_settings(book)}{_heights(steps, book.paper)}"
    script = _file("page.js")
    policy = (
        f"default-src 'none'; style-src 'sha256-{_hash(style)}'; script-src 'sha256-{_hash(script)}'; media-src data:; "
        "base-uri 'none'; form-action 'none'"
    )
    metas = [
        Markup('<meta charset="utf-8">'),
        Markup(f'<meta http-equiv="Content-Security-Policy" content="{words(policy)}">'),
        Markup('<meta name="viewport" content="width=device-width, initial-scale=1">'),
        Markup('<meta name="color-scheme" content="light dark">'),
        *(Markup(f'<meta name="author" content="{words(book.author)}">') for _ in range(bool(book.author)) if book.author),
    ]
    head = element("head", *metas, element("title", words(book.title)), Markup(f"<style>{style}</style>"))
    inside = element(
        "body",
        link(f"#{MAIN}", words("Skip to the exercises"), class_="skip"),
        signs,
        _bar(book, glossary=glossary, index=index),
        body,
        Markup(f"<script>{script}</script>"),
    )
    return f"<!DOCTYPE html>\n{element('html', head, inside, lang=book.language)}\n".encode()


def _bar(book: Book, *, glossary: bool, index: bool) -> Markup:
    """Stays at the top: ways about the book, and the switch between a light and a dark page."""
    ways = [(TOP, book.title, "title"), (CONTENTS, "Contents", None)]
    ways += [(GLOSSARY, "Signs", None)] * glossary + [(INDEX, "Index", None)] * index
    links = together(link(f"#{name}", words(said), class_=kind) for name, said, kind in ways)
    switch = element("button", words("Dark page"), type="button", id="page_dark", aria_pressed="false", hidden=True)
    return element("nav", links, switch, class_="bar", aria_label="About the book") if links else NOTHING


def _settings(book: Book) -> str:
    """What the manifest says of paper and type, as style rules."""
    width, height = PAPERS[book.paper]
    text = f"{_quoted(book.text_font)}, {_SERIF}" if book.text_font else _SERIF
    headings = f"{_quoted(book.heading_font)}, {text}" if book.heading_font else text
    return f":root{{--text:{text};--headings:{headings}}}\n@page{{size:{width:g}mm {height:g}mm;margin:{MARGIN:g}mm}}\n"


def _heights(steps: tuple[int, ...], paper: str) -> str:
    """The heights that exercises are thought to have until they are seen; a short one is not cut by the end of a printed page."""
    most = _WHOLE * (PAPERS[paper][1] - 2 * MARGIN) * PIXELS
    short = ",".join(f".tall-{step}" for step in steps if step < most)
    rules = [f".tall-{step}{{contain-intrinsic-size:auto {step}px}}\n" for step in steps]
    return "".join(rules) + (f"@media print{{{short}{{break-inside:avoid}}}}\n" if short else "")


def _quoted(family: str) -> str:
    """A string of CSS; all but letters, digits and spaces as escapes (CSS Syntax Level 3, 4.3.7)."""
    return '"' + "".join(char if char.isalnum() or char == " " else f"\\{ord(char):x} " for char in family) + '"'


def _hash(text: str) -> str:
    """As a Content Security Policy names what may run (CSP Level 3, 2.3.1)."""
    return b64encode(sha256(text.encode()).digest()).decode()


@cache
def _file(name: str) -> str:
    return (Path(__file__).parent / name).read_text(encoding="utf-8")
