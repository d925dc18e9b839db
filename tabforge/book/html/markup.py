"""HTML elements as text. Whatever comes from outside goes through ``words`` or an attribute here, so that it can never be markup."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, NewType

Markup = NewType("Markup", str)
"""Text that is HTML already."""

NOTHING: Final = Markup("")

_CONTROLS: Final = (*range(9), *range(11, 32), *range(0x7F, 0xA0))

_UNSEEN: Final = dict.fromkeys([*_CONTROLS, *range(0xD800, 0xE000), 0xFFFE, 0xFFFF])
"""What HTML forbids in text: control characters but white space, halves of surrogates, no characters (WHATWG HTML, 13.1.4 and 13.2.3.5)."""


def words(text: str) -> Markup:
    """A text as character data, which can stand between quotes too."""
    seen = text.translate(_UNSEEN)
    return Markup(seen.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;"))


def attributes(**given: str | bool | None) -> Markup:
    """Attributes with a space before each; ``_`` is a hyphen, one at the end is dropped.

    True: there without a value; None, False: left out.
    """
    said = []
    for name, value in given.items():
        plain = name.rstrip("_").replace("_", "-")
        if value is True:
            said.append(f" {plain}")
        elif isinstance(value, str):
            said.append(f' {plain}="{words(value)}"')
    return Markup("".join(said))


def element(tag: str, *inside: Markup, **given: str | bool | None) -> Markup:
    """An element with an end tag."""
    return Markup(f"<{tag}{attributes(**given)}>{''.join(inside)}</{tag}>")


def paragraphs(texts: Iterable[str], **given: str | bool | None) -> Markup:
    """Each text as a paragraph."""
    return together(element("p", words(text), **given) for text in texts)


def link(target: str, *inside: Markup, **given: str | bool | None) -> Markup:
    """A link within the page or out of it."""
    return element("a", *inside, href=target, **given)


def together(pieces: Iterable[Markup], between: str = "") -> Markup:
    """Pieces after one another."""
    return Markup(between.join(pieces))
