"""The findings about a text that is not the JSON a study may be: what is said, and how it may be mended."""

from __future__ import annotations

import re
from typing import Final

from tabforge.diagnostics import Diagnostic, Label
from tabforge.diagnostics.catalogue import document as codes
from tabforge.limits import MAX_JSON_DEPTH
from tabforge.readers.characters import UNSEEN
from tabforge.source import Span

_LITERALS: Final = {"true": "true", "false": "false", "null": "null", "none": "null", "nil": "null", "yes": "true", "no": "false"}
_LIKE_A_NUMBER: Final = re.compile(r"[-+.]?[0-9]")
_NAMES: Final = {"{": "object", "[": "list"}
_ESCAPES: Final = r"\" \\ \/ \b \f \n \r \t or \u with four hexadecimal digits"
_LONGEST: Final = 40


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST else text[:_LONGEST] + "…"


def _syntax(
    headline: str,
    start: int,
    end: int,
    *,
    expected: str | None = None,
    suggestion: str | None = None,
    help: str | None = None,
    opened: int | None = None,
) -> Diagnostic:
    return Diagnostic(
        code=codes.JSON_SYNTAX,
        headline=headline,
        span=Span(start, end),
        expected=expected,
        suggestion=suggestion,
        help=help,
        others=() if opened is None else (Label(span=Span(opened, opened + 1), text="it begins here"),),
    )


def no_value(text: str, at: int, end: int, comma: int | None, key: bool) -> Diagnostic:
    """Something stands where a value, or a key, must begin; ``comma`` is the one just before, if there is one."""
    wanted = "a key in double quotes" if key else "a value: a text in double quotes, a number, true, false, null, [ or {"
    word, char = text[at:end], text[at : at + 1]
    if char in ("]", "}") and comma is not None:
        return _syntax("a comma with nothing after it", comma, comma + 1, expected=f"{char} without a comma before it")
    if char == ",":
        return _syntax("a comma with nothing before it", at, at + 1, expected=wanted)
    if char in ("/", "#"):
        return _syntax("JSON has no comments", at, end, expected=wanted, help="take it out, or use “comments” of the study")
    if char in ("'", "“", "”", "‘", "’", "`"):
        return _syntax(f"JSON has its texts in straight double quotes, not in {char}", at, at + 1, expected='"')
    if not key and word.lower() in _LITERALS:
        return _syntax(f"JSON does not write “{word}” like this", at, end, expected=wanted, suggestion=_LITERALS[word.lower()])
    if not key and _LIKE_A_NUMBER.match(word):
        return _syntax(f"“{_cut(word)}” is not a number as JSON writes it", at, end, expected="a number such as 96 or 0.5")
    if re.fullmatch(r"\w[\w #+-]*", word):
        what = "key" if key else "text"
        return _syntax(f"the {what} “{_cut(word)}” is not in double quotes", at, end, expected=wanted, suggestion=f'"{_cut(word)}"')
    return _syntax(f"“{_cut(word)}” cannot stand here", at, end, expected=wanted)


def no_end(text: str, opening: int | None) -> Diagnostic:
    """The text ends too early; ``opening`` is the bracket that is still open, or None before any value."""
    end = len(text.rstrip())
    if opening is None:
        return _syntax("the file is empty", end, end, expected="a study: an object { … }")
    bracket = text[opening]
    headline = f"the file ends before this {_NAMES[bracket]} is closed"
    return _syntax(headline, end, end, expected="}" if bracket == "{" else "]", opened=opening)


def no_colon(at: int, end: int, key: str) -> Diagnostic:
    """A key without its colon."""
    return _syntax(f"a colon is missing after the key “{_cut(key)}”", at, end, expected=":")


def no_comma(text: str, at: int, end: int, opening: int) -> Diagnostic:
    """After a value stands neither a comma nor the right bracket."""
    bracket, char = text[opening], text[at]
    closing = "}" if bracket == "{" else "]"
    if char in "]}":
        return _syntax(f"{char} cannot close this {_NAMES[bracket]}", at, at + 1, expected=closing, opened=opening)
    if char == ":":
        return _syntax("a colon stands only after a key", at, at + 1, expected=f", or {closing}", opened=opening)
    if char in "/#":
        return _syntax("JSON has no comments", at, end, expected=f", or {closing}", help="take it out, or use “comments” of the study")
    return _syntax("a comma is missing before this", at, end, expected=f", or {closing}", opened=opening)


def too_much(at: int, end: int) -> Diagnostic:
    """Something stands after the document."""
    return _syntax("something stands after the end of the document", at, end, expected="nothing more", help="a file holds one study")


def bad_text(text: str, start: int, at: int) -> Diagnostic:
    """A text in quotes that begins at ``start`` cannot go on at ``at``."""
    char = text[at : at + 1]
    if char == "\\":
        end = min(at + 2, len(text))
        headline = f"“{text[at:end]}” begins no escape that JSON has"
        return _syntax(headline, at, end, expected=_ESCAPES, help="a backslash itself is written \\\\")
    if char == "\t":
        return _syntax("a tab stands inside a text", at, at + 1, expected="\\t", opened=start)
    end = at if at < len(text) else len(text.rstrip())
    help = "a line break inside a text is written \\n"
    return _syntax("a text in quotes does not end on its line", start, max(end, start + 1), expected='"', help=help)


def twice(key: str, first: int, again: int, end: int) -> Diagnostic:
    """A key that the object already has."""
    return Diagnostic(
        code=codes.DUPLICATE_KEY,
        headline=f"the key “{_cut(key)}” stands twice in this object",
        span=Span(again, end),
        help="take one of them out",
        others=(Label(span=Span(first, first + end - again), text="it stands here already"),),
    )


def bad_number(text: str, at: int, end: int) -> Diagnostic:
    """A number, or a word for one, that cannot be held."""
    headline = f"“{_cut(text[at:end])}” is not a number that a study can hold"
    return Diagnostic(code=codes.NOT_A_NUMBER, headline=headline, span=Span(at, end), expected="a number that JSON has, such as 96 or 0.5")


def too_deep(at: int) -> Diagnostic:
    """One array or object too many inside one another."""
    headline = f"arrays and objects are nested more than {MAX_JSON_DEPTH} deep here"
    return Diagnostic(code=codes.TOO_DEEP, headline=headline, span=Span(at, at + 1), help="look for brackets that were not closed")


def unseen(decoded: str, start: int, end: int) -> Diagnostic | None:
    """The finding about a text that writes an unseen character with an escape, if it does."""
    found = UNSEEN.search(decoded)
    if found is None:
        return None
    headline = f"this text has a character that cannot be seen (U+{ord(found[0]):04X})"
    return Diagnostic(code=codes.UNSEEN_IN_TEXT, headline=headline, span=Span(start, end), help="take the escape out")
