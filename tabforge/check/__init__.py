"""Advice about a compiled study: an immutable tuple of small functions, each of which looks for one thing."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Final

from tabforge.check.fingers import one_finger_twice
from tabforge.check.roots import plainer_roots
from tabforge.check.stretches import wide_stretches_in

if TYPE_CHECKING:
    from tabforge.diagnostics.core import Diagnostic
    from tabforge.model.score import Score
    from tabforge.syntax.document import Study
    from tabforge.syntax.origins import Origins

Check = Callable[["Score", "Study", "Origins"], Iterable["Diagnostic"]]
"""Looks a score over; the document it was compiled from, and its places, say where a finding belongs."""

CHECKS: Final[tuple[Check, ...]] = (plainer_roots, one_finger_twice, wide_stretches_in)


def advise(score: Score, document: Study, origins: Origins) -> tuple[Diagnostic, ...]:
    """What all checks find."""
    return tuple(found for check in CHECKS for found in check(score, document, origins))
