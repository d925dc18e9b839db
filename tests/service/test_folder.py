"""The watched folder is read and never left: links that lead out, things that are no files, and what changes between two looks."""

from __future__ import annotations

import asyncio
import json
import os
from collections.abc import AsyncIterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.limits import MAX_SOURCE_BYTES
from tabforge.service.events import Events
from tabforge.service.folder import Folder, Watched
from tabforge.service.watching import watch
from tests.service.conftest import SMALL

SECRET = 'title Secret\nscale E2 minor\nriff\n  rhythm w\n  degrees 1\n'


@pytest.fixture
def outside(tmp_path: Path) -> Path:
    folder = tmp_path / "outside"
    folder.mkdir()
    (folder / "secret.riff").write_text(SECRET)
    return folder


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "studies"
    (folder / "deep" / "er").mkdir(parents=True)
    (folder / "deep" / "er" / "one.riff").write_text(SMALL)
    return folder


def names(folder: Folder) -> list[str]:
    return [each.name for each in folder.scan({}).values()]


def test_studies_are_found_in_folders_and_hidden_ones_are_not(root: Path) -> None:
    for name in ("b.RIFF", "a.json", ".hidden.riff", "c.txt", "not.json"):
        (root / name).write_text('{"study": 1, "blocks": []}' if name == "a.json" else "{}" if name == "not.json" else SMALL)
    (root / ".git").mkdir()
    (root / ".git" / "d.riff").write_text(SMALL)
    assert names(Folder(root)) == ["a.json", "b.RIFF", "deep/er/one.riff"]


def test_links_that_lead_out_are_not_followed(root: Path, outside: Path) -> None:
    (root / "file.riff").symlink_to(outside / "secret.riff")
    (root / "up.riff").symlink_to(Path("..") / "outside" / "secret.riff")
    (root / "folder").symlink_to(outside)
    (root / "chain.riff").symlink_to(root / "file.riff")
    (root / "nowhere.riff").symlink_to(root / "missing.riff")
    (root / "loop.riff").symlink_to(root / "loop.riff")
    (root / "beside.riff").symlink_to(str(root) + "-more.riff")
    Path(str(root) + "-more.riff").write_text(SECRET)
    assert names(Folder(root)) == ["deep/er/one.riff"]


def test_links_inside_are(root: Path) -> None:
    (root / "again.riff").symlink_to(root / "deep" / "er" / "one.riff")
    folder = Folder(root)
    found = folder.scan({})
    assert [each.name for each in found.values()] == ["again.riff", "deep/er/one.riff"]
    assert [folder.read(each) for each in found.values()] == [SMALL.encode()] * 2


def test_a_folder_that_is_itself_a_link_is_watched(root: Path, tmp_path: Path) -> None:
    link = tmp_path / "link"
    link.symlink_to(root)
    assert names(Folder(link)) == ["deep/er/one.riff"]


def test_what_becomes_a_link_after_the_listing_is_not_followed(root: Path, outside: Path) -> None:
    (root / "one.riff").write_text(SMALL)
    folder = Folder(root)
    found = folder.scan({})
    (root / "one.riff").unlink()
    (root / "one.riff").symlink_to(outside / "secret.riff")
    (root / "deep" / "er" / "one.riff").unlink()
    (root / "deep" / "er").rmdir()
    (root / "deep" / "er").symlink_to(outside)
    (outside / "one.riff").write_text(SECRET)
    assert [folder.read(each) for each in found.values()] == [None, None]


