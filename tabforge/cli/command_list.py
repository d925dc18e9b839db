"""``tabforge list``."""

from __future__ import annotations

from typing import Annotated

import typer

from tabforge.cli.screen import fail, say


def _complete() -> list[str]:
    from tabforge.cli.topics import TOPICS  # noqa: PLC0415

    return list(TOPICS)


def command(
    topic: Annotated[
        str | None, typer.Argument(metavar="TOPIC", help="What to list; without it, the topics.", autocompletion=_complete)
    ] = None,
) -> None:
    """List scales, tunings, marks and all else that has a name."""
    from tabforge.cli.exits import Exits  # noqa: PLC0415
    from tabforge.cli.topics import TOPICS, Entry, columns  # noqa: PLC0415
    from tabforge.cli.topics import topic as topic_of  # noqa: PLC0415

    if topic is None:
        say(columns([Entry(name, topic_of(name).about) for name in TOPICS]))
        return
    if topic not in TOPICS:
        from tabforge.diagnostics.core import nearest  # noqa: PLC0415

        near = nearest(topic, TOPICS)
        hint = f"Did you mean {near}?" if near else f"There are: {', '.join(TOPICS)}."
        fail(f"There is no list of {topic!r}. {hint}", Exits.USAGE)
    say(columns(topic_of(topic).entries()))
