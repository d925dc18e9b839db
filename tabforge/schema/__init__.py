"""The JSON Schema guard: loading the schema files, checking documents, mapping errors back to places."""

from tabforge.schema.guard import guard
from tabforge.schema.store import load, names, text

__all__ = ["guard", "load", "names", "text"]
