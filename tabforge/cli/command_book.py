"""``tabforge book``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


def _forms() -> list[tuple[str, str]]:
    from tabforge.book.forms import FORMS  # noqa: PLC0415

    return [(each.name, each.summary) for each in FORMS.values()]


def command(
    manifest: Annotated[str, typer.Argument(metavar="MANIFEST", help="The book's manifest (.toml or .json), beside its studies.")],
    into: Annotated[
        Path | None,
        typer.Option("--into", metavar="DIR", help="The folder to write to, books if not given. It also keeps what the next build needs."),
    ] = None,
    to: Annotated[
        list[str] | None,
        typer.Option("--to", metavar="FORM", help="pdf, html or zip; may be repeated. All if not given.", autocompletion=_forms),
    ] = None,
    jobs: Annotated[
        int | None, typer.Option("--jobs", metavar="N", min=1, max=256, help="Processes at most; as many as processors if not given.")
    ] = None,
    cluster: Annotated[
        str | None,
        typer.Option("--cluster", metavar="ADDRESS", help="The scheduler of a Dask cluster that makes the exercises, such as tcp://host:8786."),
    ] = None,
    check: Annotated[bool, typer.Option("--check", help="Make and write nothing; end with code 3 if the book is not up to date.")] = False,
    why: Annotated[bool, typer.Option("--why", help="Tell of each exercise that is made why it is.")] = False,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Say nothing but errors.")] = False,
) -> None:
    """Build a book from its manifest: PDF for print, HTML for the web, a zip of files for other programs.

    Only what has changed is made again. While an exercise has errors the book stays as it was.
    """
    from tabforge.cli.booking import Asked, build_book  # noqa: PLC0415

    asked = Asked(into=into, to=tuple(dict.fromkeys(to or ())), jobs=jobs, cluster=cluster, check=check, why=why, quiet=quiet)
    raise typer.Exit(build_book(asked, manifest))
