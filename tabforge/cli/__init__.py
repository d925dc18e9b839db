"""The command line: parse arguments, call pure functions, print. Nothing here knows music.

Importing it costs next to nothing; ``run`` loads the one command that was asked for.
"""

from __future__ import annotations

import atexit
import gc

COLLECT_AFTER = 100_000
"""New objects between two collections of garbage. Python's own 700 makes loading the program a tenth slower, and finds nothing."""


def run() -> None:
    """Entry point of the ``tabforge`` program."""
    gc.set_threshold(COLLECT_AFTER)
    atexit.register(gc.freeze)  # else Python looks for garbage once more before it gives everything back: a sixth of a short run
    from tabforge.cli.app import app  # noqa: PLC0415  # so that importing tabforge.cli stays cheap

    try:
        app(prog_name="tabforge")
    except Exception:
        from tabforge.cli.screen import fault  # noqa: PLC0415

        fault()
