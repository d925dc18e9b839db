"""What the program itself has names for: formats, templates, schemas and the codes of its findings."""

from __future__ import annotations

import json
from contextlib import suppress
from typing import Final

from tabforge.cli.handbook import template, templates
from tabforge.cli.topics import Entry, Topic
from tabforge.diagnostics.catalogue import CODES
from tabforge.schema import store
from tabforge.writers import WRITERS


def _formats() -> list[Entry]:
    return [Entry(each.name, f"{each.summary} (*{each.suffix})") for each in WRITERS.values()]


def _format(words: str) -> str | None:
    found = WRITERS.get(words.casefold())
    if found is None:
        return None
    return f"{found.name}  (a format)\n\n  {found.summary}.\n  Its files end in {found.suffix}"


def _templates() -> list[Entry]:
    return [Entry(name, about) for name, about in templates().items()]


def _template(words: str) -> str | None:
    if words not in templates():
        return None
    return f"{words}  (a template for tabforge new)\n\n{_indented(template(words, 'Lantern Bay'))}"


def _schemas() -> list[Entry]:
    return [Entry(name, store.load(name)["description"]) for name in store.names()]


def _schema(words: str) -> str | None:
    if words not in store.names():
        return None
    return f"{words}  (a JSON Schema)\n\n  {store.load(words)['description']}\n  tabforge schema {words} prints it."


def _codes() -> list[Entry]:
    return [Entry(code.id, f"{code.severity.value}: {code.title}") for code in CODES.values()]


def _indented(text: str) -> str:
    return "\n".join(f"    {line}".rstrip() for line in text.rstrip("\n").split("\n"))


def _example(text: str) -> str:
    """A sample study, a JSON one laid out to be read where it is JSON at all."""
    if text.startswith("{"):
        with suppress(ValueError):
            text = json.dumps(json.loads(text), indent=2)
    return _indented(text if len(text) < 2000 else text[:2000] + " …")


def _wrapped(text: str) -> str:
    import textwrap  # noqa: PLC0415

    return textwrap.fill(text, 96, initial_indent="  ", subsequent_indent="  ")


def _code(words: str) -> str | None:
    code = CODES.get(words.upper())
    if code is None:
        return None
    kind = "an error" if code.severity.value == "error" else "advice"
    page = f"{code.id}  {code.title} ({kind})\n\n{_wrapped(code.explanation)}"
    if code.wrong:  # what is wrong with a file's bytes no text can show
        page += f"\n\n  For example:\n\n{_example(code.wrong)}\n\n  Mended:\n\n{_example(code.right)}"
    return page


TOPICS: Final = (
    Topic(name="formats", about="what a study can be built to", entries=_formats, explain=_format),
    Topic(name="templates", about="what a new study can start from", entries=_templates, explain=_template),
    Topic(name="schemas", about="JSON Schemas of what is read and reported", entries=_schemas, explain=_schema),
    Topic(name="codes", about="every kind of error and advice", entries=_codes, explain=_code),
)
