"""Building a book: what is to be made, made by whoever is hired, kept, and bound.

``survey`` looks; ``make_all`` makes what is to be made and keeps it at once, so that a build that is killed goes on where it was;
``load`` and ``bind`` bind. Nothing here writes a book: the caller does, in one step, so that the last good one stays until then.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from tabforge.book.fingerprints import Fingerprint, Tool, bound_print, digest, fingerprint, plain
from tabforge.book.forms import FORMS, Form
from tabforge.book.installation import EXTRAS
from tabforge.book.ledger import Bound, Ledger, Record
from tabforge.book.making import Making, heading
from tabforge.book.reasons import GONE, why

if TYPE_CHECKING:
    from tabforge.book.model import Book, Exercise, Made
    from tabforge.book.running import Crew
    from tabforge.book.store import Store

TRACKERS: Final = frozenset({"numpy", "soundfile"})
"""The libraries that practice tracks are made with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A book to be built. ``files`` are the bytes of every file of ``plan.files_of``; ``forms`` are keys of ``forms.FORMS``."""

    book: Book
    exercises: tuple[Exercise, ...]
    files: Mapping[str, bytes]
    forms: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """An exercise and what it hangs on. ``why`` it is to be made; None: it is there. ``record``: what was told of it, if that is known."""

    exercise: Exercise
    made: Fingerprint
    why: str | None
    record: Record | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """How a book stands. ``stale`` are the forms to be bound, ``prints`` what each form of the job hangs on."""

    job: Job
    making: Making
    tool: Tool
    ledger: Ledger
    orders: tuple[Order, ...]
    prints: Mapping[str, str]
    stale: tuple[str, ...]

    @property
    def wanted(self) -> tuple[Order, ...]:
        """The exercises that are to be made."""
        return tuple(order for order in self.orders if order.why is not None)


def making_of(job: Job, ledger: Ledger, tool: Tool) -> Making:
    """What the job's forms need made; what another form needed before is made on, so that forms built by turns do not undo each other."""
    forms = [FORMS[name] for name in job.forms]
    engraved = any(form.engraved for form in forms) or (ledger.engraved and "verovio" in tool.packages)
    tracks = any(form.tracks for form in forms) or (ledger.tracks and tool.packages.keys() >= TRACKERS)
    return Making(paper=job.book.paper, engraved=engraved, tracks=tracks)


def lacking(job: Job, packages: Mapping[str, str]) -> str | None:
    """What has to be installed first, in a sentence; None if nothing has."""
    forms = [FORMS[name] for name in job.forms]
    needed = {name for form in forms for name in form.needs if name in EXTRAS}
    if any(form.tracks for form in forms) and any(each.options.tracks for each in job.exercises):
        needed |= TRACKERS
    absent = sorted(needed - packages.keys())
    if not absent:
        return None
    extras = ",".join(sorted({EXTRAS[name] for name in absent}))
    return f"This book needs {' and '.join(absent)}. Install with: pip install 'tabforge[{extras}]'"


def survey(job: Job, store: Store, tool: Tool, present: Callable[[Form], str | None]) -> Survey:
    """How a book stands. ``present`` gives the ``digest`` of a bound file as it is now, None if there is none."""
    ledger, keys = store.ledger(), store.keys()
    making = making_of(job, ledger, tool)
    orders = []
    for exercise in job.exercises:
        now = fingerprint(exercise, job.files[exercise.file], making, tool)
        record = ledger.exercises.get(exercise.id)
        same = record if record is not None and record.made == now else None
        reason = None if now.key in keys else why(record.made if record else None, now)
        orders.append(Order(exercise=exercise, made=now, why=reason, record=same if reason is None else None))
    made, beside = [order.made.key for order in orders], _beside(job)
    prints = {name: bound_print(name, job.book, job.exercises, made, beside, tool, FORMS[name].needs) for name in job.forms}

    def is_stale(name: str) -> bool:
        bound = ledger.bound.get(name)
        return bound is None or bound.print != prints[name] or bound.digest != present(FORMS[name])

    stale = tuple(name for name in job.forms if is_stale(name))
    return Survey(job=job, making=making, tool=tool, ledger=ledger, orders=tuple(orders), prints=prints, stale=stale)


