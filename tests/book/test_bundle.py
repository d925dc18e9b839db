"""The zip: what is in it and where, as Python's own zipfile reads it."""

from __future__ import annotations

import io
import json
import zipfile
from dataclasses import replace

import pytest

from tabforge.book.building import Job
from tabforge.book.bundle import bind, folders_of
from tabforge.book.making import Making, make
from tabforge.book.model import Chapter, Made
from tabforge.pipeline import build
from tests.book.trial_book import job


@pytest.fixture(scope="module")
def book() -> tuple[Job, list[Made]]:
    what = job()
    return what, [make(each, what.files[each.file], Making(engraved=False)) for each in what.exercises]


def opened(book: tuple[Job, list[Made]]) -> zipfile.ZipFile:
    what, made = book
    return zipfile.ZipFile(io.BytesIO(bind(what.book, what.exercises, made)))


def test_every_file_of_every_exercise_lies_in_its_chapter(book: tuple[Job, list[Made]]) -> None:
    archive = opened(book)
    assert archive.testzip() is None
    folders = ("01-climbing-landing", "02-ropes")
    wanted = [f"{folders[each.chapter]}/{each.id}{suffix}" for each in book[0].exercises for suffix in (".musicxml", ".mid", ".tab.txt")]
    assert archive.namelist() == ["index.txt", "index.json", *wanted]
    plain = build("a.riff", book[0].files["studies/deep-water.riff"], ["musicxml", "midi"])
    assert archive.read("02-ropes/deep-water.musicxml") == plain.files["musicxml"]
    assert archive.read("02-ropes/deep-water.mid") == plain.files["midi"]


def test_nothing_in_it_tells_when_or_where_it_was_made(book: tuple[Job, list[Made]]) -> None:
    assert bind(book[0].book, book[0].exercises, book[1]) == bind(book[0].book, book[0].exercises, list(book[1]))
    # 1980-01-01 is the earliest time the format knows (APPNOTE 6.3, 4.4.6); read by the standard library
    said = {(each.date_time, each.external_attr >> 16, each.create_system) for each in opened(book).infolist()}
    assert said == {((1980, 1, 1, 0, 0, 0), 0o644, 3)}


def test_the_index_for_programs_names_what_is_there(book: tuple[Job, list[Made]]) -> None:
    archive = opened(book)
    index = json.loads(archive.read("index.json"))
    assert (index["title"], index["author"], index["date"]) == ("Trial Evenings", "The Lantern Bay Guitar Workshop", "2026-11-01")
    assert [each["number"] for each in index["exercises"]] == ["1.1", "1.2", "1.3", "1.4", "2.1", "2.2", "2.3"]
    listed = [path for each in index["exercises"] for path in each["files"].values()]
    assert ["index.txt", "index.json", *listed] == archive.namelist()
    third = index["exercises"][2]
    assert (third["key"], third["level"], third["tempo"], third["scales"]) == ("Bb major", "first steps", "quarter note = 72", ["major"])


def test_the_index_to_read(book: tuple[Job, list[Made]]) -> None:
    text = opened(book).read("index.txt").decode()
    assert text.startswith("Trial Evenings\nSeven exercises\nThe Lantern Bay Guitar Workshop\nCC BY-SA 4.0\n\n1. Climbing & Landing\n")
    assert "  2.2  Deep Water\n       E minor, 4/4, quarter note = 66, Bass, standard (E1 A1 D2 G2)\n" in text
    assert "       02-ropes/deep-water .musicxml .mid .tab.txt\n" in text


def test_tracks_are_taken_in_as_they_are(book: tuple[Job, list[Made]]) -> None:
    what, made = book
    with_track = [replace(each, files={**each.files, ".mp3": b"\xff\xfb" * 900}) for each in made]
    archive = opened((what, with_track))
    info = archive.getinfo("02-ropes/deep-water.mp3")
    assert (info.compress_type, info.file_size, archive.read(info)) == (zipfile.ZIP_STORED, 1800, b"\xff\xfb" * 900)


def test_folders_stand_in_order_and_apart(book: tuple[Job, list[Made]]) -> None:
    many = replace(book[0].book, chapters=tuple(Chapter(title=f"{'Ünter' * 30}/..\\x", studies=()) for _ in range(120)))
    folders = folders_of(many)
    assert list(folders) == sorted(set(folders))
    assert folders[0].startswith("001-unter")
    assert not any(sign in name for name in folders for sign in "/\\.")
