"""Checking studies: what ``tabforge check`` does with its arguments."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence

from tabforge.cli.exits import Exits, worst
from tabforge.cli.screen import coloured, fail, reason, say, tell
from tabforge.cli.studies import STDIN, Study, find, read_bytes, read_stdin, shown
from tabforge.diagnostics.core import Diagnostic, only_errors
from tabforge.diagnostics.render_text import counted, render, tally
from tabforge.pipeline import Outcome, study_from


def check_all(paths: Sequence[str], report: str, quiet: bool) -> Exits:
    """Check files and folders, or standard input, and print the report."""
    troubles: list[str] = []
    outcomes = _outcomes(paths, troubles)
    code = _printed(outcomes, quiet) if report == "text" else _written(list(outcomes), report)
    return worst(code, Exits.FILES if troubles else Exits.FINE)


def _outcomes(paths: Sequence[str], troubles: list[str]) -> Iterator[Outcome]:
    """Each study's outcome in turn. What cannot be read is told at once, and kept in ``troubles``."""

    def trouble(text: str) -> None:
        tell(text)
        troubles.append(text)

    if STDIN in paths:
        if len(paths) > 1:
            fail("Standard input (-) is checked alone, not together with files.", Exits.USAGE)
        yield study_from(Study.stdin().name, read_stdin())
        return
    search = find(paths)
    for text in search.troubles:
        trouble(text)
    for study in search.studies:
        try:
            data = read_bytes(study.path)
        except OSError as error:
            trouble(f"{shown(study.path)} cannot be read: {reason(error)}.")
            continue
        yield study_from(study.name, data)


def _printed(outcomes: Iterator[Outcome], quiet: bool) -> Exits:
    """Print each study's findings as they are made, then how it went altogether."""
    studies = 0
    found: list[Diagnostic] = []
    for outcome in outcomes:
        studies += 1
        found += outcome.diagnostics
        told = only_errors(outcome.diagnostics) if quiet else outcome.diagnostics
        text = render(told, outcome.source, colour=coloured(sys.stdout), unshown=outcome.unshown)
        if text:
            say(text)
    if studies and not quiet:
        say(f"{counted(studies, 'study', 'studies')} checked: {tally(found)}.")
    return Exits.ERRORS if only_errors(found) else Exits.FINE


def _written(outcomes: Sequence[Outcome], report: str) -> Exits:
    """Print one document about all studies."""
    from tabforge.cli.version import version  # noqa: PLC0415
    from tabforge.diagnostics import render_json, render_sarif  # noqa: PLC0415

    checked = [(each.source, each.diagnostics, each.unshown) for each in outcomes]
    renderer = render_json.render if report == "json" else render_sarif.render
    say(renderer(checked, version())[:-1])
    return Exits.ERRORS if any(each.failed for each in outcomes) else Exits.FINE
