"""``tabforge tidy``."""

from __future__ import annotations

from typing import Annotated

import typer


def command(
    paths: Annotated[
        list[str],
        typer.Argument(metavar="PATHS", help="Files *.riff and folders of them; - lays out standard input to standard output."),
    ],
    check: Annotated[bool, typer.Option("--check", help="Write nothing; name the files that would change, and end with code 3.")] = False,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Say nothing but errors.")] = False,
) -> None:
    """Lay studies out: line up the columns of their rows. Meaning and comments stay as they are.

    A file with errors in how it is written is left alone.
    """
    from tabforge.cli.tidying import tidy_all, tidy_one  # noqa: PLC0415
    from tabforge.cli.studies import STDIN  # noqa: PLC0415  # isort: skip

    raise typer.Exit(tidy_one(check, quiet) if paths == [STDIN] else tidy_all(paths, check, quiet))
