"""Building studies: what ``tabforge build`` does with its arguments."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from tabforge.cli import disk
from tabforge.cli.exits import Exits, worst
from tabforge.cli.outputs import clashes, leftovers, target
from tabforge.cli.progress import Progress
from tabforge.cli.reporting import findings
from tabforge.cli.screen import fail, pour, reason, tell
from tabforge.cli.studies import STDIN, Study, find, read_bytes, read_stdin, shown
from tabforge.diagnostics.render_text import counted
from tabforge.pipeline import build
from tabforge.writers import WRITERS, WriteOptions

USUAL_FORMATS: Final = ("musicxml", "tab")
USUAL_FOLDER: Final = Path("exports")


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What the command line asks for. ``formats`` is empty and ``into`` None where it does not say."""

    formats: tuple[str, ...]
    into: Path | None
    check: bool
    quiet: bool
    options: WriteOptions


@dataclass(slots=True)
class Tally:
    """What has become of the job so far."""

    studies: int = 0
    failed: int = 0
    written: int = 0
    same: int = 0
    differing: list[str] = field(default_factory=list)
    code: Exits = Exits.FINE

    def met(self, code: Exits) -> None:
        """Something happened that the exit code must tell."""
        self.code = worst(self.code, code)


def _known(formats: Sequence[str]) -> None:
    for name in formats:
        if name not in WRITERS:
            from tabforge.diagnostics.core import nearest  # noqa: PLC0415

            near = nearest(name, WRITERS)
            hint = f"Did you mean {near}?" if near else f"There are: {', '.join(WRITERS)}."
            fail(f"There is no format {name!r}. {hint}", Exits.USAGE)


def build_one(job: Job) -> Exits:
    """Build standard input: one format to standard output, or to a folder if one is named."""
    _known(job.formats)
    if job.into is None and (len(job.formats) != 1 or job.check):
        fail("Standard output takes one format: name it with --to, or name a folder with --into.", Exits.USAGE)
    study, data = Study.stdin(), read_stdin()
    if job.into is not None:
        tally = Tally()
        _build(job, study, data, job.into, tally, Progress(1, quiet=True))
        return _close(job, tally, job.into)
    built = build(study.name, data, job.formats, job.options)
    report = findings(built.outcome, job.quiet)
    if report:
        tell(report)
    if built.outcome.failed:
        return Exits.ERRORS
    pour(built.files[job.formats[0]])
    return Exits.FINE


def build_all(job: Job, paths: Sequence[str]) -> Exits:
    """Build files and folders into a folder."""
    _known(job.formats)
    if STDIN in paths:
        fail("Standard input (-) is built alone, not together with files.", Exits.USAGE)
    into = job.into or USUAL_FOLDER
    search = find(paths, skipped=into)
    for line in clashes(search.studies, into):
        tell(line)
        search.troubles.append("")
    if search.troubles and not search.troubles[-1]:
        fail("Nothing was built: rename one of each two, or build them into different folders.", Exits.USAGE)
    tally = Tally()
    for trouble in search.troubles:
        tell(trouble)
        tally.met(Exits.FILES)
    if not search.studies:
        return tally.code
    _make_folder(job, into)
    with Progress(len(search.studies), quiet=job.quiet) as progress:
        for done, study in enumerate(search.studies):
            progress.at(done, study.name)
            try:
                data = read_bytes(study.path)
            except OSError as error:
                progress.tell(f"{shown(study.path)} cannot be read: {reason(error)}.")
                tally.met(Exits.FILES)
                continue
            _build(job, study, data, into, tally, progress)
    if job.check:
        suffixes = [WRITERS[name].suffix for name in job.formats or USUAL_FORMATS]
        expected = [target(study, suffix, into) for study in search.studies for suffix in suffixes]
        tally.differing += [f"{shown(path)}: no study builds it" for path in leftovers(into, suffixes, expected)]
    return _close(job, tally, into)


def _make_folder(job: Job, into: Path) -> None:
    """See that the folder can be written to, before work is done for nothing."""
    if job.check:
        return
    try:
        into.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        fail(f"The folder {shown(into)} cannot be made: {reason(error)}.", Exits.FILES)


def _build(job: Job, study: Study, data: bytes, into: Path, tally: Tally, progress: Progress) -> None:
    tally.studies += 1
    built = build(study.name, data, job.formats or USUAL_FORMATS, job.options)
    report = findings(built.outcome, job.quiet)
    if report:
        progress.tell(report)
    if built.outcome.failed:
        tally.failed += 1
        tally.met(Exits.ERRORS)
        return
    for name, made in built.files.items():
        path = target(study, WRITERS[name].suffix, into)
        try:
            _keep(job, path, made, tally)
        except OSError as error:
            progress.tell(f"{shown(path)} cannot be {'read' if job.check else 'written'}: {reason(error)}.")
            tally.met(Exits.FILES)


def _keep(job: Job, path: Path, made: bytes, tally: Tally) -> None:
    """Bring one file up to date, or note that it is not. Raises OSError."""
    alike = disk.same(path, made)
    if alike:
        tally.same += 1
    elif job.check:
        tally.differing.append(f"{shown(path)}: {'is missing' if alike is None else 'is not what would be built'}")
    else:
        disk.write(path, made)
        tally.written += 1


def _close(job: Job, tally: Tally, into: Path) -> Exits:
    """The last words, and the exit code."""
    for line in tally.differing:
        tell(line)
    if tally.differing:
        tally.met(Exits.DIFFERS)
    if not job.quiet:
        tell(summary(tally, into, job.check))
    return tally.code


def summary(tally: Tally, into: Path, check: bool) -> str:
    """What was done, in a line."""
    studies = counted(tally.studies, "study", "studies")
    if check:
        files = counted(len(tally.differing), "file differs", "files differ") if tally.differing else "all files are as they would be built"
        text = f"{studies} checked against {shown(into)}: {files}"
    else:
        files = counted(tally.written, "file", "files")
        text = f"{studies}: {files} written to {shown(into)}"
        if tally.same:
            text += f", {tally.same:,} already as they should be"
    if tally.failed:
        text += f"; {counted(tally.failed, 'study has', 'studies have')} errors"
        if not check:
            text += " and keeps the exports it had" if tally.failed == 1 else " and keep the exports they had"
    return text + "."
