"""Fingerprints: what they hang on, all of it and nothing else."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest

from tabforge.book.fingerprints import _NOT_MAKING, MAKERS, bound_print, digest, fingerprint, told, tool_from
from tabforge.book.installation import _ROOT, _sources, tool
from tabforge.book.making import Making
from tabforge.book.model import Exercise, StudyOptions
from tabforge.source import Span
from tests.book.trial_book import job
from tests.test_layers import Module, imports, modules

EXERCISE = Exercise(id="a", number="1.1", chapter=0, file="a.riff", options=StudyOptions())
OTHER = {
    "key": "F", "instrument": "bass", "tuning": ("D2", "A2"), "tempo": 60.5, "hand": "left", "level": "fluent", "fingering": "show",
    "blocks": ("Climb",), "tab": True, "diagrams": True, "plan": True, "tracks": True,
}  # fmt: skip


def key(exercise: Exercise = EXERCISE, data: bytes = b"x", making: Making = Making()) -> str:  # noqa: B008  # it is frozen
    return fingerprint(exercise, data, making, tool()).key


def test_every_option_of_a_study_and_of_making_counts() -> None:
    assert OTHER.keys() == {field.name for field in fields(StudyOptions)}
    changed = [key(replace(EXERCISE, options=replace(StudyOptions(), **{word: value}))) for word, value in OTHER.items()]
    changed += [key(replace(EXERCISE, title="T")), key(replace(EXERCISE, file="b.riff")), key(data=b"y")]
    changed += [key(making=replace(Making(), **each)) for each in ({"paper": "a5"}, {"font": "x"}, {"engraved": False})]
    assert len({key(), *changed}) == len(changed) + 1


def test_a_place_in_the_book_does_not_count() -> None:
    assert key(replace(EXERCISE, id="b", number="9.9", chapter=8, span=Span(3, 9))) == key()
    assert key(making=replace(Making(), tracks=False)) == key(), "no tracks are asked for"


def test_parts_are_told_apart() -> None:
    assert digest("ab", "c") != digest("a", "bc") != digest("abc")
    assert told(("a", "b")) != told(("a,b",)) != told(("a", ("b",)))
    assert told("1") != told(1)
    with pytest.raises(TypeError):
        told(object())


def test_a_bound_file_hangs_on_the_book_but_not_on_where_the_manifest_says_it() -> None:
    what = job()
    files = {"face.otf": b"OTTO"}
    chapters = (replace(what.book.chapters[0], title="Else"), *what.book.chapters[1:])
    moved = replace(what.book, chapters=tuple(replace(each, span=Span(1, 2)) for each in what.book.chapters))

    def bound(**more: object) -> str:
        given = {"form": "zip", "book": what.book, "exercises": what.exercises, "keys": ["k"], "files": files, "tool": tool()}
        return bound_print(**{**given, "needed": ("zlib",), **more})  # type: ignore[arg-type]

    other = [
        bound(form="pdf"), bound(keys=["l"]),
        bound(book=replace(what.book, chapters=chapters)), bound(book=replace(what.book, cover=("A",))),
        bound(files={"face.otf": b"otto"}), bound(files={}), bound(tool=replace(tool(), binding="x")), bound(exercises=what.exercises[:-1]),
        bound(tool=replace(tool(), packages={"zlib": "0"})), bound(needed=()),
    ]
    assert len({bound(), *other}) == len(other) + 1
    assert bound(book=moved) == bound()


def test_the_program_counts_as_far_as_bytes_hang_on_it() -> None:
    files = {"pipeline.py": b"1", "pages/engraving.py": b"2", "book/making.py": b"3", "book/bundle.py": b"4", "cli/app.py": b"5"}
    whole = tool_from(files.items(), {})

    def changed(name: str) -> tuple[bool, bool]:
        other = tool_from({**files, name: b"else"}.items(), {})
        return other.making != whole.making, other.binding != whole.binding

    assert [changed(name) for name in files] == [(True, True), (True, True), (True, True), (False, True), (False, False)]
    assert tool_from(reversed(files.items()), {}) == whole
    named = dict(_sources(_ROOT, ""))
    assert {"book/making.py", "pages/engraving.py", "theory/scale_table.py"} <= named.keys()
    assert not any("__pycache__" in name for name in named)


def test_everything_an_exercise_is_made_by_counts() -> None:
    """From the imports of the modules that make one, as far as they lead: nothing they use is left out of the hash."""
    every = {module.name: module for module in modules()}
    reached: dict[str, Module] = {}
    ahead = [each for each in every if each in ("tabforge.book.working", "tabforge.pages", "tabforge.sound.tracks", "tabforge.practice")]
    while ahead:
        name = ahead.pop()
        if name in every and name not in reached:
            reached[name] = every[name]
            ahead += [each.name for each in imports(every[name])]
    assert len(reached) > 150
    missed = set()
    for name, module in reached.items():
        path = name.removeprefix("tabforge.").replace(".", "/") + ("/" if module.package else ".py")
        if path.startswith(_NOT_MAKING) and path not in MAKERS:
            missed.add(name)
    assert missed == {"tabforge.book.installation", "tabforge.book.fingerprints"}, "they only compare"
