"""The command line: parse arguments, call pure functions, print. Nothing here knows music.

Importing it costs next to nothing; ``run`` loads the one command that was asked for.
"""

from __future__ import annotations


def run() -> None:
    """Entry point of the ``tabforge`` program."""
    from tabforge.cli.app import app  # noqa: PLC0415  # so that importing tabforge.cli stays cheap

    app(prog_name="tabforge")
