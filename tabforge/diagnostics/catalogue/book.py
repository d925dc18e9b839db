"""Codes for the manifest of a book. ``wrong`` and ``right`` are manifests in TOML, read with the files of ``SHELF`` beside them."""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics.core import Code, Severity

_E: Final = Severity.ERROR

SHELF: Final = {
    "climb.riff": b'title Quay steps\nscale C3 major\n\nrun "Quay steps"\n  layout   position 2\n  path     up\n  rhythm   q\n',
    "front.md": b"Play every exercise slowly at first.\n",
    "second.toml": b'book = 1\ntitle = "Harbour Evenings"\ninclude = ["second.toml"]\n',
}
"""Files that lie beside every sample manifest."""


def _book(more: str = "", study: str = 'file = "climb.riff"') -> str:
    return f'book = 1\ntitle = "Harbour Evenings"\n{more}\n[[chapters]]\ntitle = "Steps"\n\n[[chapters.studies]]\n{study}\n'


_RIGHT: Final = _book()

NOT_TOML: Final = Code(
    id="B601", severity=_E, title="not TOML",
    explanation="A manifest whose name ends in .toml is read as TOML 1.0: a line for each key, texts in double quotes, [[chapters]] before each chapter and "
    "[[chapters.studies]] before each of its studies.",
    wrong=_book("subtitle = For two evenings"), right=_book('subtitle = "For two evenings"'),
)
OUTSIDE: Final = Code(
    id="B602", severity=_E, title="a path that leaves the book's folder",
    explanation="Everything a book is made of lies in the folder of its manifest, so that the folder can be moved, shared and built elsewhere. A path is written from there, "
    "with / between its steps, and neither begins with / nor goes up with `..`; a link may not lead out either.",
    wrong=_book(study='file = "../climb.riff"'), right=_RIGHT,
)
MISSING_FILE: Final = Code(
    id="B603", severity=_E, title="a file that is not there",
    explanation="The manifest names a file that is not in the book's folder or cannot be read. Upper and lower case matter on many machines.",
    wrong=_book(study='file = "clim.riff"'), right=_RIGHT,
)
CIRCLE: Final = Code(
    id="B604", severity=_E, title="manifests that include one another in a circle",
    explanation="A manifest that includes itself, directly or through others, would never end. Each manifest is included once.",
    wrong=_book('include = ["second.toml"]'), right=_RIGHT,
)
NOT_A_STUDY: Final = Code(
    id="B605", severity=_E, title="a file of another kind",
    explanation="A study is a file that ends in .riff or .json, an introduction a Markdown file that ends in .md, a further manifest ends in .toml or .json.",
    wrong=_book('front = "climb.riff"'), right=_book('front = "front.md"'),
)
SAME_EXERCISE: Final = Code(
    id="B606", severity=Severity.ADVICE, title="the same exercise twice",
    explanation="The same study with the same options stands in the book twice. If that is meant, give one of them a title of its own.",
    wrong=_book(study='file = "climb.riff"\n\n[[chapters.studies]]\nfile = "climb.riff"'),
    right=_book(study='file = "climb.riff"\n\n[[chapters.studies]]\nfile = "climb.riff"\ntitle = "The same again"'),
)
NO_EXERCISES: Final = Code(
    id="B607", severity=_E, title="a book without exercises",
    explanation="A book has at least one chapter with a study in it, of its own or from a manifest it includes.",
    wrong='book = 1\ntitle = "Harbour Evenings"\n', right=_RIGHT,
)
