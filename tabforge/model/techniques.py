"""Playing techniques: the one home of every mark.

The grammar, the schema, the language reference, the sample sheets and the writers all start from TECHNIQUES. A mark in the text is a
technique's ``form``, in which ``#`` stands for an amount (``b#r`` is written ``b1/2r``).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from typing import Final


class Role(Enum):
    """Where in a technique's reach a note stands.

    A technique that leads on has START on the note that carries it and STOP on the note it leads to. One that extends over
    several events has START, INSIDE and STOP. SINGLE begins and ends on the same note.
    """

    SINGLE = "single"
    START = "start"
    INSIDE = "inside"
    STOP = "stop"


class Amount(Enum):
    """What the ``#`` of a form counts, if it has one."""

    NONE = "none"
    WHOLE_STEPS = "whole steps"
    FRETS = "frets"
    STROKES = "strokes"


AMOUNT_TEXT: Final[dict[Amount, str]] = {
    Amount.NONE: "",
    Amount.WHOLE_STEPS: r"(?:1/4|1/2|3/4|1|5/4|3/2|7/4|2)",
    Amount.FRETS: r"(?:2[0-4]|1[0-9]|[1-9])",
    Amount.STROKES: r"[1-3]",
}
"""Regular expression for each kind of amount. Frets are counted above the fretted note; strokes are the slashes of a tremolo."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Technique:
    """A playing technique.

    ``scope`` is "note" (each note of a chord for itself) or "event" (the whole event). ``leads``: belongs to two notes, this one and the next on the
    same string. ``extends``: ``-`` under the following notes carries it on. ``stays``: shown on every written piece of a tied sound. ``default`` is the amount of a form without one.
    ``sign`` is its sign in ASCII tab; a ``#`` in it stands for the amount.
    """

    name: str
    form: str
    meaning: str
    sign: str
    scope: str = "note"
    amount: Amount = Amount.NONE
    default: Fraction | None = None
    leads: bool = False
    extends: bool = False
    stays: bool = False


def _t(name: str, form: str, sign: str, meaning: str, **more: object) -> Technique:
    return Technique(name=name, form=form, sign=sign, meaning=meaning, **more)  # type: ignore[arg-type]  # keyword table


_STEPS: Final = Amount.WHOLE_STEPS

TECHNIQUES: Final[tuple[Technique, ...]] = (
    _t("hammer-on", "h", "h", "sound the next note by bringing a finger down on the same string", leads=True),
    _t("pull-off", "p", "p", "sound the next, lower note by pulling the finger off the string", leads=True),
    _t("legato slide", "sl", "/", "slide to the next note without picking it", leads=True),
    _t("shift slide", "ss", "/", "slide to the next note and pick it", leads=True),
    _t("slide in from below", "in/", "/", "slide up into the note from nowhere in particular"),
    _t("slide in from above", "in\\", "\\", "slide down into the note from nowhere in particular"),
    _t("slide out upward", "out/", "/", "slide up and away as the note ends"),
    _t("slide out downward", "out\\", "\\", "slide down and away as the note ends"),
    _t("bend", "b#", "b#", "push the string until it sounds # whole steps higher; - holds it there", amount=_STEPS, extends=True),
    _t("bend and release", "b#r", "b#r", "bend # whole steps, then let the string back", amount=_STEPS),
    _t("pre-bend", "pb#", "pb#", "bend # whole steps before the string is struck; - holds it there", amount=_STEPS, extends=True),
    _t("pre-bend and release", "pb#r", "pb#r", "strike the string bent # whole steps, then let it back", amount=_STEPS),
    _t("vibrato", "v", "~", "rock the pitch; - carries it on", extends=True),
    _t("wide vibrato", "wv", "~~", "rock the pitch widely; - carries it on", extends=True),
    _t("palm mute", "pm", "PM", "damp the strings at the bridge with the picking hand; - carries it on", scope="event", extends=True),
    _t("let ring", "lr", "LR", "leave the fingers down and let the notes ring on; - carries it on", scope="event", extends=True),
    _t("dead note", "x", "x", "a muffled stroke without a pitch", stays=True),
    _t("ghost note", "gh", "(#)", "a note hinted at rather than played", stays=True),
    _t("natural harmonic", "nh", "<#>", "touch the open string over the fret and pick it", stays=True),
    _t("artificial harmonic", "ah#", "[#]", "fret the note, touch the string # frets higher and pick it",
       amount=Amount.FRETS, default=Fraction(12), stays=True),
    _t("pinch harmonic", "ph", "PH", "graze the string with the thumb as the pick passes", stays=True),
    _t("tapped harmonic", "th#", "TH", "fret the note and tap the string # frets higher", amount=Amount.FRETS, default=Fraction(12), stays=True),
    _t("tap", "t", "T", "tap the note with a finger of the picking hand"),
    _t("left-hand tap", "lt", "LT", "sound the note with the fretting hand alone"),
    _t("trill", "tr#", "tr", "alternate quickly with the note # frets higher", amount=Amount.FRETS, default=Fraction(2)),
    _t("tremolo picking", "tp#", "tp", "repeat the note quickly; # is the number of strokes through the stem",
       scope="event", amount=Amount.STROKES, default=Fraction(3), stays=True),
    _t("staccato", "st", ".", "short", scope="event"),
    _t("tenuto", "tn", "_", "held for its full length", scope="event"),
    _t("accent", "ac", ">", "stressed", scope="event"),
    _t("strong accent", "ma", "^", "strongly stressed (marcato)", scope="event"),
    _t("fermata", "fm", "fm", "held at will", scope="event"),
    _t("arpeggio upward", "ar/", "ar", "spread the chord from the lowest note to the highest", scope="event"),
    _t("arpeggio downward", "ar\\", "ar", "spread the chord from the highest note to the lowest", scope="event"),
    _t("brush upward", "br/", "br", "stroke the chord quickly from the lowest note to the highest", scope="event"),
    _t("brush downward", "br\\", "br", "stroke the chord quickly from the highest note to the lowest", scope="event"),
    _t("rake", "rk", "rk", "drag the pick over damped strings into the note", scope="event"),
    _t("volume swell", "sw", "sw", "strike the note silent and bring it up with the volume control", scope="event"),
    _t("vibrato bar dip", "dip", "dip", "push the vibrato bar down and let it back at once", scope="event"),
    _t("string scrape", "sc", "sc", "scrape the edge of the pick along the wound strings", scope="event"),
    _t("barre", "ba#", "B#", "lay the first finger over the strings at fret #; - keeps it there", scope="event", amount=Amount.FRETS, extends=True),
    _t("half barre", "hb#", "hB#", "lay the first finger over some of the strings at fret #; - keeps it there", scope="event", amount=Amount.FRETS,
       extends=True),
    _t("octave higher", "8va", "8va", "on the staff written an octave lower than it sounds; - goes on", scope="event", extends=True),
    _t("octave lower", "8vb", "8vb", "on the staff written an octave higher than it sounds; - goes on", scope="event", extends=True),
    _t("two octaves higher", "15ma", "15ma", "on the staff written two octaves lower than it sounds; - goes on", scope="event", extends=True),
)

BY_NAME: Final[dict[str, Technique]] = {technique.name: technique for technique in TECHNIQUES}

SLIDES: Final = frozenset({"legato slide", "shift slide"})
"""Those that lead to the next note by moving one finger along the string; what else leads on takes another finger."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A technique on a note or an event. ``amount`` is in the unit of the technique's Amount; ``string`` pins it to one note of a chord."""

    technique: Technique
    role: Role = Role.SINGLE
    amount: Fraction | None = None
    string: int | None = None


