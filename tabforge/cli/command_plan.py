"""``tabforge plan``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer

from tabforge.limits import MAX_PLAN_DAYS, MAX_PLAN_MINUTES, MAX_PLAN_TIMES, MIN_PLAN_MINUTES


def command(
    study: Annotated[str, typer.Argument(metavar="STUDY", help="A study (.riff or .json); - reads one from standard input.")],
    minutes: Annotated[
        int, typer.Option("--minutes", metavar="N", min=MIN_PLAN_MINUTES, max=MAX_PLAN_MINUTES, help="Minutes of a day, breaks included.")
    ] = 30,
    days: Annotated[int, typer.Option("--days", metavar="N", min=1, max=MAX_PLAN_DAYS, help="How many days.")] = 5,
    ladder: Annotated[
        str, typer.Option("--ladder", metavar="PERCENTS", help="Rungs in percent of the written tempo: 60..110/10, or 70,85,100.")
    ] = "60..110/10",
    times: Annotated[
        int, typer.Option("--times", metavar="N", min=1, max=MAX_PLAN_TIMES, help="Clean repetitions of a rung before the next.")
    ] = 3,
    keys: Annotated[
        Literal["as written", "fifths", "fourths", "chromatic", "random"],
        typer.Option("--keys", help="The order of keys: those the study is written in, or all twelve."),
    ] = "as written",
    seed: Annotated[
        int | None, typer.Option("--seed", metavar="N", help="With --keys random: the same number, the same order; 1 if not given.")
    ] = None,
    block: Annotated[
        str | None, typer.Option("--block", metavar="NAME", help="This block alone, by its name or its number.")
    ] = None,
    form: Annotated[Literal["text", "page"], typer.Option("--as", help="Text, or a page in HTML to print.")] = "text",
    into: Annotated[Path | None, typer.Option("--into", metavar="FILE", help="The file to write; standard output if not given.")] = None,
) -> None:
    """Plan how to practise a study: days, keys, tempo ladders, what to listen for, and rests.

    For example: plan lantern.riff --minutes 45 --days 7 --keys fifths --as page --into week.html.
    """
    from tabforge.cli.planning import Asked, plan  # noqa: PLC0415

    raise typer.Exit(
        plan(
            Asked(minutes=minutes, days=days, ladder=ladder, times=times, keys=keys, seed=seed, block=block, form=form, into=into),
            study,
        )
    )
