"""Directions above the first bar of a section: its title, tuning and capo, swing, words."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap
from typing import Final

from tabforge.model.meter import Swing
from tabforge.model.score import Section
from tabforge.model.tuning import Instrument
from tabforge.writers.frets import frets_in_words
from tabforge.writers.musicxml.tempos import direction, swing
from tabforge.writers.musicxml.text import escape


def words(text: str, staff: str) -> str:
    """Words above the staff in italics; a line break in the text is one on paper."""
    space = ' xml:space="preserve"' if "\n" in text else ""
    return direction(staff, f'<words font-style="italic"{space}>{escape(text)}</words>')


_WIDTH: Final = 60
"""Characters a line of teaching text: readers do not wrap words, and a system is about so wide."""


def _paragraph(lines: Sequence[str]) -> str:
    return "\n".join(part for line in lines for part in wrap(line, _WIDTH))


def rehearsal(title: str, staff: str) -> str:
    """A section's title, or a rehearsal mark within one."""
    return direction(staff, f'<rehearsal font-weight="bold">{escape(title)}</rehearsal>')


class SectionDirections:
    """Writes what stands above the first bar of a section, where it is set or changes."""

    def __init__(self, instrument: Instrument, staff: str) -> None:
        self._staff = staff
        self._strings = instrument.tuning.strings
        self._capo = 0
        self._partial: tuple[int, tuple[int, ...]] | None = None
        self._fretting: tuple[float, ...] = ()
        self._swing: Swing | None = None

    def write(self, section: Section) -> str:
        """Title, tuning and capo, swing, then the section's text.

        The text stands where a player needs it, above the music it speaks of, as one block: readers stack separate directions upward, which
        would turn its lines around. What the study says as a whole is not printed here, only kept in a field (see ``document``).
        """
        staff = self._staff
        found = [rehearsal(section.title, staff)] if section.title else []
        setup = self._setup(section)
        if setup:
            found.append(words("\n".join(setup), staff))
        if section.swing != self._swing:
            found.append(swing(section.swing, staff))
        text = _paragraph(section.text)
        if text:
            found.append(words(text, staff))
        self._strings, self._capo, self._swing = section.tuning.strings, section.capo, section.swing
        self._partial, self._fretting = section.partial_capo, section.fretting
        return "".join(found)

    def _setup(self, section: Section) -> list[str]:
        """Tuning, frets that are not half steps, and capo, a line each, where they change."""
        setup = []
        if section.tuning.strings != self._strings:
            named = f"{section.tuning.name} ({section.tuning})" if section.tuning.name else str(section.tuning)
            setup.append(f"Tuning: {named}")
        if section.fretting != self._fretting:
            setup.append(frets_in_words(section.fretting))
        if section.capo != self._capo:
            setup.append(f"Capo {section.capo}" if section.capo else "No capo")
        if section.partial_capo != self._partial:
            setup.append(_partial_capo(section.partial_capo))
        return setup


def _partial_capo(given: tuple[int, tuple[int, ...]] | None) -> str:
    if given is None:
        return "No partial capo"
    fret, strings = given
    return f"Partial capo {fret} on string{'s' * (len(strings) > 1)} {', '.join(map(str, strings))}"
