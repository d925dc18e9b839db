"""``tabforge reference``."""

from __future__ import annotations

from tabforge.cli.screen import pour


def command() -> None:
    """Print the language reference, as Markdown."""
    from tabforge.cli.handbook import reference  # noqa: PLC0415

    pour(reference().encode())
