"""``tabforge serve``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


def command(
    folder: Annotated[
        Path | None, typer.Argument(metavar="[FOLDER]", help="A folder of studies to watch; the page lists them. It is only read.")
    ] = None,
    port: Annotated[int, typer.Option("--port", metavar="N", min=0, max=65535, help="The port to listen on; 0 for any free one.")] = 8765,
    host: Annotated[
        str, typer.Option("--host", metavar="ADDRESS", help="The address to listen on. One that other machines reach needs --token.")
    ] = "127.0.0.1",
    token: Annotated[
        str | None,
        typer.Option("--token", metavar="WORDS", envvar="TABFORGE_TOKEN", help="Whoever asks must bring this, 16 characters or more."),
    ] = None,
    name: Annotated[
        list[str] | None, typer.Option("--name", metavar="HOST", help="A name by which others reach this service, besides its address.")
    ] = None,
    workers: Annotated[int | None, typer.Option("--workers", metavar="N", min=1, max=64, help="Processes that work at once.")] = None,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Log nothing but faults.")] = False,
) -> None:
    """Serve a page that shows, plays and exports the studies of a folder as they are edited, and an HTTP API. Ctrl-C ends it."""
    from tabforge.cli.serving import Asked, serve  # noqa: PLC0415

    raise typer.Exit(serve(Asked(folder, port, host, token, tuple(name or ()), workers, quiet)))
