"""Words for places, kinds and values of a document, from the schema's own titles and descriptions."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Final

from tabforge.schema.values import TYPES
from tabforge.syntax.grammar import UNSEEN_TEXT

KINDS: Final = {
    "object": "an object { … }",
    "array": "a list [ … ]",
    "string": "a text in quotes",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
    "null": "null",
}
"""A JSON type in words."""

_LONGEST: Final = 40
_UNSEEN: Final = re.compile(rf"[\r\n\t{UNSEEN_TEXT}]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """What the schema calls a place: ``title`` without an article, ``description``, ``examples`` of what may stand there.

    ``row`` is the row of the language whose bar stands there, if one does.
    """

    title: str
    description: str | None
    examples: tuple[str, ...]
    row: str | None

    @property
    def one(self) -> str:
        """The title with its indefinite article."""
        return f"{'an' if self.title[0] in 'aeiou' else 'a'} {self.title}"


def named(schema: dict[str, Any], path: Iterable[str | int]) -> Named:
    """What is said of the subschema at ``path``, a path of keywords in which ``$ref`` does not show.

    What a reference says of its target goes before what the target says of itself.
    """
    at: Any = schema
    chain = [schema]
    title = schema["title"]
    row = None
    for step in path:
        while isinstance(at, dict) and step not in at and "$ref" in at:
            at = _target(schema, at["$ref"])
        at = at[step]
        chain, row = [at], None
        while isinstance(chain[-1], dict) and isinstance(chain[-1].get("$ref"), str):
            reference = chain[-1]["$ref"]
            row = reference.removesuffix("Bar").rpartition("/")[2] if reference.endswith("Bar") else row
            chain.append(_target(schema, reference))
        title = _first(chain, "title", str) or title
    return Named(
        title=title[:1].lower() + title[1:],
        description=_first(chain, "description", str),
        examples=tuple(_first(chain, "examples", list) or ()),
        row=row,
    )


def _target(schema: dict[str, Any], reference: str) -> Any:
    return schema["$defs"][reference.rpartition("/")[2]]


def _first(chain: Sequence[Any], word: str, kind: type) -> Any:
    return next((each[word] for each in chain if isinstance(each, dict) and isinstance(each.get(word), kind)), None)


def owners(schema: dict[str, Any], key: str) -> list[str]:
    """The titles of the objects that have a key, with an article each."""
    places = [schema, *schema.get("$defs", {}).values()]
    paths: list[list[str | int]] = [[], *(["$defs", name] for name in schema.get("$defs", {}))]
    return [named(schema, path).one for place, path in zip(places, paths, strict=True) if key in place.get("properties", {})]


def kind(value: object) -> str:
    """A value's kind in words."""
    return next(words for name, words in KINDS.items() if TYPES[name](value))


def shown(value: object) -> str:
    """A value as a headline repeats it: a text in typographic quotes, cut to a readable length; of a container the kind alone."""
    if isinstance(value, list | dict):
        return kind(value)
    if not isinstance(value, str):
        return cut(json.dumps(value))
    return f"“{_UNSEEN.sub(_escaped, cut(value))}”"


def _escaped(found: re.Match[str]) -> str:
    return f"\\u{ord(found[0]):04x}"


def cut(text: str) -> str:
    """A text cut to a readable length."""
    return text if len(text) <= _LONGEST else text[:_LONGEST] + "…"


def listed(words: Sequence[str], last: str = "or") -> str:
    """Words as a sentence lists them: ``a, b or c``."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {last} {words[-1]}"
