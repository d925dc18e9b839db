"""Practice plans: what ``tabforge plan`` does with its arguments."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from tabforge.cli import disk
from tabforge.cli.choosing import chosen
from tabforge.cli.exits import Exits
from tabforge.cli.screen import fail, pour, reason, say, tell
from tabforge.cli.studies import STDIN, Study, read_bytes, read_stdin, shown
from tabforge.diagnostics.core import only_errors
from tabforge.diagnostics.render_text import render
from tabforge.model.score import Score
from tabforge.performance.ladder import Misread, read_ladder
from tabforge.pipeline import study_from
from tabforge.practice import PlanOptions, plan_of, plan_page, plan_text
from tabforge.practice.blocks import blocks_of
from tabforge.practice.model import KeyOrder


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the command line asks for; None where it does not say."""

    minutes: int
    days: int
    ladder: str
    times: int
    keys: KeyOrder
    seed: int | None
    block: str | None
    form: Literal["text", "page"]
    into: Path | None


def plan(asked: Asked, path: str) -> Exits:
    """Plan one study, to standard output or to a file."""
    rungs = read_ladder(asked.ladder)
    if isinstance(rungs, Misread):
        fail(rungs.why, Exits.USAGE)
    if asked.seed is not None and asked.keys != "random":
        fail("--seed goes with --keys random.", Exits.USAGE)
    score = _score(path)
    options = PlanOptions(
        minutes=asked.minutes, days=asked.days, ladder=rungs, times=asked.times, keys=asked.keys,
        seed=1 if asked.seed is None else asked.seed, blocks=_blocks(score, asked.block), file=path if path == STDIN else shown(Path(path)),
    )  # fmt: skip
    made = plan_of(score, options)
    text = plan_page(made) if asked.form == "page" else plan_text(made) + "\n"
    if asked.into is None:
        if asked.form == "page":
            pour(text.encode())
        else:
            say(text[:-1])
        return Exits.FINE
    try:
        disk.write(asked.into, text.encode())
    except OSError as error:
        tell(f"{shown(asked.into)} cannot be written: {reason(error)}.")
        return Exits.FILES
    return Exits.FINE


def _score(path: str) -> Score:  # noqa: RET503  # fail does not return
    """The study's score; one that cannot be read or has errors ends the command."""
    if path == STDIN:
        name, data = Study.stdin().name, read_stdin()
    else:
        try:
            name, data = path, read_bytes(Path(path))
        except OSError as error:
            fail(f"{shown(Path(path))} cannot be read: {reason(error)}.", Exits.FILES)
    outcome = study_from(name, data)
    if outcome.score is not None:
        return outcome.score
    tell(render(only_errors(outcome.diagnostics), outcome.source, unshown=outcome.unshown))
    fail("A study with errors cannot be planned.", Exits.ERRORS)


def _blocks(score: Score, name: str | None) -> tuple[int, ...] | None:
    """The number of the block that is asked for; its name is enough where it is written in several keys."""
    if name is None:
        return None
    blocks = blocks_of(score)
    for number, block in enumerate(blocks):
        if block.name.casefold() == name.casefold():
            return (number,)
    section = chosen(score, name)
    return tuple(number for number, block in enumerate(blocks) if section in block.sections)
