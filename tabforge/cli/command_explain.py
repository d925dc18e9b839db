"""``tabforge explain``."""

from __future__ import annotations

from typing import Annotated

import typer


def command(
    words: Annotated[
        list[str],
        typer.Argument(
            metavar="WORDS", help="A scale (with its root if you like), a chord, a tuning, layout, mark, setting, row or code; or a study."
        ),
    ],
    block: Annotated[
        str | None, typer.Option("--block", metavar="NAME", help="Study: this block alone, by its name or its number.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="For another program, as the schema explanation describes it.")] = False,
) -> None:
    """Explain a scale, a chord, what a study plays, a word of the language, or a code.

    For example: explain Bb lydian, explain Dm7 in C major, explain lantern.riff --block Climb, explain pm, explain M301.
    """
    from tabforge.cli.explaining import explain  # noqa: PLC0415

    raise typer.Exit(explain(words, block, json))
