"""Every playing technique in MusicXML: a table from its name to the function that writes it.

Of two layers, notation has slurs, slides, articulations and ornaments; TAB has the letters, bends and words. A layer that is alone has
both. Each handler is called for every note of an event that has the mark (for marks of the event: for every note; once for a rest).
"""

from __future__ import annotations

from typing import Final

from tabforge.model.techniques import Mark, Role
from tabforge.writers.musicxml.extents import barre, let_ring, octave_line, palm_mute, wave
from tabforge.writers.musicxml.ink import Handler, Ink
from tabforge.writers.musicxml.leads import legato, legato_slide, slide
from tabforge.writers.musicxml.signs import (
    arpeggio,
    articulation,
    bend,
    brush,
    dead,
    fermata,
    ghost,
    harmonic,
    on_note,
    tap,
    told,
    told_in_a_row,
    tremolo,
    trill,
)

HANDLERS: Final[dict[str, Handler]] = {
    "hammer-on": legato("hammer-on", "H"),
    "pull-off": legato("pull-off", "P"),
    "legato slide": legato_slide,
    "shift slide": slide,
    "slide in from below": on_note("<scoop/>"),
    "slide in from above": on_note("<plop/>"),
    "slide out upward": on_note("<doit/>"),
    "slide out downward": on_note("<falloff/>"),
    "bend": bend(before=False, release=False),
    "bend and release": bend(before=False, release=True),
    "pre-bend": bend(before=True, release=False),
    "pre-bend and release": bend(before=True, release=True),
    "vibrato": wave("guitarVibratoStroke"),
    "wide vibrato": wave("guitarWideVibratoStroke"),
    "palm mute": palm_mute,
    "let ring": let_ring,
    "dead note": dead,
    "ghost note": ghost,
    "natural harmonic": harmonic("N.H.", "natural", "sounding-pitch"),
    "artificial harmonic": harmonic("A.H.", "artificial", "sounding-pitch"),
    "pinch harmonic": harmonic("P.H.", "artificial", "base-pitch"),
    "tapped harmonic": harmonic("T.H.", "artificial", "sounding-pitch"),
    "tap": tap("right", "T"),
    "left-hand tap": tap("left", "LT"),
    "trill": trill,
    "tremolo picking": tremolo,
    "staccato": articulation("<staccato/>"),
    "tenuto": articulation("<tenuto/>"),
    "accent": articulation("<accent/>"),
    "strong accent": articulation('<strong-accent type="up"/>'),
    "fermata": fermata,
    "arpeggio upward": arpeggio("up"),
    "arpeggio downward": arpeggio("down"),
    "brush upward": brush("up", "\u2191"),
    "brush downward": brush("down", "\u2193"),
    "rake": told("rake"),
    "volume swell": told_in_a_row("swell"),
    "vibrato bar dip": told("dip"),
    "string scrape": told("scrape"),
    "barre": barre("B"),
    "half barre": barre("\u00bdB"),
    "octave higher": octave_line("down", 8),
    "octave lower": octave_line("up", 8),
    "two octaves higher": octave_line("down", 15),
}
"""Technique name to handler. One that is not here raises KeyError: a technique must be written, or declared as a loss, on purpose."""


TAB_HAS_NOTHING: Final = frozenset(
    {
        "tremolo picking",
        "staccato",
        "tenuto",
        "accent",
        "strong accent",
        "fermata",
        "arpeggio upward",
        "arpeggio downward",
        "barre",
        "half barre",
        "octave higher",
        "octave lower",
        "two octaves higher",
    }
)
"""Techniques of which a TAB staff below notation shows nothing, so that its notes may be written as plain ones."""


def write_marks(ink: Ink, marks: tuple[Mark, ...]) -> None:
    """Write the marks of the note whose turn it is. What ends comes first: a note may end one line and begin the next."""
    if len(marks) > 1:
        marks = tuple(sorted(marks, key=_ends_first))
    for mark in marks:
        HANDLERS[mark.technique.name](ink, mark)


def _ends_first(mark: Mark) -> bool:
    return mark.role is not Role.STOP
