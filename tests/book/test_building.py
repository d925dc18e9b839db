"""Building: what is made, why, in whichever way the work is done; and that nothing is made twice."""

from __future__ import annotations

import re
from collections.abc import Callable
from concurrent.futures import Executor, ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import replace
from multiprocessing import get_context
from pathlib import Path

import pytest

from tabforge.book.building import Job, lacking, load, make_all
from tabforge.book.installation import tool
from tabforge.book.ledger import Ledger
from tabforge.book.model import Made
from tabforge.book.reasons import GONE, NEW
from tabforge.book.running import Crew, here
from tests.book.trial_book import HERE, MANIFEST, Desk, copy, job

ALL = ["quay-steps-in-c", "quay-steps-in-f", "quay-steps-in-bb", "quay-steps", "rope-work", "deep-water", "rope-work-2"]


def processes(count: int) -> Callable[[], Executor]:
    return lambda: ProcessPoolExecutor(count, mp_context=get_context("spawn"))


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(tmp_path / "store")


def change(folder: Path, file: str, old: str, new: str) -> None:
    text = (folder / file).read_text()
    assert old in text
    (folder / file).write_text(text.replace(old, new, 1))


def test_the_same_bytes_and_the_same_order_whoever_works(tmp_path: Path) -> None:
    """With pages, though a zip shows none: the store's entries hold them."""
    told, kept, zips = [], [], []
    ways: list[tuple[Callable[[], Executor], int]] = [
        (here, 1), (lambda: ThreadPoolExecutor(3), 5), (processes(1), 2), (processes(2), 4),
    ]
    for number, (hire, width) in enumerate(ways):
        desk = Desk(tmp_path / str(number))
        desk.store.keep(Ledger(engraved=True))
        zips.append(desk.build(job(), Crew(hire=hire, width=width)))
        told.append(list(desk.records.items()))
        kept.append({path.name: path.read_bytes() for path in desk.folder.glob("*.made")})
        assert sorted(desk.made) == sorted(ALL)
    assert [name for name, _ in told[0]] == ALL
    assert zips[0] is not None
    assert zips.count(zips[0]) == told.count(told[0]) == kept.count(kept[0]) == len(ways)
    first = load(desk.look(job()), HERE, desk.store)[0]
    assert first.parts[0].sheet is not None
    assert first.parts[0].sheet.systems[0].svg.startswith("<svg")


def test_without_a_change_nothing_is_made_and_nothing_bound(desk: Desk) -> None:
    first = desk.build(job())
    assert first is not None
    assert desk.build(job()) is None
    assert desk.made == []
    assert list(desk.records) == ALL
    desk.zip = first[:-1]
    assert desk.build(job()) == first, "a bound file that was changed is bound again"
    assert desk.made == []


def test_a_study_that_changes_is_made_again_and_no_other(desk: Desk, tmp_path: Path) -> None:
    folder = copy(tmp_path)
    before = desk.build(job(folder))
    change(folder, "studies/deep-water.riff", "tempo       66", "tempo       67")
    after = desk.build(job(folder))
    assert desk.made == ["deep-water"]
    assert after not in (None, before)
    change(folder, "studies/deep-water.riff", "tempo       67", "tempo       66")
    assert desk.build(job(folder)) == before
    assert len(list(desk.folder.glob("*.made"))) == len(ALL), "what is not wanted any more is not kept"


def test_a_study_put_before_others_leaves_them_as_they_are(desk: Desk, tmp_path: Path) -> None:
    folder = copy(tmp_path)
    desk.build(job(folder))
    more = '[[chapters.studies]]\nfile = "studies/deep-water.riff"\nkeys = ["F"]\n'
    change(folder, MANIFEST, "[[chapters.studies]]\n", more + "[[chapters.studies]]\n")
    assert desk.build(job(folder)) is not None
    assert desk.made == ["deep-water-in-f"]
    assert list(desk.records)[1] == "quay-steps-in-c"


def test_every_reason(desk: Desk, tmp_path: Path) -> None:
    folder = copy(tmp_path)
    assert desk.reasons(job(folder)) == dict.fromkeys(ALL, NEW)
    desk.build(job(folder))
    assert desk.reasons(job(folder)) == {}
    program = tool()
    assert desk.reasons(job(folder), replace(program, making="other")) == dict.fromkeys(ALL, "tabforge changed")
    assert desk.reasons(job(folder), replace(program, binding="other")) == {}, "how it is bound does not make an exercise anew"
    change(folder, "studies/quay-steps.riff", "tempo    72", "tempo    73")
    change(folder, MANIFEST, 'level = "first steps"', 'level = "settled"')
    change(folder, MANIFEST, "tempo = 60", "tempo = 61")
    both = "its text changed, its options changed"
    assert desk.reasons(job(folder)) == {
        "quay-steps-in-c": both, "quay-steps-in-f": both, "quay-steps-in-bb": both, "quay-steps": "its text changed",
        "rope-work": "its options changed",
    }
    desk.build(job(folder))
    change(folder, MANIFEST, 'title = "Trial Evenings"', 'title = "Trial Evenings"\npaper = "a5"')
    assert set(desk.reasons(job(folder)).values()) == {"the book's paper, font or formats changed"}


