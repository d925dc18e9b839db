"""The one home of chord qualities: the tones of each kind, and what follows a root in a chord symbol.

Kinds are MusicXML 4.0's ``kind-value``, their tones those its documentation of that type gives. The forms are the trade's usual ones
(common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import product
from typing import Final

KIND_TONES: Final[dict[str, str]] = {
    "major": "1 3 5",
    "minor": "1 b3 5",
    "augmented": "1 3 #5",
    "diminished": "1 b3 b5",
    "dominant": "1 3 5 b7",
    "major-seventh": "1 3 5 7",
    "minor-seventh": "1 b3 5 b7",
    "diminished-seventh": "1 b3 b5 bb7",
    "augmented-seventh": "1 3 #5 b7",
    "half-diminished": "1 b3 b5 b7",
    "major-minor": "1 b3 5 7",
    "major-sixth": "1 3 5 6",
    "minor-sixth": "1 b3 5 6",
    "dominant-ninth": "1 3 5 b7 9",
    "major-ninth": "1 3 5 7 9",
    "minor-ninth": "1 b3 5 b7 9",
    "dominant-11th": "1 3 5 b7 9 11",
    "major-11th": "1 3 5 7 9 11",
    "minor-11th": "1 b3 5 b7 9 11",
    "dominant-13th": "1 3 5 b7 9 11 13",
    "major-13th": "1 3 5 7 9 11 13",
    "minor-13th": "1 b3 5 b7 9 11 13",
    "suspended-second": "1 2 5",
    "suspended-fourth": "1 4 5",
    "power": "1 5",
    "none": "",
}
"""Kind → its tones against the major scale on the root."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quality:
    """A quality of chord: the ``forms`` it is written in, the first the usual one; its kind; and ``changes`` to the kind's tones."""

    forms: tuple[str, ...]
    kind: str
    changes: tuple[str, ...] = ()


_SIGNS: Final = {"{M}": ("maj", "M", "ma", "Maj", "Δ"), "{m}": ("m", "min", "mi", "-"), "{o}": ("dim", "°", "o"), "{+}": ("aug", "+")}
"""What the trade writes for major, minor, diminished and augmented; the first is the usual one."""


def _forms(pattern: str) -> list[str]:
    """A form with every sign of its marks written out: ``{m}7`` is m7, min7, mi7 and -7."""
    used = [mark for mark in _SIGNS if mark in pattern]
    forms = []
    for signs in product(*(_SIGNS[mark] for mark in used)):
        form = pattern
        for mark, sign in zip(used, signs, strict=True):
            form = form.replace(mark, sign)
        forms.append(form)
    return forms


def _q(forms: str, kind: str, changes: str = "") -> Quality:
    """A row: forms parted by spaces (``~`` is the empty form), and changes likewise."""
    written = [form for pattern in forms.split() for form in _forms("" if pattern == "~" else pattern)]
    return Quality(forms=tuple(dict.fromkeys(written)), kind=kind, changes=tuple(changes.split()))


QUALITIES: Final[tuple[Quality, ...]] = (
    _q("~ maj M Maj", "major"),
    _q("{m}", "minor"),
    _q("{o}", "diminished"),
    _q("{+}", "augmented"),
    _q("5", "power"),
    _q("sus2", "suspended-second"),
    _q("sus4 sus", "suspended-fourth"),
    _q("sus2sus4 sus24", "suspended-fourth", "add2"),
    _q("6 {M}6", "major-sixth"),
    _q("{m}6", "minor-sixth"),
    _q("6/9 69 6add9", "major-sixth", "add9"),
    _q("{m}6/9 {m}69 {m}6add9", "minor-sixth", "add9"),
    _q("7 dom7", "dominant"),
    _q("{M}7 Δ", "major-seventh"),
    _q("{m}7", "minor-seventh"),
    _q("{m}maj7 {m}M7 {m}Maj7 {m}ma7 {m}Δ7 {m}Δ", "major-minor"),
    _q("{m}7b5 ø ø7", "half-diminished"),
    _q("{o}7", "diminished-seventh"),
    _q("{o}maj7 {o}M7", "diminished", "add7"),
    _q("{+}7 7#5 7+", "augmented-seventh"),
    _q("{+}maj7 {+}M7 {M}7#5", "augmented", "add7"),
    _q("9", "dominant-ninth"),
    _q("{M}9", "major-ninth"),
    _q("{m}9", "minor-ninth"),
    _q("{m}maj9 {m}M9", "major-minor", "add9"),
    _q("{+}9 9#5", "augmented-seventh", "add9"),
    _q("11", "dominant-11th"),
    _q("{M}11", "major-11th"),
    _q("{m}11", "minor-11th"),
    _q("13", "dominant-13th"),
    _q("{M}13", "major-13th"),
    _q("{m}13", "minor-13th"),
    _q("7sus4 7sus", "suspended-fourth", "addb7"),
    _q("7sus2", "suspended-second", "addb7"),
    _q("{M}7sus4 {M}7sus", "suspended-fourth", "add7"),
    _q("{M}7sus2", "suspended-second", "add7"),
    _q("6sus4", "suspended-fourth", "add6"),
    _q("9sus4 9sus", "suspended-fourth", "addb7 add9"),
    _q("13sus4 13sus", "suspended-fourth", "addb7 add9 add13"),
    _q("2", "major", "add2"),
    _q("7alt alt", "dominant", "b5 add#5 addb9 add#9"),
)
"""Every quality. What is not here is one of these with changes after it, such as ``7b9`` or ``madd11``."""

NO_CHORD: Final = ("N.C.", "N.C", "NC", "n.c.")
"""What is written where no chord sounds; the first is the usual form."""

ALTERED: Final = ("b5", "#5", "b6", "b9", "#9", "#11", "b13")
"""Changes that stand without a word: they alter a tone the chord has, and add one it has not."""

ADDED: Final = ("2", "4", "6", "b6", "7", "b7", "9", "b9", "#9", "11", "#11", "13", "b13", "#5")
"""What may follow ``add``."""

LEFT_OUT: Final = ("3", "5")
"""What may follow ``no`` or ``omit``."""

CHANGE_TEXT: Final = (
    f"add(?:{'|'.join(sorted(ADDED, key=len, reverse=True))})|(?:no|omit)[{''.join(LEFT_OUT)}]|(?:[b#]|[+-])(?:5|9|11|13|6)"
)
"""Regular expression of one change. ``+`` and ``-`` are read as sharp and flat."""


@cache
def qualities_by_form() -> dict[str, Quality]:
    """Form → quality."""
    return {form: quality for quality in QUALITIES for form in quality.forms}
