"""``tabforge build``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer


def _formats() -> list[tuple[str, str]]:
    from tabforge.writers import WRITERS  # noqa: PLC0415

    return [(each.name, each.summary) for each in WRITERS.values()]


def command(
    paths: Annotated[
        list[str],
        typer.Argument(metavar="PATHS", help="Studies (.riff or .json) and folders of them; - reads one from standard input."),
    ],
    to: Annotated[
        list[str] | None,
        typer.Option(
            "--to",
            metavar="FORMAT",
            help="What to build; may be repeated. musicxml and tab if not given. list formats shows all.",
            autocompletion=_formats,
        ),
    ] = None,
    into: Annotated[
        Path | None,
        typer.Option("--into", metavar="DIR", help="The folder to write to, exports if not given; folders of studies keep their shape."),
    ] = None,
    check: Annotated[
        bool, typer.Option("--check", help="Write nothing; end with code 3 if a file in the folder is not what would be built.")
    ] = False,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Say nothing but errors.")] = False,
    staves: Annotated[
        Literal["both", "parts", "tab", "notation"],
        typer.Option("--staves", help="MusicXML: notation and TAB as two staves of one part, as two parts, or one of them alone."),
    ] = "both",
    exact_mode: Annotated[
        bool, typer.Option("--exact-mode", help="MusicXML: name church modes in the key; some programs then show no key signature.")
    ] = False,
    width: Annotated[int, typer.Option("--width", min=40, max=1000, help="ASCII tab: characters in a line.")] = 80,
    ascii_only: Annotated[bool, typer.Option("--ascii-only", help="ASCII tab: words in ASCII too, which else keep their letters.")] = False,
    rhythm_line: Annotated[
        bool, typer.Option("--rhythm-line/--no-rhythm-line", help="ASCII tab: durations as letters over the strings.")
    ] = True,
    legend: Annotated[bool, typer.Option("--legend/--no-legend", help="ASCII tab: explain the signs at the end.")] = True,
    headings: Annotated[bool, typer.Option("--headings/--no-headings", help="ASCII tab: titles, settings and teaching text.")] = True,
) -> None:
    """Build studies: write their exports to a folder.

    A file is written only if its bytes change, and in one step. A study with errors keeps the exports it had; the others
    are built all the same.
    """
    from tabforge.cli.building import Job, build_all, build_one  # noqa: PLC0415
    from tabforge.cli.studies import STDIN  # noqa: PLC0415
    from tabforge.writers.options import WriteOptions  # noqa: PLC0415

    job = Job(
        formats=tuple(dict.fromkeys(to or ())),
        into=into,
        check=check,
        quiet=quiet,
        options=WriteOptions(
            staves=staves, exact_mode=exact_mode, width=width, ascii_only=ascii_only, rhythm_line=rhythm_line, legend=legend,
            headings=headings,
        ),
    )
    raise typer.Exit(build_one(job) if paths == [STDIN] else build_all(job, paths))
