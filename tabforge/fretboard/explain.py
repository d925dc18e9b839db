"""Troubles, and stretches that are no trouble yet, in a player's words."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from tabforge.diagnostics.catalogue import music
from tabforge.diagnostics.catalogue import neck as codes
from tabforge.diagnostics.core import Code, Diagnostic
from tabforge.fretboard import words_layouts as layouts
from tabforge.fretboard import words_notes as notes
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import REACH_MM, Stretch
from tabforge.fretboard.trouble import Kind, Trouble
from tabforge.fretboard.words import Said, Words
from tabforge.model.pitch import Pitch
from tabforge.source import Span

SAYING: Final[dict[Kind, tuple[Code, Callable[[Words], Said]]]] = {
    Kind.BELOW: (codes.TOO_LOW, notes.below),
    Kind.ABOVE: (codes.TOO_HIGH, notes.above),
    Kind.NOWHERE: (codes.NOWHERE, notes.nowhere),
    Kind.UNFRETTED: (codes.UNFRETTED, notes.unfretted),
    Kind.NO_STRING: (music.NO_SUCH_STRING, notes.no_string),
    Kind.NO_FRET: (music.BEYOND_NECK, notes.no_fret),
    Kind.SHORT_STRING: (codes.SHORT_STRING, notes.no_fret),
    Kind.NOT_ON_STRING: (codes.NOT_ON_STRING, notes.not_on_string),
    Kind.OTHER_PITCH: (music.PIN_IS_OTHER, notes.other_pitch),
    Kind.TOO_MANY: (codes.TOO_MANY, notes.too_many),
    Kind.SAME_STRING: (codes.SAME_STRING, notes.same_string),
    Kind.NO_STRINGS_LEFT: (codes.NO_STRINGS_LEFT, notes.no_strings_left),
    Kind.OUT_OF_REACH: (codes.OUT_OF_REACH, notes.out_of_reach),
    Kind.HELD: (codes.HELD_CUT, notes.held),
    Kind.LAYOUT_STRINGS: (codes.LAYOUT_STRINGS, layouts.strings),
    Kind.LAYOUT_REENTRANT: (codes.LAYOUT_REENTRANT, layouts.reentrant),
    Kind.LAYOUT_START: (codes.LAYOUT_START, layouts.start),
    Kind.LAYOUT_LOW: (codes.LAYOUT_LOW, layouts.low),
    Kind.LAYOUT_HIGH: (codes.LAYOUT_HIGH, layouts.high),
    Kind.LAYOUT_UNFRETTED: (codes.LAYOUT_UNFRETTED, layouts.unfretted),
    Kind.LAYOUT_HOLE: (codes.LAYOUT_HOLE, layouts.hole),
    Kind.LAYOUT_FROM: (codes.LAYOUT_FROM, layouts.begin),
    Kind.LAYOUT_TO: (codes.LAYOUT_TO, layouts.end),
    Kind.LAYOUT_EMPTY: (codes.LAYOUT_EMPTY, layouts.empty),
    Kind.LAYOUT_SHAPE: (codes.LAYOUT_SHAPE, layouts.shape),
    Kind.LAYOUT_SHAPE_PLACE: (codes.LAYOUT_SHAPE_PLACE, layouts.shape_place),
}
"""For each kind its code and its words."""


def diagnose(trouble: Trouble, span: Span, neck: Neck, pitch: Pitch | None = None, among: str = "this chord") -> Diagnostic:
    """A trouble as a diagnostic at ``span``. ``pitch`` is the spelling of the pitch concerned; without it a plain one is used. ``among``
    names the notes that are struck together.
    """
    code, say = SAYING[trouble.kind]
    headline, label, expected, aid = say(Words(trouble, neck, pitch, among))
    return Diagnostic(code=code, headline=headline, span=span, label=label, expected=expected, help=aid)


CAUTION: Final = (
    "warm up first, keep the thumb low behind the neck and stop at pain or numbness; if it comes back, ask your teacher "
    "or a clinician"
)


def advise_stretch(stretch: Stretch, span: Span, grip: bool) -> Diagnostic:
    """A wide stretch as advice, in a grip or on one string of a run."""
    low, high = stretch.low, stretch.high
    what = "this grip" if grip else f"this run, on string {low[0]},"
    return Diagnostic(
        code=codes.WIDE_GRIP if grip else codes.WIDE_RUN,
        headline=f"{what} stretches the hand {stretch.mm:.0f} mm, from fret {low[1]} to fret {high[1]}"
        + (": farther than most hands reach" if stretch.mm > REACH_MM else ""),
        span=span,
        label=f"{stretch.mm:.0f} mm",
        help=CAUTION,
    )
