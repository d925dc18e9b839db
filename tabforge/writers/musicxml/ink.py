"""What the techniques of one event put on paper, sorted by where MusicXML wants it."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Final

from tabforge.model.events import Event, Note
from tabforge.model.score import Section
from tabforge.model.techniques import Mark, Role
from tabforge.writers.loss import Loss
from tabforge.writers.musicxml.layers import Layer
from tabforge.writers.musicxml.numbers import Numbers
from tabforge.writers.musicxml.text import escape


class Ink:
    """Gathers the signs of one event on one layer. ``turn`` begins the next note of it.

    ``section`` is its section, ``previous`` and ``following`` are the events around it in its voice.
    ``before`` and ``after`` are directions around the event. The
    rest belongs to the note whose turn it is: ``cross`` and ``parentheses`` of its head, ``tied`` and ``lines`` (slurs, slides),
    ``ornaments``, ``technical``, ``articulations``, ``others`` (fermata, arpeggio), ``play``.
    """

    __slots__ = (
        "after",
        "articulations",
        "before",
        "cross",
        "event",
        "first",
        "following",
        "layer",
        "lines",
        "losses",
        "note",
        "numbers",
        "ornaments",
        "others",
        "parentheses",
        "play",
        "previous",
        "section",
        "technical",
        "tied",
        "upper",
        "voice",
    )

    def __init__(
        self,
        layer: Layer,
        section: Section,
        voice: int,
        event: Event,
        previous: Event | None,
        following: Event | None,
        numbers: Numbers,
        losses: list[Loss],
    ) -> None:
        self.layer, self.voice, self.event, self.numbers, self.losses = layer, voice, event, numbers, losses
        self.section, self.previous, self.following = section, previous, following
        self.upper = voice == layer.first_voice
        self.before = self.after = ""
        self.turn(None, True)

    def turn(self, note: Note | None, first: bool) -> None:
        """Begin the next note of the event; ``note`` is None for a rest."""
        self.note, self.first = note, first
        self.cross = self.parentheses = False
        self.tied = self.lines = self.ornaments = self.technical = self.articulations = self.others = ""
        self.play = ""

    def lose(self, what: str, how: str) -> None:
        """Report what this layer should carry and cannot."""
        self.losses.append(Loss(span=self.event.span, what=what, how=how))

    def say(self, words: str) -> None:
        """Words above the event, once."""
        direction = self.direction(technique_words(words))
        if direction not in self.before:
            self.before += direction

    def direction(self, *types: str, place: str = "") -> str:
        """A ``direction`` of this voice with the given direction types; ``place`` is on the voice's side of the staff if not given."""
        inside = "".join(f"<direction-type>{each}</direction-type>" for each in types)
        place = place or ("above" if self.upper else "below")
        return f'<direction placement="{place}">{inside}<voice>{self.voice}</voice>{self.layer.staff_element}</direction>\n'

    def head(self) -> str:
        """The ``notehead`` element, if the head is not an ordinary one."""
        if not (self.cross or self.parentheses):
            return ""
        around = ' parentheses="yes"' if self.parentheses else ""
        return f"<notehead{around}>{'x' if self.cross else 'normal'}</notehead>"

    def notations(self, tuplets: str) -> str:
        """The ``notations`` element with everything this note has, or nothing."""
        inside = self.tied + self.lines + tuplets
        if self.ornaments:
            inside += f"<ornaments>{self.ornaments}</ornaments>"
        if self.technical:
            inside += f"<technical>{self.technical}</technical>"
        if self.articulations:
            inside += f"<articulations>{self.articulations}</articulations>"
        inside += self.others
        return f"<notations>{inside}</notations>" if inside else ""


Handler = Callable[[Ink, Mark], None]
"""Writes one mark of the note whose turn it is."""

BEGINS: Final = frozenset({Role.START, Role.SINGLE})
"""Roles of the note on which a technique begins."""


def technique_words(words: str) -> str:
    """Words that name a technique: small italics."""
    return f'<words font-size="8" font-style="italic">{escape(words)}</words>'


def decimal(number: Fraction) -> str:
    """A number as XML Schema's decimal."""
    return f"{float(number):.6g}"
