"""The store: what is kept, what is believed of what lies there, and what is taken away."""

from __future__ import annotations

import pickle
import zlib
from pathlib import Path

import pytest

from tabforge.book.making import Making, make
from tabforge.book.model import Exercise, Facts, Made, Part, Picture, StudyOptions
from tabforge.book.packing import pack, unpack
from tabforge.book.store import Store
from tabforge.cli.disk import write
from tests.book.trial_book import TRIAL

EXERCISE = Exercise(id="a", number="1.1", chapter=0, file="a.riff", options=StudyOptions(tab=True, diagrams=True))
KEY = "0123"


@pytest.fixture(scope="module")
def made() -> Made:
    """An exercise with everything: music, shapes, ASCII tab."""
    found = make(EXERCISE, (TRIAL / "studies/quay-steps.riff").read_bytes(), Making())
    part = found.parts[0]
    assert part.sheet
    assert part.pictures
    assert part.tab
    return found


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "deep" / "store", write)


def test_what_is_kept_comes_back(store: Store, made: Made) -> None:
    assert (store.keys(), store.get(KEY)) == (frozenset(), None)
    store.put(KEY, pack(made))
    assert store.keys() == {KEY}
    assert store.get(KEY) == made


def test_an_exercise_without_anything_comes_back() -> None:
    facts = Facts(instrument="Guitar", tuning="x")
    bare = Made(id="a", title="A", facts=facts, parts=(Part(title=""),), files={".mid": b"\0"}, failed=True)
    assert unpack(pack(bare)) == bare
    shown = Made(id="a", title="A", parts=(Part(title="b", pictures=(Picture(svg="<svg/>", width=1, height=2.5, label="c"),)),))
    assert unpack(pack(shown)) == shown


def test_what_is_cut_short_or_damaged_anywhere_is_not_believed(made: Made) -> None:
    data = pack(made)
    step = len(data) // 61
    for at in range(0, len(data), step):
        assert unpack(data[:at]) is None
        wrong = bytearray(data)
        wrong[at] ^= 0x10
        assert unpack(bytes(wrong)) in (None, made), at  # zlib's own flags may differ without a difference in what they mean


class Evil:
    """What a pickle may do to who reads it."""

    def __reduce__(self) -> tuple[object, ...]:
        return print, ("not run",)


@pytest.mark.parametrize("what", [Evil(), print, {"a": 1}, None, [Made(id="a", title=Evil())]])  # type: ignore[arg-type]
def test_nothing_but_exercises_is_brought_to_life(what: object, made: Made, capsys: pytest.CaptureFixture[str]) -> None:
    head = pack(made)[: pack(made).index(b"\n") + 1]
    assert unpack(head + zlib.compress(pickle.dumps(made))) == made
    assert unpack(head + zlib.compress(pickle.dumps(what))) is None
    assert capsys.readouterr().out == ""


def test_little_that_unfolds_to_much_is_not_believed(made: Made) -> None:
    head = pack(made)[: pack(made).index(b"\n") + 1]
    assert unpack(head + zlib.compress(b"\0" * (1 << 28) + b"\0", 1)) is None


def test_only_what_is_wanted_is_left(store: Store, tmp_path: Path, made: Made) -> None:
    folder = tmp_path / "deep" / "store"
    for key in ("a", "b", "c"):
        store.put(key, pack(made))
    store.keep(store.ledger())
    (folder / ".tabforge-1.part").write_bytes(b"half")
    (folder / "notes.txt").write_text("somebody's own")
    store.prune(["b"])
    assert sorted(path.name for path in folder.iterdir()) == ["b.made", "ledger.json", "notes.txt"]
    Store(tmp_path / "nowhere", write).prune([])
