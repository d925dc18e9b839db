"""Books: what ``tabforge book`` does with its arguments."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import typer

from tabforge.book.building import Job, Order, Survey, bind, lacking, load, make_all, noted, said, survey
from tabforge.book.fingerprints import digest
from tabforge.book.forms import FORMS, Form
from tabforge.book.installation import StrangerError, tool
from tabforge.book.ledger import Bound, Record
from tabforge.book.manifest import MANIFESTS, Findings, read_book
from tabforge.book.plan import exercises_of, files_of
from tabforge.book.running import Crew, NobodyWorksError
from tabforge.book.store import HOME, Store
from tabforge.cli import disk
from tabforge.cli.crews import local
from tabforge.cli.exits import Exits
from tabforge.cli.folder import Folder
from tabforge.cli.progress import Progress
from tabforge.cli.screen import coloured, fail, reason, tell
from tabforge.cli.studies import read_bytes, shown
from tabforge.diagnostics.core import only_errors
from tabforge.diagnostics.render_text import counted, render

USUAL_FOLDER: Final = Path("books")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the command line asks for; None or empty where it does not say."""

    into: Path | None
    to: tuple[str, ...]
    jobs: int | None
    cluster: str | None
    check: bool
    why: bool
    quiet: bool


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a book goes. ``stem`` is what its files are called."""

    into: Path
    stem: str

    def file(self, form: Form) -> Path:
        return self.into / f"{self.stem}{form.suffix}"

    def present(self, form: Form) -> str | None:
        try:
            return digest(self.file(form).read_bytes())
        except FileNotFoundError:
            return None
        except OSError as error:
            fail(f"{shown(self.file(form))} cannot be read: {reason(error)}.", Exits.FILES)


def build_book(asked: Asked, manifest: str) -> Exits:
    """Build a book from its manifest."""
    job = _job(asked, Path(manifest))
    program = tool()
    missing = lacking(job, program.packages)
    if missing:
        fail(missing, Exits.USAGE)
    place = _Place(asked.into or USUAL_FOLDER, Path(manifest).stem)
    store = Store(place.into / HOME / place.stem, disk.write)
    found = survey(job, store, program, place.present)
    if asked.why:
        for order in found.wanted:
            tell(f"{order.exercise.number}  {order.exercise.id}: {order.why}")
    if asked.check:
        return _check(asked, found, place)
    try:
        return _build(asked, found, place, store)
    except StrangerError as error:
        fail(f"{error} What was made is kept for the next build.", Exits.USAGE)
    except NobodyWorksError as error:
        fail(f"{error} Try --jobs 1, which makes them in this process.", Exits.FAULT)
    except OSError as error:
        fail(f"The book cannot be kept in {shown(place.into)}: {reason(error)}.", Exits.FILES)


def _job(asked: Asked, manifest: Path) -> Job:
    for name in asked.to:
        if name not in FORMS:
            from tabforge.diagnostics.core import nearest  # noqa: PLC0415

            near = nearest(name, FORMS)
            fail(f"There is no form {name!r}. " + (f"Did you mean {near}?" if near else f"There are: {', '.join(FORMS)}."), Exits.USAGE)
    if asked.jobs is not None and asked.cluster is not None:
        fail("--jobs is for this machine and --cluster for others: give one of the two.", Exits.USAGE)
    if manifest.is_dir():
        fail(f"{shown(manifest)} is a folder: name the manifest in it, a file that ends in {' or '.join(MANIFESTS)}.", Exits.FILES)
    try:
        data = read_bytes(manifest)
    except OSError as error:
        fail(f"{shown(manifest)} cannot be read: {reason(error)}.", Exits.FILES)
    folder = Folder(manifest.parent)
    book, findings = read_book(manifest.as_posix(), data, folder.fetch)
    _tell_findings(findings, asked.quiet)
    if book is None:
        raise typer.Exit(Exits.ERRORS)
    files = {file: folder.files[file] for file in files_of(book)}
    return Job(book=book, exercises=exercises_of(book), files=files, forms=asked.to or tuple(FORMS))


def _tell_findings(findings: Findings, quiet: bool) -> None:
    for source, found in findings:
        report = render(only_errors(found) if quiet else found, source, colour=coloured(sys.stderr))
        if report:
            tell(report[:-1])


def _check(asked: Asked, found: Survey, place: _Place) -> Exits:
    for name in found.stale:
        tell(f"{shown(place.file(FORMS[name]))} is not what would be built.")
    failed = [order for order in found.orders if order.record is not None and order.record.failed]
    for order in failed:
        tell(_report(order, order.record))
    if failed:
        return Exits.ERRORS
    if not asked.quiet:
        tell(_count(found, "would be made"))
    return Exits.DIFFERS if found.stale else Exits.FINE


def _build(asked: Asked, found: Survey, place: _Place, store: Store) -> Exits:
    records: dict[str, Record] = {}
    with _crew(asked, found) as crew:
        with Progress(len(found.wanted), quiet=asked.quiet) as progress:
            done = 0

            def came(order: Order) -> None:
                nonlocal done
                done += 1
                progress.at(done, order.exercise.id)

            for order, record in make_all(found, crew, store, came):
                records[order.exercise.id] = record
                if record.report and (record.failed or not asked.quiet):
                    progress.tell(_report(order, record))
        failed = sum(record.failed for record in records.values())
        bound = {} if failed else _bind(found, place, store, crew)
    ledger = noted(found, records, bound)
    if ledger != found.ledger:
        store.keep(ledger)
    if failed:
        tell(_unbound(found, place, failed))
        return Exits.ERRORS
    store.prune([order.made.key for order in found.orders])
    if not asked.quiet:
        tell(_count(found, "made"))
        for name in found.job.forms:
            tell(f"{shown(place.file(FORMS[name]))} {'written' if name in bound else 'is as it should be'}.")
            for note in ledger.bound[name].told:
                tell(f"  Note: {note.rstrip('.')}.")
    return Exits.FINE


def _bind(found: Survey, place: _Place, store: Store, crew: Crew) -> dict[str, Bound]:
    """Bind what is stale, and put each file in its place."""
    bound = {}
    made = load(found, crew, store) if found.stale else ()
    for name in found.stale:
        data, bound[name] = bind(found, name, made)
        disk.write(place.file(FORMS[name]), data)
    return bound


@contextmanager
def _crew(asked: Asked, found: Survey) -> Iterator[Crew]:
    if asked.cluster is None or not found.wanted:
        yield local(asked.jobs, len(found.wanted))
        return
    from tabforge.book.cluster import NoClusterError, crew_at  # noqa: PLC0415  # needs the extra

    try:
        with crew_at(asked.cluster) as crew:
            yield crew
    except NoClusterError as error:
        fail(str(error), Exits.USAGE)


def _report(order: Order, record: Record | None) -> str:
    return said(order.exercise, record).removesuffix("\n") if record is not None else ""


def _count(found: Survey, made: str) -> str:
    """How many exercises there are, how many of them are made, in the words given, and why."""
    told = counted(len(found.orders), "exercise", "exercises")
    reasons = Counter(order.why for order in found.wanted)
    if not reasons:
        return f"{told}: all as before."
    because = "; ".join(f"{number:,}: {reason}" for reason, number in reasons.most_common())
    same = len(found.orders) - len(found.wanted)
    return f"{told}: {len(found.wanted):,} {made} ({because})" + (f", {same:,} as before." if same else ".")


def _unbound(found: Survey, place: _Place, failed: int) -> str:
    have = "exercise has" if failed == 1 else "exercises have"
    there = [shown(place.file(FORMS[name])) for name in found.job.forms if place.file(FORMS[name]).exists()]
    stays = f" {' and '.join(there)} {'stays' if len(there) == 1 else 'stay'} as before." if there else ""
    return f"{failed:,} {have} errors, so the book was not bound.{stays}"
