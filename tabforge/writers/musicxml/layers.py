"""Which staves a file has, and what each carries.

A score is written onto one or two layers: notation, TAB, or both. A layer that is alone carries every sign; of two, each carries its own,
so that nothing is played or printed twice.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from tabforge.writers.options import Staves


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One staff of the file.

    ``alone``: no other layer shows the same notes. ``staff``: its number in a part of two staves, or None. ``first_voice``: the number
    of its upper voice; the lower one follows. From these follow:

    ``silent``: its notes are copies that must not be played. ``plays``: it carries what belongs to notation (articulations, strokes, words
    under the notes, chord symbols). ``fingers_strings``: it carries what belongs to TAB (technique letters, bends, words of technique).
    ``staff_element``: the ``staff`` element of everything on it, empty in a part of one staff.
    """

    tab: bool
    alone: bool
    staff: int | None = None
    first_voice: int = 1
    silent: bool = field(init=False)
    plays: bool = field(init=False)
    fingers_strings: bool = field(init=False)
    staff_element: str = field(init=False)

    def __post_init__(self) -> None:
        """Work out what follows, once: it is asked for every note."""
        put = object.__setattr__  # the object is frozen
        put(self, "silent", self.tab and not self.alone)
        put(self, "plays", self.alone or not self.tab)
        put(self, "fingers_strings", self.alone or self.tab)
        put(self, "staff_element", f"<staff>{self.staff}</staff>" if self.staff else "")


Part = tuple[Layer, ...]
"""The layers of one part, from the top."""

_NOTATION: Final = Layer(tab=False, alone=True)
_TAB: Final = Layer(tab=True, alone=True)

PARTS: Final[dict[Staves, tuple[Part, ...]]] = {
    "both": ((Layer(tab=False, alone=False, staff=1), Layer(tab=True, alone=False, staff=2, first_voice=5)),),
    "parts": ((Layer(tab=False, alone=False),), (Layer(tab=True, alone=False),)),
    "tab": ((_TAB,),),
    "notation": ((_NOTATION,),),
}
"""The parts of a file for every layout of staves. Voices 5 and 6 on the second staff: readers of two-staff parts expect them apart."""
