"""``tabforge check``."""

from __future__ import annotations

from typing import Annotated, Literal

import typer


def command(
    paths: Annotated[
        list[str],
        typer.Argument(metavar="PATHS", help="Studies (.riff or .json) and folders of them; - reads one from standard input."),
    ],
    report: Annotated[
        Literal["text", "json", "sarif"], typer.Option("--report", help="For a person, or for another program: JSON, or SARIF 2.1.0.")
    ] = "text",
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Text: say nothing but errors.")] = False,
) -> None:
    """Check studies and write nothing: every error and all advice, on standard output."""
    from tabforge.cli.checking import check_all  # noqa: PLC0415

    raise typer.Exit(check_all(paths, report, quiet))
