"""Directions above a bar: section titles, tempo, swing, capo and tuning, words."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap
from typing import Final

from tabforge.model.meter import Swing, Tempo
from tabforge.model.score import Section
from tabforge.model.tuning import Instrument
from tabforge.writers.musicxml.text import escape

_SPOKEN: Final = {"eighth": "eighths", "16th": "sixteenths"}


def _direction(staff: str, *types: str, sound: str = "") -> str:
    inside = "".join(f"<direction-type>{each}</direction-type>" for each in types)
    return f'<direction placement="above">{inside}{staff}{sound}</direction>\n'


def words(text: str, staff: str) -> str:
    """Words above the staff in italics; a line break in the text is one on paper."""
    space = ' xml:space="preserve"' if "\n" in text else ""
    return _direction(staff, f'<words font-style="italic"{space}>{escape(text)}</words>')


_WIDTH: Final = 60
"""Characters a line of teaching text: readers do not wrap words, and a system is about so wide."""


def _paragraph(lines: Sequence[str]) -> str:
    return "\n".join(part for line in lines for part in wrap(line, _WIDTH))


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
        """Title, tuning and capo, swing, then the section's text.

        The text stands where a player needs it, above the music it speaks of, as one block: readers stack separate directions upward, which
        would turn its lines around. What the study says as a whole is not printed here, only kept in a field (see ``document``).
        """
        staff = self._staff
        found = [rehearsal(section.title, staff)] if section.title else []
        setup = []
        if section.tuning.strings != self._strings:
            named = f"{section.tuning.name} ({section.tuning})" if section.tuning.name else str(section.tuning)
            setup.append(f"Tuning: {named}")
        if section.capo != self._capo:
            setup.append(f"Capo {section.capo}" if section.capo else "No capo")
        if setup:
            found.append(words("\n".join(setup), staff))
        if section.swing != self._swing:
            found.append(swing(section.swing, staff))
        text = _paragraph(section.text)
        if text:
            found.append(words(text, staff))
        self._strings, self._capo, self._swing = section.tuning.strings, section.capo, section.swing
        return "".join(found)
