"""``tabforge explain``."""

from __future__ import annotations

from typing import Annotated

import typer

from tabforge.cli.screen import fail, say


def command(
    words: Annotated[
        list[str],
        typer.Argument(metavar="WORDS", help="A scale (with its root if you like), tuning, layout, mark, setting, row or code."),
    ],
) -> None:
    """Explain a word of the language, a scale on a root, or a code.

    For example: explain Bb lydian, explain drop D, explain pm, explain rhythm, explain M301.
    """
    from tabforge.cli.exits import Exits  # noqa: PLC0415
    from tabforge.cli.topics import names, pages  # noqa: PLC0415

    asked = " ".join(" ".join(words).split())
    found = list(pages(asked))
    if not found:
        from tabforge.diagnostics.core import nearest  # noqa: PLC0415

        near = nearest(asked, names())
        hint = f"Did you mean {near}?" if near else "tabforge list shows what can be explained."
        fail(f"There is nothing called {asked!r}. {hint}", Exits.USAGE)
    say("\n\n".join(found))