def _regex(technique: Technique) -> str:
    """The technique's form as a regular expression; its amount is the only group."""
    before, hole, after = technique.form.partition("#")
    optional = "?" if technique.default is not None else ""
    amount = f"({AMOUNT_TEXT[technique.amount]}){optional}" if hole else ""
    return re.escape(before) + amount + re.escape(after)


@cache
def _pattern(index: int) -> re.Pattern[str]:
    """The pattern of ``TECHNIQUES[index]``, compiled when it is first needed: a study uses few of them."""
    return re.compile(_regex(TECHNIQUES[index]))


MARK_TEXT: Final = "(?:" + "|".join(_regex(t).replace("(?:", "(").replace("(", "(?:") for t in TECHNIQUES) + ")(?:@(?:1[0-2]|[1-9]))?"
"""Regular expression of one mark, with the string it is pinned to; without groups."""

_MARK: Final = re.compile(MARK_TEXT)


@cache
def parse_mark(text: str) -> Mark | None:
    """The mark a text such as ``b1/2`` or ``v@2`` names, with Role.SINGLE, or None. Cached: equal texts give the same object."""
    if not _MARK.fullmatch(text):
        return None
    body, at, string = text.partition("@")
    for index, technique in enumerate(TECHNIQUES):
        if not body.startswith(technique.form.partition("#")[0]):
            continue
        pattern = _pattern(index)
        found = pattern.fullmatch(body)
        if found:
            given = found[1] if pattern.groups else None
            amount = Fraction(given) if given else technique.default
            return Mark(technique=technique, amount=amount, string=int(string) if at else None)
    return None


@cache
def with_role(mark: Mark, role: Role) -> Mark:
    """The same mark in another role. Cached, so that equal marks are one object."""
    return Mark(technique=mark.technique, role=role, amount=mark.amount, string=mark.string)
