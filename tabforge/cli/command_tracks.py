"""``tabforge tracks``."""

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
        typer.Option("--into", metavar="DIR", help="The folder to write to, tracks if not given; folders of studies keep their shape."),
    ] = None,
    ladder: Annotated[
        str, typer.Option("--ladder", metavar="PERCENTS", help="Rungs in percent of the tempo: 60..120/5, or 70,85,100.")
    ] = "100",
    times: Annotated[int, typer.Option("--times", metavar="N", help="How often each rung is played, its count-in once.")] = 1,
    split: Annotated[bool, typer.Option("--split", help="A file for each rung instead of one for the whole ladder.")] = False,
    stems: Annotated[bool, typer.Option("--stems", help="Beside the whole a file for each part alone: line, drone, vamp, click.")] = False,
    to: Annotated[Literal["wav", "mp3"], typer.Option("--to", help="The form of the files.")] = "wav",
    a4: Annotated[float, typer.Option("--a4", metavar="HZ", help="The A above middle C, 400 to 480 Hz.")] = 440.0,
    block: Annotated[
        str | None, typer.Option("--block", metavar="NAME", help="This block alone, by its name or its number.")
    ] = None,
    line: Annotated[bool, typer.Option("--line/--no-line", help="The study's own notes, or only what you play them over.")] = True,
    drone: Annotated[
        bool | None,
        typer.Option("--drone/--no-drone", help="A deep root under every bar, or none; what the study says if not given."),
    ] = None,
    vamp: Annotated[bool, typer.Option("--vamp/--no-vamp", help="The study's chords behind the line.")] = True,
    click: Annotated[
        bool | None, typer.Option("--click/--no-click", help="A click on every beat, or none after the count-in; else what the study says.")
    ] = None,
    count_in: Annotated[
        int | None,
        typer.Option("--count-in", metavar="BARS", min=0, max=8, help="Bars counted before each block; else what the study says, or 1."),
    ] = None,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Say nothing but errors.")] = False,
) -> None:
    """Make practice tracks: what studies sound like, slowly and faster, with a drone, a vamp and a click.

    For example: tracks lantern.riff --ladder 60..120/5 --times 4 --click. Start at a low volume, most of all in headphones.
    """
    from tabforge.cli.tracking import Asked, make  # noqa: PLC0415

    raise typer.Exit(
        make(
            Asked(
                into=into, ladder=ladder, times=times, split=split, stems=stems, to=to, a4=a4, block=block, line=line, drone=drone,
                vamp=vamp, click=click, count_in=count_in, quiet=quiet,
            ),
            paths,
        )
    )  # fmt: skip
