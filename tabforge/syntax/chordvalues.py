"""Reading the values of settings that only a chord block has: voicing and diagrams.

Each function returns the document's value, or None when it has reported what is wrong.
"""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics import nearest
from tabforge.limits import MAX_STRINGS
from tabforge.syntax.document import VoicingSetting
from tabforge.syntax.field import Field, Part
from tabforge.syntax.grammar import INVERSIONS, VOICINGS
from tabforge.syntax.report import listed, quoted
from tabforge.syntax.values import whole

DIAGRAMS: Final = ("show", "hide")

_OTHER_WORDS: Final = {
    "triad": "triads",
    "closed": "triads",
    "barred": "barre",
    "bar": "barre",
    "shells": "shell",
    "drop2": "drop 2",
    "drop3": "drop 3",
    "fifths": "power",
    "any": "free",
}
"""What others call these kinds; common practice, from memory."""


def voicing(field: Field) -> VoicingSetting | None:
    """A kind, then perhaps the strings it lies on, then perhaps an inversion."""
    parts = field.parts()
    words = [part.text for part in parts]
    kind = next((each for each in VOICINGS if words[: len(each.split())] == each.split()), None)
    if kind is None:
        near = _OTHER_WORDS.get(words[0].replace("-", "").casefold())
        near = near or nearest(" ".join(words[:2]), VOICINGS) or nearest(words[0], VOICINGS)
        field.unlike("a voicing", parts[0], near, expected=f"{listed(VOICINGS)}; perhaps on 3 2 1; perhaps first inversion")
        return None
    found: VoicingSetting = {"kind": kind}
    rest = parts[len(kind.split()) :]
    if rest and rest[0].text == "on":
        count = next((index for index, part in enumerate(rest[1:]) if whole(part.text) is None), len(rest) - 1)
        strings = _strings(field, rest[1 : count + 1])
        if strings is None:
            return None
        found["strings"], rest = strings, rest[count + 1 :]
    if rest:
        said = " ".join(part.text for part in rest)
        if said not in INVERSIONS:
            last = rest[-1]
            wrong = Part(field.text[rest[0].at - field.at : last.at + len(last.text) - field.at], rest[0].at)
            wanted = f"{listed(INVERSIONS)}, at the end of the line; strings stand before it: on 3 2 1"
            field.unlike("an inversion", wrong, nearest(said, INVERSIONS), expected=wanted)
            return None
        found["inversion"] = INVERSIONS.index(said)
    return found


def _strings(field: Field, parts: list[Part]) -> list[int] | None:
    """The strings of a voicing, each once."""
    if not parts:
        field.refuse("the strings of this voicing are missing", expected="their numbers, such as: triads on 3 2 1")
        return None
    found: list[int] = []
    for part in parts:
        number = whole(part.text)
        if number is None or not 1 <= number <= MAX_STRINGS:
            field.refuse(f"{quoted(part.text)} is not a string", part, expected=f"a number from 1 to {MAX_STRINGS}")
            return None
        if number in found:
            field.refuse(f"string {number} is named twice", part, expected="each string once")
            return None
        found.append(number)
    return found


def diagrams(field: Field) -> str | None:
    """Whether the grips are shown as charts."""
    if field.text in DIAGRAMS:
        return field.text
    field.unlike("a way to treat diagrams", suggestion=nearest(field.text, DIAGRAMS))
    return None
