"""``tabforge reference``."""

from __future__ import annotations

from typing import Annotated

import typer

from tabforge.cli.screen import fail, pour


def _complete() -> list[str]:
    from tabforge.cli.handbook import pages  # noqa: PLC0415

    return pages()


def command(
    page: Annotated[
        str,
        typer.Argument(
            metavar="PAGE",
            help="language; techniques: what each format has of each mark; book: manifests; ci: checking and building by machine.",
            autocompletion=_complete,
        ),
    ] = "language",
) -> None:
    """Print a page of the handbook, as Markdown: the language if no other is named."""
    from tabforge.cli.exits import Exits  # noqa: PLC0415
    from tabforge.cli.handbook import pages, reference  # noqa: PLC0415

    if page not in pages():
        fail(f"There is no page {page!r}. There are: {', '.join(pages())}.", Exits.USAGE)
    pour(reference(page).encode())
