# ruff: noqa: E501  # tables are read by their columns
"""The rooms of the house: who may import whom, what is loaded at the start, and how large a module may grow.

Everything is read from the source with ``ast``; each rule is first shown to find a breach in a module made for it.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import pytest

ROOT: Final = Path(__file__).parents[1]

FLOORS: Final[tuple[tuple[str, ...], ...]] = (
    ("source", "limits"),
    ("diagnostics",),
    ("model",),
    ("theory",),
    ("fretboard",),
    ("diagrams",),
    ("syntax",),
    ("schema",),
    ("compile",),
    ("performance",),
    ("readers", "writers"),
    ("check",),
    ("explaining",),
    ("pipeline",),
    ("pages", "sound", "practice"),
    ("book",),
    ("service",),
    ("cli",),
    ("__main__",),
)
"""The rooms from the bottom up. A module imports from its own room and from floors below; rooms on one floor do not know each other."""

FLOOR: Final = {room: number for number, rooms in enumerate(FLOORS) for room in rooms}

FORMATS: Final = ("tabforge.writers.ascii", "tabforge.writers.midi", "tabforge.writers.musicxml")
"""Packages of one format each, which do not know each other."""

HEAVY: Final = frozenset({
    "asyncio", "concurrent", "difflib", "email", "http", "importlib", "jsonschema", "logging", "lxml", "multiprocessing", "music21", "musicxml", "numpy",
    "referencing", "rich", "socket", "soundfile", "ssl", "fastapi", "pydantic", "starlette", "subprocess", "tempfile", "typst", "unicodedata", "unittest", "urllib", "uvicorn", "verovio", "watchfiles", "xml", "zipfile",
})
"""What a start must not pay for: imported in the functions that need it, if at all."""

OUTSIDE: Final = frozenset({"datetime", "getpass", "glob", "http", "locale", "os", "random", "secrets", "shutil", "socket", "subprocess", "tempfile", "time", "urllib.request", "uuid"})
"""The world: disk, clock, chance and network. Only the command line deals with it."""

AT_THE_EDGE: Final = frozenset({"service", "cli", "__main__"})
"""The service too: it listens, waits and watches. What it does with a study is pure all the same: ``PURE``."""

PURE: Final = "tabforge.service.tasks"
"""Modules of a room at the edge that are not."""

LOADED_LATE: Final = "tabforge.service."
"""Its modules are loaded when a server starts, and then with all that is dear: the framework reads annotations of functions where they are
made. The room itself, and whoever starts it, wait as everybody else.
"""

WITH_PATHS: Final = {
    "tabforge.book.store": "it keeps made exercises beside the book, between a build and the next",
    "tabforge.book.installation": "it reads the program's own files, to know whether they have changed",
    "tabforge.service.folder": "it reads the watched folder",
    "tabforge.service.settings": "it says which folder that is",
    "tabforge.book.pdf.program": "it reads its own style, and lays fonts where the typesetter looks for them",
    "tabforge.book.html.page": "it reads its own style and script",
}
"""Modules of the rooms of books and of the service that may open files, and why."""

WORLDLY: Final = {
    ("tabforge.book.pdf.program", "tempfile"): "the typesetter reads fonts from a folder only: it is made for them and is gone once they are read",
    ("tabforge.service.tasks.viewing", "time"): "it tells how long each part of the work has taken",
}
"""Parts of the world that a module below the edge deals with, and why."""

LARGEST: Final = 180
"""Lines of code of a module, without blank lines, comments and docstrings: some 200 as they stand in the file."""

LARGE: Final[dict[str, str]] = {"tabforge.diagnostics.catalogue.": "tables: an entry for each code, with its explanation and two sample studies"}
"""Modules, by how their names begin, that may be larger, and why."""


@dataclass(frozen=True, slots=True)
class Module:
    """A module: its dotted name, its source, and what kind of file it is."""

    name: str
    text: str
    package: bool = False

    @property
    def room(self) -> str:
        return self.name.split(".")[1] if "." in self.name else ""


@dataclass(frozen=True, slots=True)
class Import:
    """A module that is imported. ``at_start``: when its importer is loaded, not in a function or for types only."""

    name: str
    at_start: bool
    line: int


def modules() -> list[Module]:
    """Every module of the package."""
    found = []
    for path in sorted((ROOT / "tabforge").rglob("*.py")):
        parts = path.relative_to(ROOT).with_suffix("").parts
        package = parts[-1] == "__init__"
        found.append(Module(".".join(parts[:-1] if package else parts), path.read_text(encoding="utf-8"), package))
    return found


def imports(module: Module) -> Iterator[Import]:
    """All imports of a module, those in functions and for types included; of ``from a import b`` both a and a.b."""

    def walk(node: ast.AST, at_start: bool) -> Iterator[Import]:
        for child in ast.iter_child_nodes(node):
            if isinstance(child, ast.Import):
                for alias in child.names:
                    yield Import(alias.name, at_start, child.lineno)
            elif isinstance(child, ast.ImportFrom):
                base = child.module or ""
                if child.level:
                    above = module.name.split(".")
                    above = above[: len(above) - child.level + module.package]
                    base = ".".join([*above, *([child.module] if child.module else [])])
                yield Import(base, at_start, child.lineno)
                for alias in child.names:
                    yield Import(f"{base}.{alias.name}", at_start, child.lineno)
            elif isinstance(child, ast.If) and "TYPE_CHECKING" in ast.unparse(child.test):
                yield from walk(child, False)
            else:
                yield from walk(child, at_start and not isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda))

    yield from walk(ast.parse(module.text), True)


def upward(module: Module) -> Iterator[str]:
    """Imports of a module that do not go downward."""
    for each in imports(module):
        if not each.name.startswith("tabforge."):
            continue
        target = each.name.split(".")[1]
        if target in FLOOR and target != module.room and (module.room not in FLOOR or FLOOR[target] >= FLOOR[module.room]):
            yield f"{module.name}:{each.line} imports {each.name}"


def across(module: Module) -> Iterator[str]:
    """Imports of one format's package by another's."""
    own = next((each for each in FORMATS if module.name.startswith(each)), None)
    for each in imports(module):
        if own and not each.name.startswith(own) and each.name.startswith(FORMATS):
            yield f"{module.name}:{each.line} imports {each.name}"


def heavy(module: Module) -> Iterator[str]:
    """Imports at the start of what is dear."""
    for each in imports(module):
        top = each.name.split(".")[0]
        dear = top in HEAVY or (top == "typer" and module.room not in AT_THE_EDGE)
        if each.at_start and dear and not module.name.startswith(LOADED_LATE) and each.name not in {"importlib", "importlib.import_module"}:
            yield f"{module.name}:{each.line} imports {each.name}"


def worldly(module: Module) -> Iterator[str]:
    """Imports of the world by a room that is not at the edge."""
    for each in imports(module):
        top = each.name.split(".")[0]
        behind = module.room not in AT_THE_EDGE or module.name.startswith(PURE)
        if behind and OUTSIDE & {each.name, top} and (module.name, top) not in WORLDLY:
            yield f"{module.name}:{each.line} imports {each.name}"


def opening(module: Module) -> Iterator[str]:
    """What a module of the rooms of books and of the service would open files with, unless it is one that may."""
    if module.room not in ("book", "service") or module.name in WITH_PATHS:
        return
    for node in ast.walk(ast.parse(module.text)):
        names = [alias.name for alias in node.names] if isinstance(node, ast.Import | ast.ImportFrom) else []
        from_paths = isinstance(node, ast.ImportFrom) and node.module == "pathlib" and "Path" in names
        opens = isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "open"
        if from_paths or opens or (isinstance(node, ast.Import) and "pathlib" in names):
            yield f"{module.name}:{node.lineno}"


def lines_of_code(text: str) -> int:
    """Lines of a module that are neither blank nor comment nor docstring."""
    said: set[int] = set()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str):
            said |= set(range(node.lineno, (node.end_lineno or node.lineno) + 1))
    lines = enumerate(text.splitlines(), 1)
    return sum(1 for number, line in lines if number not in said and line.strip() and not line.lstrip().startswith("#"))


EVERY_MODULE: Final = pytest.mark.parametrize("module", modules(), ids=lambda module: module.name)


@EVERY_MODULE
def test_imports_go_downward(module: Module) -> None:
    assert not list(upward(module))


@EVERY_MODULE
def test_formats_do_not_know_each_other(module: Module) -> None:
    assert not list(across(module))


@EVERY_MODULE
def test_nothing_dear_is_loaded_at_the_start(module: Module) -> None:
    assert not list(heavy(module))


@EVERY_MODULE
def test_only_the_edge_deals_with_the_world(module: Module) -> None:
    assert not list(worldly(module))


@EVERY_MODULE
def test_few_modules_of_books_open_files(module: Module) -> None:
    assert not list(opening(module))


@EVERY_MODULE
def test_no_module_is_too_large(module: Module) -> None:
    assert module.name.startswith(tuple(LARGE)) or lines_of_code(module.text) <= LARGEST


def test_every_room_has_a_floor_and_every_floor_a_room() -> None:
    assert {module.room for module in modules()} - {""} == FLOOR.keys()
    assert all((ROOT / each.replace(".", "/")).is_dir() for each in FORMATS)
    assert all(any(module.name.startswith(each) for module in modules()) for each in LARGE)
    assert WITH_PATHS.keys() <= {module.name for module in modules()}


@pytest.mark.parametrize(("name", "text"), [
    ("tabforge.model.pitch", "from tabforge.theory import intervals"),
    ("tabforge.model.pitch", "def late():\n    import tabforge.compile.run"),
    ("tabforge.model.pitch", "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from tabforge.syntax.document import Study"),
    ("tabforge.model.pitch", "from tabforge import cli"),
    ("tabforge.model.pitch", "from ..theory import intervals"),
    ("tabforge.model.pitch", "from .. import theory"),
    ("tabforge.readers.riff", "from tabforge.writers import WRITERS"),
    ("tabforge.writers.loss", "import tabforge.readers"),
    ("tabforge.source", "from tabforge.limits import MAX_FRET"),
    ("tabforge.check.fingers", "import tabforge.pipeline"),
    ("tabforge", "import tabforge.cli"),
])
def test_an_import_that_goes_up_is_found(name: str, text: str) -> None:
    assert list(upward(Module(name, text)))


@pytest.mark.parametrize(("name", "text", "package"), [
    ("tabforge.theory.keys", "from tabforge.model import pitch\nfrom tabforge.theory.degrees import x\nfrom .degrees import y\nimport re", False),
    ("tabforge.theory", "from . import keys\nfrom .keys import z\nfrom ..model import pitch", True),
    ("tabforge.cli.app", "from tabforge import pipeline, readers", False),
])
def test_an_import_that_goes_down_is_not(name: str, text: str, package: bool) -> None:
    assert not list(upward(Module(name, text, package)))


def test_a_format_that_knows_another_is_found() -> None:
    assert list(across(Module("tabforge.writers.ascii.page", "from tabforge.writers.musicxml import beams")))
    assert not list(across(Module("tabforge.writers.ascii.page", "from tabforge.writers.ascii import marks\nfrom tabforge.writers import loss")))


@pytest.mark.parametrize("text", [
    "import jsonschema", "from lxml import etree", "class A:\n    import difflib", "try:\n    import rich\nexcept ImportError:\n    pass", "import xml.etree.ElementTree",
    "if True:\n    from zipfile import ZipFile", "import typer", "from importlib import metadata",
])
def test_a_dear_import_at_the_start_is_found(text: str) -> None:
    assert list(heavy(Module("tabforge.model.pitch", text)))


@pytest.mark.parametrize("text", [
    "def f():\n    import jsonschema", "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    import lxml", "import typing\nif typing.TYPE_CHECKING:\n    import lxml",
    "import json", "from importlib import import_module", "f = lambda: __import__('re')",
])
def test_one_that_waits_is_not(text: str) -> None:
    assert not list(heavy(Module("tabforge.model.pitch", text)))


def test_what_is_loaded_late_may_load_what_is_dear() -> None:
    assert not list(heavy(Module("tabforge.service.app", "import starlette")))
    assert list(heavy(Module("tabforge.service", "import starlette", package=True)))
    assert list(heavy(Module("tabforge.cli.serving", "import starlette")))


def test_a_look_at_the_world_is_found() -> None:
    assert list(worldly(Module("tabforge.compile.run", "def f():\n    import time")))
    assert list(worldly(Module("tabforge.compile.run", "from os import path")))
    assert list(worldly(Module("tabforge.service.tasks.playing", "import time")))
    assert list(worldly(Module("tabforge.service.tasks.viewing", "import os")))
    assert not list(worldly(Module("tabforge.service.crew", "import os, time")))
    assert list(worldly(Module("tabforge.book.pdf.program", "import os")))
    assert list(worldly(Module("tabforge.book.pdf.binding", "import tempfile")))
    assert not list(worldly(Module("tabforge.cli.disk", "import os")))


@pytest.mark.parametrize("text", ["from pathlib import Path", "import pathlib", "def f():\n    return open('x')"])
def test_a_module_of_books_that_opens_files_is_found(text: str) -> None:
    assert list(opening(Module("tabforge.book.plan", text)))
    assert not list(opening(Module("tabforge.book.store", text)))
    assert list(opening(Module("tabforge.service.files", text)))
    assert not list(opening(Module("tabforge.book.plan", "from pathlib import PurePosixPath")))


def test_lines_of_code_are_counted() -> None:
    assert lines_of_code('"""Says.\n\nMore.\n"""\n\n# why\nx = 1  # so\n\n\ndef f():\n    """Says."""\n    return """a\nb"""\n') == 4


def test_the_rooms_load_without_anything_dear() -> None:
    """The same rule as it comes out in a running interpreter, through whatever chain of imports."""
    rooms = [f"tabforge.{room}" for room in FLOOR if room not in AT_THE_EDGE - {"service"}]
    light = "dataclasses, enum, fractions, functools, json, pathlib, re, typing"  # and what they bring along
    program = f"import sys, {light}\nbefore = set(sys.modules)\nimport {', '.join(rooms)}\nprint(*(set(sys.modules) - before))"
    done = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, text=True, cwd=ROOT, timeout=60)
    loaded = {name.split(".")[0] for name in done.stdout.split()}
    assert "tabforge" in loaded
    assert not loaded & (HEAVY | {"typer", "click"}) - {"importlib"}
