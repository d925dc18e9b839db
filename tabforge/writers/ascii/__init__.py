"""ASCII tab: a study as plain text that can be posted anywhere."""

from tabforge.writers.ascii.page import write

__all__ = ["write"]
