"""The scale that a setting names, placed on the neck and moved to another key."""

from __future__ import annotations

import re
from collections.abc import Sequence

from tabforge.compile.report import Report
from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import music
from tabforge.fretboard.neck import Neck
from tabforge.model.pitch import Pitch, parse_pitch, parse_pitch_class
from tabforge.model.score import Scale
from tabforge.syntax.document import ScaleSetting
from tabforge.syntax.grammar import ROOT_TEXT
from tabforge.syntax.origins import Pointer
from tabforge.theory.intervals import Interval, transpose
from tabforge.theory.scales import (
    all_scale_names,
    named_scale,
    scale_from_degrees,
    scale_from_semitones,
    scale_from_steps,
    step_size,
)


def root_on(text: str, neck: Neck) -> Pitch | None:
    """The root a text names. Without an octave it is the lowest such note that the open strings allow."""
    pitch = parse_pitch(text)
    if pitch is not None:
        return pitch
    tone = parse_pitch_class(text)
    if tone is None:
        return None
    octave = (neck.lowest - Pitch(tone.step, tone.alter, 0).midi + 11) // 12
    return Pitch(tone.step, tone.alter, octave)


def scale_in_force(given: ScaleSetting, neck: Neck, move: Interval | None, at: Pointer, report: Report) -> Scale | None:
    """The scale of a setting, moved by ``move``; None if it has no root.

    If it does not work out that is reported, and the major scale stands in for it, so that its degrees are not reported too.
    """
    root = root_on(given["root"], neck)
    if root is None:
        return None
    if move is not None:
        root = transpose(root, move)
    name = given.get("name")
    scale: Scale | None
    if "steps" in given:
        scale = scale_from_steps(root, given["steps"], name)
        help_ = "H is one half step, W two, W+H three, W+W four; together they are twelve"
    elif "semitones" in given:
        scale = scale_from_semitones(root, sorted(given["semitones"]), name)
        help_ = "semitones above the root, from 0 and upward to 11"
    elif "degrees" in given:
        scale = scale_from_degrees(root, given["degrees"], name)
        help_ = "degrees from 1 upward, each higher than the one before"
    else:
        scale = named_scale(root, name or "")
        if scale is None:
            report.add(
                music.UNKNOWN_SCALE,
                f"there is no scale called “{name}”",
                at,
                suggestion=nearest(name or "", all_scale_names()),
                help="`tabforge list scales` shows them all; your own: scale D3 degrees 1 2 b3 #4 5 6 b7",
            )
        return scale or named_scale(root, "major")
    if scale is None:
        report.add(music.BAD_SCALE, "these steps do not make a scale", at, expected=help_, help=_sum_of(given))
    return scale or named_scale(root, "major")


def key_changes(row: Sequence[str], neck: Neck, move: Interval | None, at: Pointer, report: Report) -> list[Scale | None]:
    """The scale that each cell of a key row puts in force, None for a cell that changes nothing."""
    found: list[Scale | None] = []
    for index, cell in enumerate(row):
        root, hyphen, name = _parted(cell)
        given: ScaleSetting = {"root": root, "name": name.replace("-", " ")}
        found.append(scale_in_force(given, neck, move, (*at, index), report) if hyphen else None)
    return found


def _parted(cell: str) -> tuple[str, str, str]:
    """A cell such as ``C-1-major`` at the hyphen behind its root."""
    found = re.match(ROOT_TEXT, cell)
    return (found[0], "-", cell[found.end() + 1 :]) if found else ("", "", "")


def _sum_of(given: ScaleSetting) -> str | None:
    if "steps" not in given:
        return None
    total = sum(step_size(step) or 0 for step in given["steps"])
    return f"they add up to {total} half steps, {abs(total - 12)} too {'many' if total > 12 else 'few'}" if total != 12 else None