def test_a_step_that_becomes_a_link_while_it_is_opened_is_not_followed(root: Path, outside: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Between the look at where a path leads and its opening somebody puts a link in its way."""
    folder = Folder(root)
    (study,) = folder.scan({}).values()
    real = os.path.realpath

    def late(path: os.PathLike[str]) -> str:
        found = real(path)
        if not (root / "deep" / "er").is_symlink():
            (root / "deep" / "er" / "one.riff").unlink()
            (root / "deep" / "er").rmdir()
            (root / "deep" / "er").symlink_to(outside)
            (outside / "one.riff").write_text(SECRET)
        return found

    monkeypatch.setattr(os.path, "realpath", late)
    assert folder.read(study) is None


def test_what_is_no_file_is_left_out(root: Path) -> None:
    os.mkfifo(root / "pipe.riff")
    (root / "folder.riff").mkdir()
    (root / "closed.riff").write_text(SMALL)
    (root / "closed.riff").chmod(0)
    found = names(Folder(root))
    assert "pipe.riff" not in found and "folder.riff" not in found


def test_a_file_is_read_no_further_than_the_limit(root: Path) -> None:
    with (root / "large.riff").open("wb") as file:
        file.truncate(MAX_SOURCE_BYTES * 3)
    folder = Folder(root)
    study = next(each for each in folder.scan({}).values() if each.name == "large.riff")
    data = folder.read(study)
    assert data is not None and len(data) == study.size == MAX_SOURCE_BYTES + 1


def test_names_that_are_no_text_are_shown_and_read(root: Path) -> None:
    path = os.fsencode(root) + b"/caf\xe9.riff"
    with open(path, "wb") as file:  # noqa: PTH123  # a name in bytes
        file.write(SMALL.encode())
    folder = Folder(root)
    study = next(each for each in folder.scan({}).values() if each.name.startswith("caf"))
    json.dumps(study.told()).encode()
    assert folder.read(study) == SMALL.encode()


def test_what_has_not_changed_is_not_read_again(root: Path) -> None:
    folder = Folder(root)
    first = folder.scan({})
    again = folder.scan(first)
    assert all(again[known] is first[known] for known in first)
    (root / "deep" / "er" / "one.riff").write_text(SMALL + "\n")
    assert folder.scan(first) != first


def test_a_folder_that_is_not_there_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(OSError):
        Folder(tmp_path / "none")


def study(name: str, revision: str) -> Watched:
    return Watched(name, name, revision, 1, inside=Path(name), stamp=())  # type: ignore[arg-type]  # nobody opens it


LISTS = st.lists(st.dictionaries(st.sampled_from("abcd"), st.sampled_from("12"), max_size=4), max_size=6)


@given(LISTS)
def test_a_listener_knows_what_the_folder_has(lists: list[dict[str, str]]) -> None:
    """However the folder changes: the listing, and what is told of it, make up the folder as it is."""

    async def run() -> None:
        events = Events(9, 60)
        queue = events.join()
        known: dict[str, str] = {}
        for each in lists:
            before = dict(known)
            events.update({name: study(name, revision) for name, revision in each.items()})
            while not queue.empty():
                text = queue.get_nowait()
                assert text is not None and text.endswith("\n\n")
                name, data = (line.partition(": ")[2] for line in text.strip().split("\n"))
                told = json.loads(data)
                if name == "studies":
                    known = {one["id"]: one["revision"] for one in told["studies"]}
                elif name == "gone":
                    del known[told["id"]]
                else:
                    assert before.get(told["id"]) != told["revision"], "nothing is told twice"
                    known[told["id"]] = told["revision"]
            assert known == each

    asyncio.run(run())


def test_a_slow_listener_is_told_the_whole_listing_instead() -> None:
    async def run() -> None:
        events = Events(9, 60)
        queue = events.join()
        for number in range(1000):
            events.update({"a": study("a", str(number))})
        assert queue.qsize() <= 101
        last = ""
        while not queue.empty():
            last = queue.get_nowait() or ""
        assert '"revision": "999"' in last

    asyncio.run(run())


def test_what_is_saved_before_the_watch_begins_is_noticed(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The first scan is over and the watch has not begun: nobody tells of what is saved then."""
    import watchfiles

    async def awatch(*_: object, **__: object) -> AsyncIterator[set[object]]:
        (root / "late.riff").write_text(SMALL)
        yield set()
        await asyncio.sleep(60)

    monkeypatch.setattr(watchfiles, "awatch", awatch)
    events = Events(9, 60)

    async def run() -> None:
        task = asyncio.create_task(watch(Folder(root), events, pytest.fail))
        for _ in range(200):
            await asyncio.sleep(0.02)
            if len(events.studies) == 2:
                break
        task.cancel()

    asyncio.run(run())
    assert {each.name for each in events.studies.values()} == {"late.riff", "deep/er/one.riff"}
