"""Diagnostics for a person: where, what, the line with the place underlined, and how to mend it.

Each begins with ``file:line:column``, which terminals and editors make a link of, then whether it is an error,
and its code.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from tabforge.diagnostics.core import Diagnostic, Label, Severity
from tabforge.diagnostics.render_excerpt import WIDTH, Excerpt, excerpt, visible
from tabforge.source import Source

_STYLES: Final = {"place": "1", "error": "1;31", "advice": "1;36", "caret": "35", "aside": "2"}
"""ANSI (ECMA-48) graphic renditions: bold, red, cyan, magenta, faint."""

_INDENT: Final = "  "


def _painted(text: str, style: str, colour: bool) -> str:
    return f"\x1b[{_STYLES[style]}m{text}\x1b[0m" if colour else text


def _words(text: str) -> list[str]:
    """Words as indented lines, what is longer than an excerpt wrapped and indented further."""
    lines: list[str] = []
    for part in map(visible, text.split("\n")):
        if len(part) > WIDTH:
            import textwrap  # noqa: PLC0415  # seldom needed

            wrapped = textwrap.wrap(
                part, WIDTH, subsequent_indent=_INDENT, break_long_words=False, break_on_hyphens=False
            )
            lines += [_INDENT + line for line in wrapped]
        else:
            lines.append(_INDENT + part)
    return lines


def _excerpt_at(source: Source, start: int, end: int) -> Excerpt:
    line, column = source.position(start)
    if start >= len(source.text) and not source.line(line):
        return Excerpt("(the file ends here)", "^", whole=False)
    return excerpt(source.line(line), column - 1, column - 1 + max(0, end - start))


def _places(diagnostic: Diagnostic, source: Source, colour: bool) -> list[str]:
    """The excerpts of a diagnostic: its own place, then the others. Two places on one line share it."""
    labels = (Label(span=diagnostic.span, text=diagnostic.label), *diagnostic.others)
    numbers = [source.position(label.span.start).line for label in labels]
    gutter = max(len(str(number)) for number in numbers)
    lines: list[str] = []
    above: tuple[int, str] | None = None
    for label, number in zip(labels, numbers, strict=True):
        shown = _excerpt_at(source, *label.span)
        if above != (number, shown.line):
            lines.append(f"{_painted(f'{number:>{gutter}}', 'aside', colour)}   {shown.line}".rstrip())
        under = _painted(shown.underline.lstrip(), "caret", colour)
        lead = " " * (len(shown.underline) - len(shown.underline.lstrip()))
        lines.append(f"{' ' * gutter}   {lead}{under} {visible(label.text)}".rstrip())
        above = (number, shown.line) if shown.whole else None
    return [2 * _INDENT + line for line in lines]


def _one(diagnostic: Diagnostic, source: Source, colour: bool) -> str:
    position = source.position(diagnostic.span.start)
    kind = diagnostic.code.severity.value
    place = f"{visible(source.name)}:{position.line}:{position.column}"
    lines = [f"{_painted(place, 'place', colour)}  {_painted(f'{kind} {diagnostic.code.id}', kind, colour)}"]
    if diagnostic.pointer and source.text.lstrip()[:1] == "{":
        lines[0] += f"  at {visible(diagnostic.pointer)}"
    lines += _words(diagnostic.headline)
    if source.text:
        lines += ["", *_places(diagnostic, source, colour)]
    closing = []
    if diagnostic.expected:
        closing.append(f"expected: {diagnostic.expected}")
    if diagnostic.suggestion:
        closing.append(f"did you mean {diagnostic.suggestion}?")
    if diagnostic.help:
        closing.append(f"hint: {diagnostic.help}")
    if closing:
        lines += ["", *(line for text in closing for line in _words(text))]
    return "\n".join(lines) + "\n"


def counted(number: int, one: str, many: str) -> str:
    """A number with its noun: ``1 error``, ``2 errors``."""
    return f"{number:,} {one if number == 1 else many}"


def tally(diagnostics: Iterable[Diagnostic]) -> str:
    """How many errors and pieces of advice there are, in words."""
    kinds = [diagnostic.code.severity for diagnostic in diagnostics]
    errors, advice = kinds.count(Severity.ERROR), kinds.count(Severity.ADVICE)
    parts = [counted(errors, "error", "errors")] if errors or not advice else []
    if advice:
        parts.append(counted(advice, "piece of advice", "pieces of advice"))
    return " and ".join(parts)


def render(diagnostics: Sequence[Diagnostic], source: Source, colour: bool = False, unshown: int = 0) -> str:
    """The diagnostics of one source as text that ends in a line break; empty if there are none.

    ``unshown`` is how many more were found than are given; the closing line says so.
    """
    if not diagnostics:
        return ""
    closing = f"{visible(source.name)}: {tally(diagnostics)}"
    if unshown:
        closing += f", and {counted(unshown, 'more that is', 'more that are')} not shown"
    closing = _painted(closing, "place", colour) + ".\n"
    return "\n".join([*(_one(each, source, colour) for each in diagnostics), closing])
