"""Which technique is drawn by which function, and which the notation staff shows alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from tabforge.pages.marks.bends import BENT, bends
from tabforge.pages.marks.lanes import HARMONICS, MUTED, RINGING, TOLD, barre, extent, shaken, tapped, told_at, touched, trill
from tabforge.pages.marks.legato import from_or_to_nowhere, legato, legato_slide, slide
from tabforge.pages.marks.reaches import Reach, reaches
from tabforge.pages.marks.strokes import beside, plucking
from tabforge.pages.stage import Stage

Handler = Callable[[Stage, Reach], None]


def nothing(stage: Stage, reach: Reach) -> None:
    """What the number itself shows, or the notation staff alone."""


HANDLERS: Final[dict[str, Handler]] = {
    "hammer-on": legato("H"),
    "pull-off": legato("P"),
    "legato slide": legato_slide,
    "shift slide": slide,
    "slide in from below": from_or_to_nowhere(before=True, rises=True),
    "slide in from above": from_or_to_nowhere(before=True, rises=False),
    "slide out upward": from_or_to_nowhere(before=False, rises=True),
    "slide out downward": from_or_to_nowhere(before=False, rises=False),
    **dict.fromkeys(BENT, nothing),  # drawn together, see below
    "vibrato": shaken(70, 130),
    "wide vibrato": shaken(130, 190),
    "palm mute": extent("P.M.", MUTED),
    "let ring": extent("let ring", RINGING),
    "dead note": nothing,
    "ghost note": nothing,
    "natural harmonic": extent("N.H.", HARMONICS),
    "artificial harmonic": touched("A.H."),
    "pinch harmonic": extent("P.H.", HARMONICS),
    "tapped harmonic": touched("T.H."),
    "tap": tapped("T"),
    "left-hand tap": tapped("LT"),
    "trill": trill,
    "tremolo picking": nothing,
    "staccato": nothing,
    "tenuto": nothing,
    "accent": nothing,
    "strong accent": nothing,
    "fermata": nothing,
    "arpeggio upward": beside(up=True, wavy=True),
    "arpeggio downward": beside(up=False, wavy=True),
    "brush upward": beside(up=True, wavy=False),
    "brush downward": beside(up=False, wavy=False),
    "rake": told_at("rake"),
    "volume swell": extent("swell", TOLD),
    "vibrato bar dip": told_at("dip"),
    "string scrape": told_at("scrape"),
    "barre": barre("B"),
    "half barre": barre("\u00bdB"),
    "octave higher": nothing,
    "octave lower": nothing,
    "two octaves higher": nothing,
}
"""Technique name to what draws it. One that is not here raises KeyError: a technique must be drawn, or left to the staff, on purpose."""


def draw_marks(stage: Stage) -> None:
    """Put every mark of a stage on its boards."""
    bent = []
    for reach in reaches(stage):
        HANDLERS[reach.name](stage, reach)
        if reach.name in BENT:
            bent.append(reach)
    bends(stage, bent)
    plucking(stage)
