"""Players: sorts of hands and habits that weigh a fingering otherwise. Common practice, no source, like all weights (see ``cost``)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from tabforge.fretboard.cost import USUAL, Weights


@dataclass(frozen=True, slots=True, kw_only=True)
class Player:
    """A sort of player: its name, its weights, and what they come to in a few words."""

    name: str
    weights: Weights
    says: str


PLAYERS: Final[dict[str, Player]] = {
    player.name: player
    for player in (
        Player(name="usual", weights=USUAL, says="a grown player with a pick, who has not said otherwise"),
        Player(
            name="beginner",
            weights=Weights(opened=0, high_from=4, weak=2, barre=5, stretch=5, strain=2, shift=6, hand=0.9),
            says="open strings and low positions; few barres, little stretching, the fourth finger only where it is needed",
        ),
        Player(
            name="small hand",
            weights=Weights(stretch=6, strain=3, span=2, displaced=1, shift=3, hand=0.85),
            says="shifts rather than stretches; 110 mm from the first finger to the fourth at most",
        ),
        Player(
            name="classical",
            weights=Weights(roll=4, picking=0, barre=1, start=1, opened=1, weak=0),
            says="another finger for each string rather than one rolled across; no pick to care for",
        ),
        Player(
            name="lead",
            weights=Weights(opened=2, unstopped=3, high_from=19, start=0, shift=3, roll=1, picking=2, thumb=2),
            says="closed shapes that can be moved, anywhere on the neck; the thumb may stop the lowest string",
        ),
    )
}
"""Name → player; ``usual`` is the one a study is for if it names none."""
