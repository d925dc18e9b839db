"""Directions above a bar: section titles, tempo, swing, capo and tuning, words."""

from __future__ import annotations

from typing import Final

from tabforge.model.meter import Swing, Tempo
from tabforge.model.score import Section
from tabforge.model.tuning import Instrument
from tabforge.writers.musicxml.text import escape

_SPOKEN: Final = {"eighth": "eighths", "16th": "sixteenths"}


def _direction(staff: str, *types: str, sound: str = "") -> str:
    inside = "".join(f"<direction-type>{each}</direction-type>" for each in types)
    return f'<direction placement="above">{inside}{staff}{sound}</direction>\n'


def words(text: str, staff: str, *, style: str = "italic") -> str:
    """Words above the staff, in "italic" or "bold"."""
    attribute = 'font-style="italic"' if style == "italic" else 'font-weight="bold"'
    return _direction(staff, f"<words {attribute}>{escape(text)}</words>")


def rehearsal(title: str, staff: str) -> str:
    """A section's title."""
    return _direction(staff, f'<rehearsal font-weight="bold">{escape(title)}</rehearsal>')


def tempo(given: Tempo, staff: str) -> str:
    """The metronome mark, with any words before it, and the sound it stands for (quarter notes a minute)."""
    types = [f'<words font-weight="bold">{escape(given.words)}</words>'] if given.words else []
    beat = f"<beat-unit>{given.beat.name}</beat-unit>{'<beat-unit-dot/>' * given.dots}"
    types.append(f"<metronome>{beat}<per-minute>{given.bpm:.6g}</per-minute></metronome>")
    return _direction(staff, *types, sound=f'<sound tempo="{given.quarters_per_minute:.8g}"/>')


def swing(given: Swing | None, staff: str) -> str:
    """Swing as words and as MusicXML 4.0's ``swing``; None ends it."""
    if given is None:
        return _direction(staff, '<words font-weight="bold">Straight</words>', sound="<sound><swing><straight/></swing></sound>")
    ratio = "" if (given.first, given.second) == (2, 1) else f" {given.first}:{given.second}"
    text = f"Swing {_SPOKEN.get(given.value.name, given.value.name)}{ratio}"
    inside = f"<first>{given.first}</first><second>{given.second}</second><swing-type>{given.value.name}</swing-type>"
    return _direction(staff, f'<words font-weight="bold">{text}</words>', sound=f"<sound><swing>{inside}</swing></sound>")


class SectionDirections:
    """Writes what stands above the first bar of a section, where it is set or changes."""

    def __init__(self, instrument: Instrument, staff: str) -> None:
        self._staff = staff
        self._strings = instrument.tuning.strings
        self._capo = 0
        self._swing: Swing | None = None

    def write(self, section: Section) -> str:
        """Title, tuning, capo, swing, then the teaching text."""
        staff = self._staff
        found = [rehearsal(section.title, staff)] if section.title else []
        if section.tuning.strings != self._strings:
            named = f"{section.tuning.name} ({section.tuning})" if section.tuning.name else str(section.tuning)
            found.append(words(f"Tuning: {named}", staff))
        if section.capo != self._capo:
            found.append(words(f"Capo {section.capo}" if section.capo else "No capo", staff))
        if section.swing != self._swing:
            found.append(swing(section.swing, staff))
        found += [words(line, staff) for line in section.text if line.strip()]
        self._strings, self._capo, self._swing = section.tuning.strings, section.capo, section.swing
        return "".join(found)
