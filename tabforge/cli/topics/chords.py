"""Chords as topics: every quality of the table, on any root."""

from __future__ import annotations

from typing import Final

from tabforge.cli.topics import Entry, Topic
from tabforge.explaining.asked import chord_asked
from tabforge.theory.chords import chord_labels, chord_suffixes, parse_chord


def _entries() -> list[Entry]:
    chords = [parse_chord(f"C{suffix}") for suffix in chord_suffixes()]
    return [Entry(chord.text, " ".join(chord_labels(chord))) for chord in chords if chord]


def _page(words: str) -> str | None:
    asked = chord_asked(words)
    if asked is None:
        return None
    from tabforge.explaining.chord_text import chord_text  # noqa: PLC0415
    from tabforge.explaining.chords import chord_facts  # noqa: PLC0415

    return chord_text(chord_facts(*asked))


TOPICS: Final = (
    Topic(name="chords", about="chord symbols; `explain Dm7 in C major` tells one in a key", entries=_entries, explain=_page),
)
