"""Practice plans: how to work through a study, day by day, tempo by tempo, key by key."""

from tabforge.practice.lines import plan_lines

__all__ = ["plan_lines"]
