"""A small drawing of each technique's sign: a bar of music that uses it, engraved."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from tabforge.model.techniques import Technique

if TYPE_CHECKING:
    from tabforge.pages import Engraver, System

WIDTH: Final = 34.0
"""Millimetres."""

_SPACE: Final = 1.3
_CHORD: Final = "4:2+3:2+2:2"
_BARS: Final[dict[str, tuple[str, str]]] = {
    "pull-off": ("3:7 5", "p ."),
    "bend": ("3:7 7", "b1 -"),
    "bend and release": ("3:7 7", "b1r ."),
    "pre-bend": ("3:7 7", "pb1 -"),
    "pre-bend and release": ("3:7 7", "pb1r ."),
    "palm mute": ("6:0 0", "pm -"),
    "dead note": ("3:x x", ". ."),
    "natural harmonic": ("3:12 7", "nh nh"),
    "tap": ("1:12 5", "t ."),
    "arpeggio upward": (f"{_CHORD} {_CHORD}", "ar/ ."),
    "arpeggio downward": (f"{_CHORD} {_CHORD}", "ar\\ ."),
    "brush upward": (f"{_CHORD} {_CHORD}", "br/ ."),
    "brush downward": (f"{_CHORD} {_CHORD}", "br\\ ."),
    "string scrape": ("6:x 0", "sc ."),
    "barre": ("5:5+4:5 3:5+2:5", "ba5 -"),
    "half barre": ("3:5+2:5 2:5+1:5", "hb5 -"),
    "octave higher": ("1:12 15", "8va -"),
    "two octaves higher": ("1:12 15", "15ma -"),
    "octave lower": ("6:3 5", "8vb -"),
}
"""Frets and marks of two quarter notes; any other technique begins at the first of two notes on string 3."""


def sample(technique: Technique) -> str:
    """A study of one bar that uses a technique."""
    mark = technique.form.replace("#", "")
    frets, marks = _BARS.get(technique.name, ("3:5 7", f"{mark} -" if technique.extends else f"{mark} ."))
    return f'title Sign\nmeter 2/4\n\nriff "Sign"\n  rhythm q q\n  frets {frets}\n  marks {marks}\n'


def drawing(technique: Technique, font: str, engraver: Engraver) -> System:
    """The technique's sign on staff and TAB. ``font`` is the family of the words. Needs the extra ``pages``."""
    from tabforge.pages import PageOptions, engrave  # noqa: PLC0415  # needs the extra
    from tabforge.pipeline import study_from  # noqa: PLC0415

    outcome = study_from("sign.riff", sample(technique).encode())
    assert outcome.score is not None, technique.name  # a test draws them all
    sheets, _ = engrave(outcome.score, PageOptions(width=WIDTH, space=_SPACE, font=font), engraver)
    return replace(sheets[0].systems[0], label=f"The sign of {technique.name} on staff and TAB")
