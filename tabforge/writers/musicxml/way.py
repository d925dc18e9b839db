"""Signs of the way through a piece: segno and coda, and the words that send a player to them."""

from __future__ import annotations

from typing import Final

from tabforge.model.score import SIGNS, Bar

_DRAWN: Final = ("segno", "coda")
"""Signs that are drawn, at the beginning of their bar; the others are words at its end."""

_SOUNDS: Final = {
    "tocoda": 'tocoda="coda{coda}"',
    "fine": 'fine="yes"',
    "dc": 'dacapo="yes"',
    "dcfine": 'dacapo="yes"',
    "dccoda": 'dacapo="yes"',
    "ds": 'dalsegno="segno{segno}"',
    "dsfine": 'dalsegno="segno{segno}"',
    "dscoda": 'dalsegno="segno{segno}"',
}
"""Attributes of the standard's ``sound``: a name ties a jump to its sign."""


def begins_bar(bar: Bar) -> bool:
    """Whether a sign stands at the beginning of the bar."""
    return any(sign in _DRAWN for sign in bar.signs)


def ends_bar(bar: Bar) -> bool:
    """Whether a sign stands at the end of the bar."""
    return any(sign not in _DRAWN for sign in bar.signs)


class Way:
    """Writes the signs of one part in order. A jump to the segno means the last one before it, a jump to the coda the next one after.

    One that leads nowhere stays words alone: players of the file warn of a name that they do not find.
    """

    def __init__(self, staff: str, codas: int) -> None:
        self._staff = staff
        self._codas = codas
        self._seen = dict.fromkeys(_DRAWN, 0)

    def left(self, bar: Bar) -> str:
        """What stands at the beginning of a bar."""
        found = ""
        for sign in _DRAWN:
            if sign in bar.signs:
                self._seen[sign] += 1
                found += self._direction(f"<{sign}/>", f'{sign}="{sign}{self._seen[sign]}"')
        return found

    def right(self, bar: Bar) -> str:
        """What stands at the end of a bar."""
        found = ""
        for sign in bar.signs:
            if sign not in _DRAWN:
                words = f'<words font-weight="bold" font-style="italic" justify="right" halign="right">{SIGNS[sign]}</words>'
                segno, coda = self._seen["segno"], self._seen["coda"] + 1
                lost = (not segno and "{segno}" in _SOUNDS[sign]) or (coda > self._codas and "{coda}" in _SOUNDS[sign])
                found += self._direction(words, "" if lost else _SOUNDS[sign].format(segno=segno, coda=coda))
        return found

    def _direction(self, kind: str, sound: str) -> str:
        heard = f"<sound {sound}/>" if sound else ""
        return f'<direction placement="above"><direction-type>{kind}</direction-type>{self._staff}{heard}</direction>\n'
