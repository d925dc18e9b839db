"""``tabforge schema``."""

from __future__ import annotations

from typing import Annotated

import typer

from tabforge.cli.screen import fail, pour


def _complete() -> list[str]:
    from tabforge.schema import store  # noqa: PLC0415

    return store.names()


def command(
    name: Annotated[
        str, typer.Argument(metavar="NAME", help="Which schema; list schemas names them.", autocompletion=_complete)
    ] = "study",
) -> None:
    """Print a JSON Schema: that of the study document if no other is named."""
    from tabforge.cli.exits import Exits  # noqa: PLC0415
    from tabforge.schema import store  # noqa: PLC0415

    if name not in store.names():
        fail(f"There is no schema {name!r}. There are: {', '.join(store.names())}.", Exits.USAGE)
    pour(store.text(name).encode())
