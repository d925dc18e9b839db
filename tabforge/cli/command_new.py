"""``tabforge new``."""

from __future__ import annotations

from typing import Annotated

import typer

from tabforge.cli.screen import fail, reason, say


def _complete() -> list[tuple[str, str]]:
    from tabforge.cli.handbook import templates  # noqa: PLC0415

    return list(templates().items())


def command(
    name: Annotated[str, typer.Argument(metavar="NAME", help="The file to make, with or without .riff; folders are made as needed.")],
    kind: Annotated[
        str,
        typer.Option("--kind", metavar="TEMPLATE", help="What to start from; list templates shows all.", autocompletion=_complete),
    ] = "run",
    title: Annotated[str | None, typer.Option("--title", help="The study's title; made from the name if not given.")] = None,
) -> None:
    """Start a study from a template. A file that exists is never touched."""
    from tabforge.cli.disk import create  # noqa: PLC0415
    from tabforge.cli.exits import Exits  # noqa: PLC0415
    from tabforge.cli.handbook import template, templates  # noqa: PLC0415
    from tabforge.cli.starting import can_be_title, study_path, study_title  # noqa: PLC0415
    from tabforge.cli.studies import shown  # noqa: PLC0415

    if kind not in templates():
        fail(f"There is no template {kind!r}. There are: {', '.join(templates())}.", Exits.USAGE)
    path = study_path(name)
    if path is None:
        fail(f"{name!r} is no name for a file.", Exits.USAGE)
    words = study_title(path, title)
    if not can_be_title(words):
        fail(f"{words!r} cannot be a title: it must be seen, and // would begin a comment.", Exits.USAGE)
    try:
        create(path, template(kind, words).encode())
    except FileExistsError:
        fail(f"{shown(path)} exists already, so it is left as it is.", Exits.FILES)
    except OSError as error:
        fail(f"{shown(path)} cannot be written: {reason(error)}.", Exits.FILES)
    say(f"{shown(path)} is there to be written on. To build it: tabforge build {shown(path)}")
