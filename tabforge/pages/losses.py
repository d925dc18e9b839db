"""What engraved pages do not show of a score."""

from __future__ import annotations

from collections.abc import Iterable

from tabforge.model.score import Score
from tabforge.writers.loss import Loss


def page_losses(score: Score, written: Iterable[Loss]) -> tuple[Loss, ...]:
    """Losses of the pages: second parts, and what the standard's file could not carry and the pages do not draw either."""
    found = [
        Loss(span=part.span, what=f"a second part ({part.kind})", how="left out: pages show the first part")
        for section in score.sections
        for part in section.backing
        if part.shown
    ]
    drawn = ("trill of", "chord diagrams for the left hand")
    found += [loss for loss in written if not loss.what.startswith(drawn)]
    return tuple(dict.fromkeys(found))
