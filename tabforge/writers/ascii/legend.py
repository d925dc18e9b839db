"""The legend: exactly the signs that were used."""

from __future__ import annotations

from typing import Final

from tabforge.model.techniques import TECHNIQUES
from tabforge.model.values import VALUES
from tabforge.writers.ascii.context import Context
from tabforge.writers.ascii.meanings import CHARTS, DYNAMICS_MEAN, HAIRPINS_MEAN, TEMPO_MEANS, WAY_MEANS
from tabforge.writers.ascii.plain import wrap
from tabforge.writers.ascii.samples import sample

Entry = tuple[str, str]

_RHYTHM: Final = (
    ("dot", "q.", "dotted: half as long again"),
    ("rest", "rq", "r before the letter: a rest"),
    ("tie", "+q", "+ before the letter: tied to the note before, not struck again"),
    ("grace", "g", "grace note; with a letter (gs) its written value; g! is played on the beat"),
    ("tuplet", "[-3-]", "tuplet: three in the time of two, five in the time of four and so on"),
    ("ratio", "[5:3]", "five in the time of three"),
)
_TAB: Final = (
    ("held", "=", "hold: the note rings on, it is not struck again"),
    ("bend amount", "(full)", "how far a string is bent: full is a whole step, 1/2 a half step"),
    ("bend kept", "7b=", "struck while the string stays bent"),
    ("string number", "T@2", "on string 2 alone"),
)
_FORM: Final = (
    ("continued", ">", "at the edge of a line: the bar goes on in the next one"),
    ("forward", "||:", "here the repeat begins"),
    ("backward", ":||", "repeat"),
    ("count", "x3", "play so many times in all"),
    ("ending", "1.___|", "played the first time; 2. the second time"),
)
_PICKS: Final = (
    ("pick d", "d", "downstroke"),
    ("pick u", "u", "upstroke"),
    ("pick p", "p", "thumb"),
    ("pick i", "i", "index"),
    ("pick m", "m", "middle"),
    ("pick a", "a", "ring finger"),
)


def legend(context: Context) -> list[str]:
    """The legend's lines; empty if there is nothing to explain."""
    used = context.used
    entries = _rhythm(context) if context.options.rhythm_line else []
    entries += [(sample(technique), technique.name) for technique in TECHNIQUES if technique.name in used]
    entries += [(sign, text) for name, sign, text in _TAB if name in used]
    entries += [(sign, text) for name, sign, text in _FORM if name in used]
    entries += [(sign, text) for name, sign, text in (*WAY_MEANS, *TEMPO_MEANS, *DYNAMICS_MEAN, *HAIRPINS_MEAN) if name in used]
    entries += [(sign, text) for name, sign, text in CHARTS if name in used]
    entries += _hands(used)
    if not entries:
        return []
    column = max(len(sign) for sign, _ in entries) + 2
    lines = ["Legend", "------"]
    for sign, text in entries:
        first, *more = wrap(text, context.options.width - column)
        lines.append(sign.ljust(column) + first)
        lines.extend(" " * column + each for each in more)
    return lines


def _rhythm(context: Context) -> list[Entry]:
    values = [value for value in VALUES if value in context.values]
    if not values:
        return []
    entries = [(" ".join(value.letter for value in values), ", ".join(value.spoken for value in values))]
    entries += [(sign, text) for name, sign, text in _RHYTHM if name in context.used]
    if "lower voice" in context.used:
        entries.append(("", "rhythm above the strings: the upper voice; below: the lower voice"))
    return entries


def _hands(used: set[str]) -> list[Entry]:
    entries = []
    picks = [f"{sign} {text}" for name, sign, text in _PICKS if name in used]
    order = "; in a chord from the lowest string up, . where none is given" if "hand of a chord" in used else ""
    if picks:
        entries.append(("RH", f"picking hand: {', '.join(picks)}{order}"))
    if "fingers" in used:
        thumb = ", T thumb" if "thumb" in used else ""
        entries.append(("LH", f"fretting hand: 1 index to 4 little finger{thumb}{order}"))
    return entries
