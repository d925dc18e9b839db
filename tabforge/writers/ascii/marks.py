"""Technique signs. HANDLERS has a function for every technique; a technique without one is a bug and raises.

The signs are common practice of plain-text tab, no source; their letters come from ``Technique.sign``. Where several habits live
side by side, the one was taken that keeps every amount: ``7b(full)`` rather than ``7b9``, which cannot say a quarter tone.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Final, Literal, NamedTuple

from tabforge.model.techniques import Mark, Role

HELD: Final = "="
"""A note that continues from before and is not struck again."""
UP: Final = "/"
DOWN: Final = "\\"

ROMAN: Final = ((10, "X"), (9, "IX"), (5, "V"), (4, "IV"), (1, "I"))


class Extent(NamedTuple):
    """A sign with dashes after it for as long as it goes on."""

    kind: Literal["mute", "ring", "barre", "half barre"]
    sign: str
    role: Role


class Shape:
    """What a note, or an event, looks like while its marks are put on.

    A note: ``before`` + ``core`` + ``after`` + ``lead`` stand on its string, ``core`` beginning at the column of the event; ``lead``
    may touch the next note. ``slide`` is the sign of a slide that leads on. ``above`` are signs for the row of signs,
    ``extents`` signs that go on over the events after.
    """

    __slots__ = ("above", "after", "before", "core", "extents", "fret", "lead", "slide", "tied")

    def __init__(self, fret: int = 0, slide: str = UP, tied: bool = False) -> None:
        self.fret = fret
        self.slide = slide
        self.tied = tied
        self.before = ""
        self.core = HELD if tied else str(fret)
        self.after = ""
        self.lead = ""
        self.above: list[str] = []
        self.extents: list[Extent] = []


Handler = Callable[[Shape, Mark], None]


def steps(amount: Fraction | None) -> str:
    """Whole steps as players say them: ``1/2``, ``full``, ``1+1/2``."""
    if amount is None:
        return "?"
    if amount == 1:
        return "full"
    whole, part = divmod(amount, 1)
    return "+".join(str(each) for each in (whole, part) if each)


def roman(number: int) -> str:
    """A fret as a Roman numeral, as barres are numbered."""
    text = ""
    for value, letters in ROMAN:
        count, number = divmod(number, value)
        text += letters * count
    return text


def _begins(mark: Mark) -> bool:
    return mark.role in (Role.START, Role.SINGLE)


def _lead(shape: Shape, mark: Mark) -> None:
    if _begins(mark):
        shape.lead += mark.technique.sign


def _slide(shape: Shape, mark: Mark) -> None:
    if _begins(mark):
        shape.lead += shape.slide


def _in(shape: Shape, mark: Mark) -> None:
    shape.before = mark.technique.sign + shape.before


def _out(shape: Shape, mark: Mark) -> None:
    shape.after += mark.technique.sign


def _bend(shape: Shape, mark: Mark) -> None:
    sign = mark.technique.sign
    if _begins(mark):
        shape.after += sign.replace("#", f"({steps(mark.amount)})")
    elif not shape.tied:
        shape.after += "b" + HELD


def _vibrato(shape: Shape, mark: Mark) -> None:
    shape.after += mark.technique.sign


def _dead(shape: Shape, mark: Mark) -> None:
    if not shape.tied:
        shape.core = mark.technique.sign


def _around(shape: Shape, mark: Mark) -> None:
    if not shape.tied:
        opening, _, closing = mark.technique.sign.partition("#")
        shape.before += opening
        shape.after = closing + shape.after


def _touched(shape: Shape, mark: Mark) -> None:
    if not shape.tied:
        shape.after += f"[{shape.fret + int(mark.amount or 0)}]"


def _tapped(shape: Shape, mark: Mark) -> None:
    _touched(shape, mark)
    _above_once(shape, mark)


def _trill(shape: Shape, mark: Mark) -> None:
    shape.after += f"{mark.technique.sign}{shape.fret + int(mark.amount or 0)}"


def _above(shape: Shape, mark: Mark) -> None:
    shape.above.append(mark.technique.sign)


def _above_once(shape: Shape, mark: Mark) -> None:
    if not shape.tied:
        shape.above.append(mark.technique.sign)


def _strokes(shape: Shape, mark: Mark) -> None:
    shape.above.append(f"{mark.technique.sign}{mark.amount or ''}")


def _spread(shape: Shape, mark: Mark) -> None:
    shape.above.append(mark.technique.sign + mark.technique.form[-1])


def _mute(shape: Shape, mark: Mark) -> None:
    shape.extents.append(Extent("mute", mark.technique.sign, mark.role))


def _ring(shape: Shape, mark: Mark) -> None:
    shape.extents.append(Extent("ring", mark.technique.sign, mark.role))


def _barre(shape: Shape, mark: Mark) -> None:
    shape.extents.append(Extent("barre", mark.technique.sign.replace("#", roman(int(mark.amount or 0))), mark.role))


def _half_barre(shape: Shape, mark: Mark) -> None:
    shape.extents.append(Extent("half barre", mark.technique.sign.replace("#", roman(int(mark.amount or 0))), mark.role))


def _staff_only(shape: Shape, mark: Mark) -> None:
    """Octave lines say how a staff is to be read. Tab shows strings and frets, which are the same with and without: nothing is lost."""


HANDLERS: Final[dict[str, Handler]] = {
    "hammer-on": _lead,
    "pull-off": _lead,
    "legato slide": _slide,
    "shift slide": _slide,
    "slide in from below": _in,
    "slide in from above": _in,
    "slide out upward": _out,
    "slide out downward": _out,
    "bend": _bend,
    "bend and release": _bend,
    "pre-bend": _bend,
    "pre-bend and release": _bend,
    "vibrato": _vibrato,
    "wide vibrato": _vibrato,
    "palm mute": _mute,
    "let ring": _ring,
    "dead note": _dead,
    "ghost note": _around,
    "natural harmonic": _around,
    "artificial harmonic": _touched,
    "pinch harmonic": _above_once,
    "tapped harmonic": _tapped,
    "tap": _above,
    "left-hand tap": _above,
    "trill": _trill,
    "tremolo picking": _strokes,
    "staccato": _above,
    "tenuto": _above,
    "accent": _above,
    "strong accent": _above,
    "fermata": _above,
    "arpeggio upward": _spread,
    "arpeggio downward": _spread,
    "brush upward": _spread,
    "brush downward": _spread,
    "rake": _above,
    "volume swell": _above,
    "vibrato bar dip": _above,
    "string scrape": _above,
    "barre": _barre,
    "half barre": _half_barre,
    "octave higher": _staff_only,
    "octave lower": _staff_only,
    "two octaves higher": _staff_only,
}

STAFF_ONLY: Final = frozenset(name for name, handler in HANDLERS.items() if handler is _staff_only)
"""Techniques that concern the staff alone: they have no sign in tab and no line in the legend, and leaving them out is no loss."""


def put_on(shape: Shape, marks: tuple[Mark, ...]) -> Shape:
    """The shape with its marks. What goes around the number (ghost note, harmonics) goes on first.

    Raises KeyError for a technique without a handler.
    """
    for mark in sorted(marks, key=_inside_first) if len(marks) > 1 else marks:
        HANDLERS[mark.technique.name](shape, mark)
    return shape


def _inside_first(mark: Mark) -> bool:
    return HANDLERS[mark.technique.name] is not _around


def joined(signs: list[str]) -> str:
    """Signs over one event as one word: letters joined by ``+``, then the one-character signs close to them."""
    words = [sign for sign in signs if sign[0].isalnum()]
    return "+".join(words) + "".join(sign for sign in signs if not sign[0].isalnum())
