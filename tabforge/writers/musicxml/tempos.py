"""Tempo: metronome marks, changes of tempo, swing."""

from __future__ import annotations

from typing import Final

from tabforge.model.meter import TEMPO_CHANGES, Swing, Tempo
from tabforge.model.score import Bar
from tabforge.writers.musicxml.text import escape

_SPOKEN: Final = {"eighth": "eighths", "16th": "sixteenths"}


def direction(staff: str, *types: str, sound: str = "") -> str:
    """A direction above the staff with the given direction types."""
    inside = "".join(f"<direction-type>{each}</direction-type>" for each in types)
    return f'<direction placement="above">{inside}{staff}{sound}</direction>\n'


def metronome(given: Tempo, staff: str) -> str:
    """The metronome mark, with any words before it, and the sound it stands for."""
    types = [f'<words font-weight="bold">{escape(given.words)}</words>'] if given.words else []
    beat = f"<beat-unit>{given.beat.name}</beat-unit>{'<beat-unit-dot/>' * given.dots}"
    types.append(f"<metronome>{beat}<per-minute>{given.bpm:.6g}</per-minute></metronome>")
    return direction(staff, *types, sound=_sound(given))


def _sound(given: Tempo) -> str:
    """A tempo for players, in quarter notes a minute as the standard has it."""
    return f'<sound tempo="{given.quarters_per_minute:.8g}"/>'


def swing(given: Swing | None, staff: str) -> str:
    """Swing as words and as MusicXML 4.0's ``swing``; None ends it."""
    if given is None:
        return direction(staff, '<words font-weight="bold">Straight</words>', sound="<sound><swing><straight/></swing></sound>")
    ratio = "" if (given.first, given.second) == (2, 1) else f" {given.first}:{given.second}"
    text = f"Swing {_SPOKEN.get(given.value.name, given.value.name)}{ratio}"
    inside = f"<first>{given.first}</first><second>{given.second}</second><swing-type>{given.value.name}</swing-type>"
    return direction(staff, f'<words font-weight="bold">{text}</words>', sound=f"<sound><swing>{inside}</swing></sound>")


class Tempos:
    """Writes the tempos of a part in order, and remembers the one that "a tempo" goes back to."""

    def __init__(self, staff: str) -> None:
        self._staff = staff
        self._in_force: Tempo | None = None

    def write(self, bar: Bar) -> str:
        """A tempo that is set here, and a change of it. The standard has no sound for a gradual change: it stays words."""
        found = ""
        if bar.tempo is not None:
            self._in_force = bar.tempo
            found = metronome(bar.tempo, self._staff)
        if bar.tempo_change is not None:
            words = f'<words font-style="italic">{TEMPO_CHANGES[bar.tempo_change]}</words>'
            back = bar.tempo_change == "atempo" and self._in_force is not None and bar.tempo is None
            found += direction(self._staff, words, sound=_sound(self._in_force) if back and self._in_force else "")
        return found
