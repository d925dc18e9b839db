"""A JSON Schema as a nest of Python functions: says yes or no, and nothing else.

It covers the keywords the project's own schemas use; any other refuses to compile, and the ``jsonschema`` library serves in its
place. That library costs as much to import as the rest of a run, and most documents are valid. The tests hold the two equal.
"""

from __future__ import annotations

import re
from typing import Any, Final

from tabforge.schema.keywords import ANNOTATIONS, COMPILED, MAKERS, Unsupported, always, both, never
from tabforge.schema.values import Check

_LOCAL: Final = re.compile(r"#(?:/[A-Za-z0-9$]+)*")


class Compiled:
    """A schema's functions: ``check`` judges a whole document, ``part`` gives the function of any subschema.

    The schema must not be changed afterwards. Raises Unsupported for a schema that is not covered.
    """

    def __init__(self, schema: dict[str, Any]) -> None:
        self._root = schema
        self._parts: dict[int, Check] = {}
        self._held: list[Any] = []
        self.check = self.part(schema)

    def part(self, schema: Any) -> Check:
        """The function of the schema itself or of a schema within it, known by its identity."""
        if isinstance(schema, bool):
            return always if schema else never
        if id(schema) not in self._parts:
            self._held.append(schema)  # an identity is good only as long as its object lives
            # a schema may refer to itself: until its function is there, one that looks for it when called
            self._parts[id(schema)] = lambda value: self._parts[id(schema)](value)  # noqa: PLW0108
            self._parts[id(schema)] = self._compile(schema)
        return self._parts[id(schema)]

    def _compile(self, schema: dict[str, Any]) -> Check:
        unknown = sorted(schema.keys() - COMPILED - ANNOTATIONS)
        if unknown:
            raise Unsupported(", ".join(unknown))
        if "$id" in schema and schema is not self._root:
            raise Unsupported("$id within a schema")
        checks = [make(schema, self.part) for words, make in MAKERS.items() if any(word in schema for word in words)]
        if "$ref" in schema:
            checks.append(self.part(self._target(schema["$ref"])))
        return both(checks)

    def _target(self, reference: str) -> Any:
        at: Any = self._root
        if not _LOCAL.fullmatch(reference):
            raise Unsupported(f"$ref to {reference}")
        for step in reference.split("/")[1:]:
            if not isinstance(at, dict) or step not in at:
                raise Unsupported(f"$ref to {reference}")
            at = at[step]
        return at
