"""Ordered passes from a valid document to a score.

frame and scales (what is in force) → rows or run (columns) → plan (written pieces) → strokes → marks → placing → assemble (events) →
section → study. Each pass is a module; ``report`` collects what they find.
"""

from tabforge.compile.study import compile_study

__all__ = ["compile_study"]
