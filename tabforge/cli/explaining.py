"""Explaining words and studies: what ``tabforge explain`` does with its arguments."""

from __future__ import annotations

from pathlib import Path, PurePath

from tabforge.cli.choosing import chosen
from tabforge.cli.exits import Exits
from tabforge.cli.screen import fail, reason, say, tell
from tabforge.cli.studies import STDIN, Study, read_bytes, read_stdin, shown
from tabforge.explaining.facts import Facts
from tabforge.explaining.rendered import rendered
from tabforge.readers import SUFFIXES


def explain(words: list[str], block: str | None, as_json: bool) -> Exits:
    """Explain a study, or one block of it, if the first word is its file; else whatever the words are the name of."""
    first, *rest = words
    if first == STDIN or PurePath(first).suffix.lower() in SUFFIXES:
        return _study(first, block if block is not None else " ".join(rest), as_json)
    if block is not None:
        fail("--block is for a block of a study: say its file first.", Exits.USAGE)
    return _words(" ".join(" ".join(words).split()), as_json)


def _told(found: list[Facts]) -> None:
    from tabforge.cli.version import version  # noqa: PLC0415

    say(rendered(found, version())[:-1])


def _words(asked: str, as_json: bool) -> Exits:
    from tabforge.cli.topics import names, topics_explaining  # noqa: PLC0415

    found = list(topics_explaining(asked))
    if not found:
        from tabforge.diagnostics.core import nearest  # noqa: PLC0415

        near = nearest(asked, names())
        hint = f"Did you mean {near}?" if near else "tabforge list shows what can be explained."
        fail(f"There is nothing called {asked!r}. {hint}", Exits.USAGE)
    if as_json:
        from tabforge.explaining.asked import facts_of  # noqa: PLC0415

        told = facts_of(asked)
        for name, page in found:
            if name not in ("scales", "chords"):
                told.append({"explains": "page", "lines": page.split("\n")})
        _told(told)
    else:
        say("\n\n".join(page for _, page in found))
    return Exits.FINE


def _study(first: str, block: str, as_json: bool) -> Exits:
    from tabforge.explaining.studies import study_facts  # noqa: PLC0415
    from tabforge.explaining.study_text import study_text  # noqa: PLC0415
    from tabforge.pipeline import study_from  # noqa: PLC0415

    if first == STDIN:
        name, data = Study.stdin().name, read_stdin()
    else:
        try:
            name, data = first, read_bytes(Path(first))
        except OSError as error:
            fail(f"{shown(Path(first))} cannot be read: {reason(error)}.", Exits.FILES)
    outcome = study_from(name, data)
    if outcome.score is None:
        from tabforge.diagnostics.core import only_errors  # noqa: PLC0415
        from tabforge.diagnostics.render_text import render  # noqa: PLC0415

        tell(render(only_errors(outcome.diagnostics), outcome.source, unshown=outcome.unshown))
        fail("A study with errors cannot be explained.", Exits.ERRORS)
    sections = [chosen(outcome.score, " ".join(block.split()))] if block else None
    facts = study_facts(outcome.score, sections)
    if as_json:
        _told([facts])
    else:
        say(study_text(facts))
    return Exits.FINE
