"""The handbook that is installed with the program: its pages and the templates."""

from __future__ import annotations

from pathlib import Path
from typing import Final

FOLDER: Final = Path(__file__).parents[1] / "handbook"
TEMPLATES: Final = FOLDER / "templates"
TITLE: Final = "{title}"
"""Stands in a template where the study's title goes."""


def pages() -> list[str]:
    """The names of the handbook's pages."""
    return sorted(path.stem for path in FOLDER.glob("*.md"))


def reference(page: str = "language") -> str:
    """A page of the handbook, as Markdown."""
    return (FOLDER / f"{page}.md").read_text(encoding="utf-8")


def table(heading: str) -> list[list[str]]:
    """The rows of the reference's table whose first column has this heading, each as its cells."""
    rows: list[list[str]] = []
    inside = False
    for line in reference().splitlines():
        if not line.startswith("|"):
            inside = False
            continue
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        if cells[0] == heading:
            inside = True
        elif inside and cells[0].strip("-"):
            rows.append(cells)
    return rows


def templates() -> dict[str, str]:
    """Name of each template and what it is, from its first line."""
    found = {}
    for path in sorted(TEMPLATES.glob("*.riff")):
        with path.open(encoding="utf-8") as file:
            found[path.stem] = file.readline().removeprefix("//").strip()
    return found


def template(name: str, title: str) -> str:
    """A template's text with a title in it."""
    return (TEMPLATES / f"{name}.riff").read_text(encoding="utf-8").replace(TITLE, title)
