"""A small book of seven exercises to build, and its parts for tests to change. It lies in ``trial/``."""

from __future__ import annotations

import shutil
from pathlib import Path

from tabforge.book.building import Job, Order, Survey, bind, load, make_all, noted, survey
from tabforge.book.fingerprints import Tool, digest
from tabforge.book.forms import Form
from tabforge.book.installation import tool
from tabforge.book.ledger import Record
from tabforge.book.manifest import read_book
from tabforge.book.plan import exercises_of, files_of
from tabforge.book.running import Crew, here
from tabforge.book.store import Store
from tabforge.cli.disk import write

TRIAL = Path(__file__).parent / "trial"
MANIFEST = "harbour.toml"
HERE = Crew(hire=here)


def copy(folder: Path) -> Path:
    """The book's folder, to be changed by a test."""
    return Path(shutil.copytree(TRIAL, folder / "trial"))


def job(folder: Path = TRIAL, *forms: str) -> Job:
    """The book as it lies in a folder."""
    book, findings = read_book(MANIFEST, (folder / MANIFEST).read_bytes(), lambda file: (folder / file).read_bytes())
    assert book is not None, findings
    files = {file: (folder / file).read_bytes() for file in files_of(book)}
    return Job(book=book, exercises=exercises_of(book), files=files, forms=forms or ("zip",))


class Desk:
    """A place to build at: a store, the last bound zip in memory, and what was made by the last build."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.store = Store(folder, write)
        self.zip: bytes | None = None
        self.made: list[str] = []
        self.records: dict[str, Record] = {}

    def look(self, what: Job, program: Tool | None = None) -> Survey:
        def present(_form: Form) -> str | None:
            return None if self.zip is None else digest(self.zip)

        return survey(what, self.store, program or tool(), present)

    def build(self, what: Job, crew: Crew = HERE) -> bytes | None:
        """Build the zip; None if it was not bound."""
        found = self.look(what)
        self.made, self.records = [], {}

        def came(order: Order) -> None:
            self.made.append(order.exercise.id)

        for order, record in make_all(found, crew, self.store, came):
            self.records[order.exercise.id] = record
        bound = {}
        if not any(record.failed for record in self.records.values()):
            if found.stale:
                self.zip, bound["zip"] = bind(found, "zip", load(found, crew, self.store))
            self.store.prune([order.made.key for order in found.orders])
        self.store.keep(noted(found, self.records, bound))
        return self.zip if bound else None

    def reasons(self, what: Job, program: Tool | None = None) -> dict[str, str]:
        """Why exercises would be made, by id."""
        return {order.exercise.id: order.why for order in self.look(what, program).wanted if order.why}
