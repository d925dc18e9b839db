"""Engraved pages: what ``tabforge engrave`` does with its arguments."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from tabforge.cli import disk
from tabforge.cli.exits import Exits, worst
from tabforge.cli.outputs import clashes, target
from tabforge.cli.progress import Progress
from tabforge.cli.reporting import findings
from tabforge.cli.screen import fail, reason, tell
from tabforge.cli.studies import STDIN, Study, find, read_bytes, read_stdin, shown
from tabforge.diagnostics.render_text import counted
from tabforge.model.score import Score
from tabforge.pages import Engraver, MissingEngraverError, PageOptions, engrave, score_page
from tabforge.pipeline import lost_in, study_from, with_advice
from tabforge.writers.loss import Loss

USUAL_FOLDER: Final = Path("pages")
FORMAT: Final = "pages"
"""What advice about losses calls this form of a study."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the command line asks for; None where it does not say."""

    into: Path | None
    paper: str
    systems: bool
    web: bool
    charts: bool
    quiet: bool

    def options(self) -> PageOptions:
        """The same as the room of pages wants it."""
        return replace(PageOptions.on(self.paper, flavour="web" if self.web else "print"), diagrams=self.charts)


@dataclass(slots=True)
class _Job:
    asked: Asked
    options: PageOptions
    engraver: Engraver
    into: Path
    written: int = 0
    same: int = 0
    code: Exits = Exits.FINE

    def met(self, code: Exits) -> None:
        self.code = worst(self.code, code)


def engrave_all(asked: Asked, paths: Sequence[str]) -> Exits:
    """Engrave files and folders."""
    try:
        engraver = Engraver()
    except MissingEngraverError as error:
        fail(str(error), Exits.USAGE)
    job = _Job(asked, asked.options(), engraver, asked.into or USUAL_FOLDER)
    if STDIN in paths:
        if len(paths) > 1:
            fail("Standard input (-) is engraved alone, not together with files.", Exits.USAGE)
        _study(job, Study.stdin(), read_stdin(), Progress(1, quiet=True))
        return _close(job, 1)
    search = find(paths, skipped=job.into)
    said = clashes(search.studies, job.into)
    if said:
        fail("\n".join([*said, "Nothing was engraved: rename one of each two, or use different folders."]), Exits.USAGE)
    for trouble in search.troubles:
        tell(trouble)
        job.met(Exits.FILES)
    if not search.studies:
        return job.code
    with Progress(len(search.studies), quiet=asked.quiet) as progress:
        for done, study in enumerate(search.studies):
            progress.at(done, study.name)
            try:
                data = read_bytes(study.path)
            except OSError as error:
                progress.tell(f"{shown(study.path)} cannot be read: {reason(error)}.")
                job.met(Exits.FILES)
            else:
                _study(job, study, data, progress)
    return _close(job, len(search.studies))


def _study(job: _Job, study: Study, data: bytes, progress: Progress) -> None:
    outcome = study_from(study.name, data)
    files: list[tuple[str, str]] = []
    if outcome.score is not None:
        files, losses = _pictures(job, outcome.score)
        outcome = with_advice(outcome, lost_in(FORMAT, losses))
    report = findings(outcome, job.asked.quiet)
    if report:
        progress.tell(report)
    if outcome.failed:
        job.met(Exits.ERRORS)
    for suffix, text in files:
        path = target(study, suffix, job.into)
        made = text.encode()
        try:
            if disk.same(path, made):
                job.same += 1
            else:
                disk.write(path, made)
                job.written += 1
        except OSError as error:
            progress.tell(f"{shown(path)} cannot be written: {reason(error)}.")
            job.met(Exits.FILES)


def _pictures(job: _Job, score: Score) -> tuple[list[tuple[str, str]], tuple[Loss, ...]]:
    """The pictures of a score, each with the end of its file's name, and what they do not show."""
    sheets, losses = engrave(score, job.options, job.engraver)
    if not job.asked.systems:
        return [(".svg", score_page(score, sheets, job.options, job.engraver))], losses
    systems = [system for sheet in sheets for system in sheet.systems]
    return [(f"-{number:02}.svg", f"{system.svg}\n") for number, system in enumerate(systems, 1)], losses


def _close(job: _Job, studies: int) -> Exits:
    if not job.asked.quiet:
        told = f"{counted(studies, 'study', 'studies')}: {counted(job.written, 'picture', 'pictures')} written to {shown(job.into)}"
        tell(told + (f", {job.same:,} already as they should be." if job.same else "."))
    return job.code
