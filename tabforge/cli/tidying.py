"""Laying studies out: what ``tabforge tidy`` does with its arguments."""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.cli import disk
from tabforge.cli.exits import Exits, worst
from tabforge.cli.reporting import findings
from tabforge.cli.screen import fail, pour, reason, tell
from tabforge.cli.studies import STDIN, Study, find, read_bytes, read_stdin, shown
from tabforge.diagnostics.render_text import counted
from tabforge.pipeline import tidied


def tidy_one(check: bool, quiet: bool) -> Exits:
    """Lay out standard input to standard output, or see whether it is."""
    data = read_stdin()
    text, outcome = tidied(Study.stdin().name, data)
    report = findings(outcome, quiet)
    if report:
        tell(report)
    if text is None:
        return Exits.ERRORS
    if not check:
        pour(text.encode())
        return Exits.FINE
    if text.encode() == data:
        return Exits.FINE
    if not quiet:
        tell("Standard input would change.")
    return Exits.DIFFERS


def tidy_all(paths: Sequence[str], check: bool, quiet: bool) -> Exits:
    """Lay out files in their places, or name those that would change."""
    if STDIN in paths:
        fail("Standard input (-) is laid out alone, not together with files.", Exits.USAGE)
    search = find(paths, suffixes=(".riff",))
    code = Exits.FINE
    for trouble in search.troubles:
        tell(trouble)
        code = worst(code, Exits.FILES)
    changed = 0
    for study in search.studies:
        met, differs = _tidy(study, check, quiet)
        code = worst(code, met)
        changed += differs
    if search.studies and not quiet:
        verb = "would change" if check else "changed"
        tell(f"{counted(len(search.studies), 'study', 'studies')}: {changed:,} {verb}.")
    return worst(code, Exits.DIFFERS) if check and changed else code


def _tidy(study: Study, check: bool, quiet: bool) -> tuple[Exits, bool]:
    """What one file met with, and whether it changes."""
    try:
        data = read_bytes(study.path)
    except OSError as error:
        tell(f"{shown(study.path)} cannot be read: {reason(error)}.")
        return Exits.FILES, False
    text, outcome = tidied(study.name, data)
    report = findings(outcome, quiet)
    if report:
        tell(report)
    if text is None:
        return Exits.ERRORS, False
    if text.encode() == data:
        return Exits.FINE, False
    if check:
        if not quiet:
            tell(f"{shown(study.path)}: would change")
        return Exits.FINE, True
    try:
        disk.write(study.path, text.encode())
    except OSError as error:
        tell(f"{shown(study.path)} cannot be written: {reason(error)}.")
        return Exits.FILES, False
    return Exits.FINE, True