def make_all(found: Survey, crew: Crew, store: Store, came: Callable[[Order], None]) -> Iterator[tuple[Order, Record]]:
    """Make what is to be made, keep each result as it comes, and give every exercise of the book in its order with what is told of it.

    ``came`` is called for each that has been made, in any order. Raises OSError if a result cannot be kept, and what ``work`` raises.
    """
    with closing(_made(found, found.wanted, crew, store, came)) as made:
        for order in found.orders:
            if order.why is not None:
                yield next(made)
            elif order.record is not None:
                yield order, order.record
            else:  # a build that was killed has made it and did not come to write it down
                yield _recovered(found, order, crew, store, came)


def _recovered(found: Survey, order: Order, crew: Crew, store: Store, came: Callable[[Order], None]) -> tuple[Order, Record]:
    kept = store.get(order.made.key)
    if kept is not None:
        return order, _record(order, kept.report, kept.failed)
    (again,) = _made(found, (replace(order, why=GONE),), crew, store, came)
    return again


def _made(
    found: Survey, wanted: Sequence[Order], crew: Crew, store: Store, came: Callable[[Order], None]
) -> Generator[tuple[Order, Record], None, None]:
    if not wanted:
        return
    from tabforge.book.running import carry_out  # noqa: PLC0415  # a build without changes needs none of it
    from tabforge.book.working import Task, Worked  # noqa: PLC0415

    tasks = [
        Task(
            exercise=plain(order.exercise),
            data=found.job.files[order.exercise.file],
            making=found.making,
            tool=found.tool.making,
            packages=order.made.packages,
        )
        for order in wanted
    ]

    def keep(number: int, worked: Worked) -> None:
        if worked.entry:
            store.put(wanted[number].made.key, worked.entry)
        came(wanted[number])

    with closing(carry_out(tasks, crew, keep)) as results:
        for number, worked in results:
            yield wanted[number], _record(wanted[number], worked.report, worked.failed)


def _record(order: Order, report: str, failed: bool) -> Record:
    return Record(made=order.made, report=report, failed=failed)


def said(exercise: Exercise, record: Record) -> str:
    """What is told of an exercise, under its heading; empty if nothing is."""
    return f"{heading(exercise)}:\n{record.report}" if record.report else ""


def load(found: Survey, crew: Crew, store: Store) -> tuple[Made, ...]:
    """Every exercise of the book as it was made; what proves damaged is made again. Raises OSError if that does not help."""
    loaded = [store.get(order.made.key) for order in found.orders]
    damaged = [replace(order, why=GONE) for order, made in zip(found.orders, loaded, strict=True) if made is None]
    if damaged:
        for _ in _made(found, damaged, crew, store, lambda _: None):
            pass
        loaded = [made or store.get(order.made.key) for order, made in zip(found.orders, loaded, strict=True)]
    whole = [replace(made, id=order.exercise.id) for order, made in zip(found.orders, loaded, strict=True) if made is not None]
    if len(whole) < len(loaded):
        raise OSError("what was just written there cannot be read")
    return tuple(whole)


def bind(found: Survey, name: str, made: Sequence[Made]) -> tuple[bytes, Bound]:
    """The book in a form of the job, and what is to be noted of it once it is in its place."""
    job = found.job
    data, told = FORMS[name].bind(job.book, job.exercises, made, _beside(job))
    return data, Bound(print=found.prints[name], digest=digest(data), told=told)


def _beside(job: Job) -> dict[str, bytes]:
    """The files that are bound in as they are, or made for the cover."""
    wanted = (*job.book.font_files, job.book.cover_study)
    return {file: data for file, data in job.files.items() if file in wanted}


def noted(found: Survey, records: Mapping[str, Record], bound: Mapping[str, Bound]) -> Ledger:
    """The ledger after a build. ``records`` are by the id of an exercise, ``bound`` by the form that was bound anew."""
    return Ledger(
        exercises=records, bound={**found.ledger.bound, **bound}, engraved=found.making.engraved, tracks=found.making.tracks
    )
