"""The schema files: which there are, and what they say.

They lie in the top-level folder ``schemas`` of the source tree and, once installed, in ``tabforge/schema/files``.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any, Final

_SUFFIX: Final = ".schema.json"


@cache
def _folder() -> Path:
    here = Path(__file__).resolve().parent
    installed = here / "files"
    return installed if installed.is_dir() else here.parents[1] / "schemas"


def names() -> list[str]:
    """The kinds of input that have a schema, in alphabetical order."""
    return sorted(path.name.removesuffix(_SUFFIX) for path in _folder().glob(f"*{_SUFFIX}"))


def text(name: str) -> str:
    """A schema file as it stands. Raises KeyError for a name that ``names`` does not give."""
    if name not in names():
        raise KeyError(name)
    return (_folder() / f"{name}{_SUFFIX}").read_text(encoding="utf-8")


def load(name: str) -> dict[str, Any]:
    """A schema as JSON Schema 2020-12; a new object each time. Raises KeyError as ``text`` does."""
    schema: dict[str, Any] = json.loads(text(name))
    return schema
