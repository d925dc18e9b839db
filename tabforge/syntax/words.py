"""The word at the head of a line: whether it is known, whether it may stand where it stands, and what was meant if not."""

from __future__ import annotations

from functools import cache
from typing import Final

from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import text as codes
from tabforge.source import Span
from tabforge.syntax.grammar import BLOCKS, ROWS, SETTINGS
from tabforge.syntax.report import Report, listed, quoted

VOICE: Final = "voice"

_OTHER_WORDS: Final = {
    "bpm": "tempo",
    "speed": "tempo",
    "time": "meter",
    "signature": "meter",
    "timesig": "meter",
    "name": "title",
    "composer": "author",
    "by": "author",
    "key": "scale",
    "mode": "scale",
    "tune": "tuning",
    "temperament": "fretting",
    "handed": "hand",
    "lefty": "hand",
    "left": "hand",
    "upbeat": "pickup",
    "anacrusis": "pickup",
    "notation": "notes",
    "pitches": "notes",
    "pitch": "notes",
    "tab": "frets",
    "pick": "picks",
    "fingering": "fingers",
    "lyrics": "words",
    "technique": "marks",
    "techniques": "marks",
    "durations": "rhythm",
    "values": "rhythm",
    "harmony": "chords",
    "note": "text",
    "comment": "text",
    "progress": "progression",
    "changes": "progression",
    "strumming": "strum",
    "strums": "strum",
    "arpeggio": "picking",
    "voicings": "voicing",
    "grips": "diagrams",
    "diagram": "diagrams",
    "pedal": "drone",
    "bourdon": "drone",
    "accompaniment": "vamp",
    "metronome": "click",
    "countin": "count-in",
    "direction": "path",
    "sequence": "order",
    "pattern": "order",
    "position": "layout",
    "lick": "riff",
    "exercise": "riff",
}
"""What others call these things; common practice, from memory."""

_EXPECTED: Final = {
    "header": "a setting such as title, tuning or scale, or a block: run, riff, chords or text",
    "run": "a line of a run such as layout, path or rhythm, or a setting such as scale",
    "riff": "a row such as rhythm, degrees or marks, or a setting such as scale",
    "chords": "a row such as progression, rhythm or strum, or a setting such as voicing",
    "text": "a block: run, riff, chords or text",
}


@cache
def words_of(place: str) -> tuple[str, ...]:
    """The words that may begin a line in the header, a run, a riff, a chord block, or after a text."""
    settings = tuple(word for word, setting in SETTINGS.items() if place in setting.where)
    rows = tuple(word for word, row in ROWS.items() if place in row.where)
    if rows:
        return (*rows, *((VOICE,) if place == "riff" else ()), *(word for word in settings if word not in rows))
    return (*settings, *BLOCKS) if place == "header" else settings


_ALL: Final = (*dict.fromkeys((*SETTINGS, *ROWS, VOICE, *BLOCKS)),)


def understood(word: str, place: str, span: Span, report: Report, as_row: bool = False) -> str | None:
    """The word a line begins with, mended and reported if need be; None for one that may not stand in this place, which is reported.

    A word of the header that stands in a block, and the kind of a block, are given back for the caller to judge. ``as_row``: a word that is
    both the kind of a block and a row is a row here.
    """
    if as_row and place not in ROWS[word].where:
        _misplaced(word, place, span, report)
        return None
    if word in words_of(place) or word in BLOCKS:
        return word
    if word in _ALL:
        meant = _OTHER_WORDS.get(word)
        _misplaced(word, place, span, report, meant if meant in words_of(place) else None)
        return meant if meant in words_of(place) else None
    if report.full():
        return None
    bare = word[:40].rstrip(":=").split('"')[0].split("(")[0]
    here = (*words_of(place), *BLOCKS)
    near = bare if bare in _ALL else _OTHER_WORDS.get(bare.casefold()) or nearest(bare, here) or nearest(bare, _ALL)
    if bare == near:
        advice: str | None = "a space stands behind the word, and nothing else: no colon, no equals sign"
    elif bare.casefold() == "key":
        advice = _KEY
    elif word.startswith(("/", "#", ";")):
        advice = "a comment begins with //"
    elif word.startswith("|") or word[0].isdigit():
        advice = "every row begins with its word, such as rhythm or degrees"
    else:
        advice = None
    said = f"there is no line called {quoted(word)}" if word[0].isalpha() else f"a line cannot begin with {quoted(word)}"
    report.add(codes.UNKNOWN_WORD, span, said, expected=_EXPECTED[place], suggestion=near, help=advice)
    return near if near in here else None


_KEY: Final = "scale names the root and the scale; keys writes the study again on other roots; a row of key changes the scale in a block"


def _misplaced(word: str, place: str, span: Span, report: Report, meant: str | None = None) -> None:
    here = "in the header" if place == "header" else f"in a {BLOCKS[place]}"
    advice = _KEY if word == "key" else None
    if word == VOICE:
        there = "in a riff, below the rows of the first voice"
    elif word in SETTINGS and "header" in SETTINGS[word].where and place != "text":
        there = "in the header, before the first block"
    elif word in ROWS or (word in SETTINGS and "header" not in SETTINGS[word].where):
        row, setting = ROWS.get(word), SETTINGS.get(word)
        where = (row.where if row else frozenset[str]()) | (setting.where if setting else frozenset[str]())
        there = listed([f"in a {said}" for kind, said in BLOCKS.items() if kind in where])
        if word == "chords":
            advice = "a chord block has its chords in a row of progression; it begins at the left margin, with its name in quotes"
    else:
        there = "in the header, before the first block"
    report.add(codes.WRONG_PLACE, span, f"{word} cannot stand {here}", expected=f"{word} {there}", suggestion=meant, help=advice)


def known(word: str) -> bool:
    """Whether a word begins some line of the language."""
    return word in _ALL
