"""Lines of music where the study says that new ones begin.

The engraver either ends lines itself or ends them only where it is told. So a section that says where some begin is engraved once as the
engraver will, to learn how wide its bars are, and then with every line's beginning told.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate
from typing import Final

from tabforge.pages.engraver import Engraver
from tabforge.pages.reading import System, systems
from tabforge.pages.stripping import Part

_MEASURE: Final = "<measure "
_BREAK: Final = '<print new-system="yes"/>\n'


def engraved(engraver: Engraver, part: Part, width: float, *, numbers: bool) -> list[System]:
    """The systems of a section."""
    found = _drawn(engraver, part.document, width, told=False, numbers=numbers)
    if not part.broken:
        return found
    begins = set(accumulate(part.drawn[:-1]))
    hinted = {index for index, bar in enumerate(part.section.bars) if bar.new_line and index in begins}
    widths = [measure.right - measure.left for system in found for measure in system.measures]
    starts = set(line_starts(widths, list(accumulate(part.drawn[:-1], initial=0)), hinted, width))
    head, *measures = part.document.replace(_BREAK, "").split(_MEASURE)
    document = head + "".join(_begun(measure, index in starts) for index, measure in enumerate(measures))
    return _drawn(engraver, document, width, told=True, numbers=numbers)


def line_starts(widths: Sequence[float], bars: Sequence[int], hinted: set[int], width: float) -> Iterator[int]:
    """The bars that begin a line, the first one left out: those that are hinted at, and those that no longer fit.

    ``widths`` are those of the drawn bars, whose numbers are ``bars``.
    """
    used = 0.0
    for own, bar in zip(widths, bars, strict=True):
        if used and (bar in hinted or used + own > width):
            yield bar
            used = 0.0
        used += own


def _begun(measure: str, new: bool) -> str:
    first, _, rest = measure.partition("\n")
    return f"{_MEASURE}{first}\n{_BREAK if new else ''}{rest}"


def _drawn(engraver: Engraver, document: str, width: float, *, told: bool, numbers: bool) -> list[System]:
    return [system for page in engraver.draw(document, width, told=told, numbers=numbers) for system in systems(page)]