def test_another_engraver_is_a_reason_where_there_are_pages(desk: Desk) -> None:
    desk.build(job())
    program = tool()
    other = replace(program, packages={**program.packages, "verovio": "0.1"})
    assert desk.reasons(job(), other) == {}, "a zip has no pages"
    desk.store.keep(replace(desk.store.ledger(), engraved=True))
    desk.build(job())
    assert set(desk.made) == set(ALL)
    assert set(desk.reasons(job(), other).values()) == {f"verovio changed from {program.packages['verovio']} to 0.1"}


def test_what_is_damaged_is_made_again_and_comes_out_the_same(desk: Desk) -> None:
    first = desk.build(job())
    entries = sorted(desk.folder.glob("*.made"))
    entries[0].write_bytes(b"")
    entries[1].write_bytes(entries[1].read_bytes()[:-20])
    middle = bytearray(entries[2].read_bytes())
    middle[len(middle) // 2] ^= 1
    entries[2].write_bytes(bytes(middle))
    entries[3].unlink()
    assert set(desk.reasons(job()).values()) == {GONE}
    desk.zip = None
    assert desk.build(job()) == first
    assert len(desk.made) == 1, "the others were found out when they were needed"
    assert desk.build(job()) is None


def test_a_ledger_that_is_lost_costs_nothing(desk: Desk) -> None:
    first = desk.build(job())
    for text in (b"", b"{}", b"[]", b'{"format": 1, "exercises": {"a": 1}, "bound": {}}', b"\xff"):
        (desk.folder / "ledger.json").write_bytes(text)
        assert desk.build(job()) == first
        assert desk.made == []


def test_errors_of_one_study_do_not_stop_the_others_and_keep_the_book(desk: Desk, tmp_path: Path) -> None:
    folder = copy(tmp_path)
    first = desk.build(job(folder))
    change(folder, "studies/rope-work.riff", "q q h", "q q z")
    change(folder, "studies/quay-steps.riff", "tempo    72", "tempo    74")
    assert desk.build(job(folder), Crew(hire=processes(2), width=4)) is None
    assert {name for name, record in desk.records.items() if record.failed} == {"rope-work", "rope-work-2"}
    assert "rope-work.riff:6:30" in desk.records["rope-work"].report
    assert desk.zip == first
    assert desk.build(job(folder)) is None
    assert desk.made == [], "what has errors and has not changed is told again, not made again"
    assert desk.records["rope-work"].failed
    change(folder, "studies/rope-work.riff", "q q z", "q q h")
    change(folder, "studies/quay-steps.riff", "tempo    74", "tempo    72")
    desk.build(job(folder))
    assert desk.zip == first


def test_what_came_before_the_end_need_not_be_made_again(desk: Desk) -> None:
    """A build that stops midway, for whatever cause."""

    class EnoughError(Exception):
        pass

    seen = []

    def came(order: object) -> None:
        seen.append(order)
        if len(seen) == 3:
            raise EnoughError

    with pytest.raises(EnoughError):
        list(make_all(desk.look(job()), HERE, desk.store, came))
    assert len(desk.look(job()).wanted) == len(ALL) - 3
    assert desk.build(job()) is not None
    assert len(desk.made) == len(ALL) - 3
    assert list(desk.records) == ALL
    assert desk.records["quay-steps"].failed is False


def test_made_exercises_have_their_ids(desk: Desk) -> None:
    desk.build(job())
    made: tuple[Made, ...] = load(desk.look(job()), HERE, desk.store)
    assert [each.id for each in made] == ALL
    assert [each.title for each in made][3:5] == ["Landing alone", "Rope Work"]


def test_what_is_not_installed_is_named() -> None:
    what = job()
    heard = replace(what, exercises=tuple(replace(each, options=replace(each.options, tracks=True)) for each in what.exercises))
    pdf: Job = replace(heard, forms=("pdf", "zip"))
    assert lacking(what, {}) is None
    assert lacking(pdf, tool().packages) is None
    told = lacking(pdf, {})
    assert told is not None
    assert re.search(r"pip install 'tabforge\[book,pages,sound\]'", told)
