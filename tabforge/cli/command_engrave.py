"""``tabforge engrave``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer


def command(
    paths: Annotated[
        list[str],
        typer.Argument(metavar="PATHS", help="Studies (.riff or .json) and folders of them; - reads one from standard input."),
    ],
    into: Annotated[
        Path | None,
        typer.Option("--into", metavar="DIR", help="The folder to write to, pages if not given; folders of studies keep their shape."),
    ] = None,
    paper: Annotated[
        Literal["a4", "letter", "a5"], typer.Option("--paper", help="How wide the pages are; A5 has smaller notes too.")
    ] = "a4",
    systems: Annotated[
        bool, typer.Option("--systems", help="A picture for each line of music, without titles, instead of one for the study.")
    ] = False,
    web: Annotated[
        bool, typer.Option("--web", help="In the text's own colour, for a picture that is put into a web page, instead of black.")
    ] = False,
    charts: Annotated[bool, typer.Option("--charts/--no-charts", help="Chord shapes as charts over their symbols.")] = True,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Say nothing but errors.")] = False,
) -> None:
    """Engrave studies as SVG pictures: notation and TAB with every mark, as they are printed.

    A picture is as wide as the paper and as long as the study. It needs the extra "pages".
    """
    from tabforge.cli.engraving import Asked, engrave_all  # noqa: PLC0415

    raise typer.Exit(engrave_all(Asked(into=into, paper=paper, systems=systems, web=web, charts=charts, quiet=quiet), paths))
