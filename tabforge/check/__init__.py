"""A look over a compiled study, as a player would give it: an immutable tuple of small functions, each of which looks for one thing.

What cannot be played is an error; what can, though hardly anybody would, is advice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Final

from tabforge.check.allowing import allowance, codes_that_are_none
from tabforge.check.barres import barres_unused
from tabforge.check.bends import bends_that_fail
from tabforge.check.contradictions import contradictions
from tabforge.check.dead import dead_notes_with_pitch
from tabforge.check.dynamics import hairpins_against
from tabforge.check.fingers import fingers_crossed, fingers_on_open_strings, one_finger_twice, zeros_on_fretted_notes
from tabforge.check.graces import graces_without_time
from tabforge.check.grips import grips_without_fingers
from tabforge.check.harmonics import harmonics_out_of_place
from tabforge.check.hearing import colours_unheard, roots_unheard, scales_that_do_not_fit
from tabforge.check.legato import hammers_that_fail, pulls_that_fail, slides_that_fail
from tabforge.check.opens import open_strings_without_a_finger
from tabforge.check.repeats import repeats_left_open
from tabforge.check.ringing import rings_that_are_cut
from tabforge.check.roots import plainer_roots
from tabforge.check.shapes import shapes_outside_their_chord
from tabforge.check.shifts import shifts_too_fast
from tabforge.check.signs import signs_that_lead_nowhere
from tabforge.check.straying import chords_that_lead_away, notes_that_resolve_nowhere
from tabforge.check.stretches import wide_stretches_in
from tabforge.check.strings import strings_shared
from tabforge.check.strokes import spreads_of_one_note, strokes_against_arpeggios, strokes_on_slurred_notes
from tabforge.check.view import View

__all__ = ["CHECKS", "Check", "advise", "allowance"]

if TYPE_CHECKING:
    from tabforge.diagnostics.core import Diagnostic
    from tabforge.model.score import Score
    from tabforge.syntax.document import Study
    from tabforge.syntax.origins import Origins

Check = Callable[[View], Iterable["Diagnostic"]]
"""Looks a score over; the view says what it was compiled from, and where a finding belongs."""

CHECKS: Final[tuple[Check, ...]] = (
    plainer_roots,
    one_finger_twice,
    wide_stretches_in,
    grips_without_fingers,
    shifts_too_fast,
    bends_that_fail,
    open_strings_without_a_finger,
    hammers_that_fail,
    pulls_that_fail,
    slides_that_fail,
    harmonics_out_of_place,
    dead_notes_with_pitch,
    contradictions,
    rings_that_are_cut,
    graces_without_time,
    fingers_on_open_strings,
    zeros_on_fretted_notes,
    fingers_crossed,
    barres_unused,
    strokes_against_arpeggios,
    spreads_of_one_note,
    strokes_on_slurred_notes,
    strings_shared,
    hairpins_against,
    signs_that_lead_nowhere,
    repeats_left_open,
    shapes_outside_their_chord,
    scales_that_do_not_fit,
    colours_unheard,
    roots_unheard,
    notes_that_resolve_nowhere,
    chords_that_lead_away,
)


def advise(score: Score, document: Study, origins: Origins) -> tuple[Diagnostic, ...]:
    """What all checks find: advice, and errors where no hand can play what is written."""
    view = View(score, document, origins)
    return (*codes_that_are_none(document, origins), *(found for check in CHECKS for found in check(view)))
