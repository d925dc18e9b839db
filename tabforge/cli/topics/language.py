"""The language's words as topics: settings, rows and durations from their tables, layouts from the reference."""

from __future__ import annotations

from typing import Final

from tabforge.cli.handbook import table
from tabforge.cli.topics import Entry, Topic, columns
from tabforge.fretboard.voicing_styles import VOICING_KINDS
from tabforge.model.meter import TEMPO_CHANGES
from tabforge.model.score import SIGNS
from tabforge.model.values import DOT_FACTOR, VALUES
from tabforge.syntax.grammar import BLOCKS, ROWS, SETTINGS, VOICINGS, Row
from tabforge.syntax.report import listed

_PLACES: Final = {"header": "the header", **{kind: f"a {said}" for kind, said in BLOCKS.items()}}


def _settings() -> list[Entry]:
    return [Entry(each.word, each.says) for each in SETTINGS.values()]


def _setting(words: str) -> str | None:
    setting = SETTINGS.get(words)
    if setting is None:
        return None
    lines = [f"{setting.word}  (a line of {_places(setting.where)})", ""]
    lines.append(f"  Value: {setting.says}.")
    if setting.many:
        lines.append("  It may stand several times.")
    return "\n".join(lines)


def _places(where: frozenset[str]) -> str:
    return listed([said for place, said in _PLACES.items() if place in where])


def _count(row: Row) -> str:
    """How many cells a row has."""
    if row.per_bar:
        return "There is one cell for each bar."
    if row.shares:
        return "The cells of a bar share it evenly."
    return "There is one cell for each note." if "riff" in row.where else "There is one cell for each stroke."


def _rows() -> list[Entry]:
    return [Entry(each.word, each.says) for each in ROWS.values()]


def _row(words: str) -> str | None:
    row = ROWS.get(words)
    if row is None:
        return None
    lines = [f"{row.word}  (a row of {_places(row.where)})", "", f"  A cell is {row.says}."]
    lines.append(f"  {_count(row)}")
    others = " or ".join(other.word for other in ROWS.values() if other.sounds and other is not row and other.where == row.where)
    if row.sounds and others:
        lines.append(f"  It says what sounds: a system has this row or one of {others}.")
    lines.append(f"  For example: {'  '.join(row.samples)}")
    return "\n".join(lines)


def _durations() -> list[Entry]:
    return [Entry(each.letter, f"{each.spoken}: quarter notes it lasts, {each.quarters}") for each in VALUES]


def _duration(words: str) -> str | None:
    value = next((each for each in VALUES if words.rstrip(".") in (each.letter, each.spoken)), None)
    dots = len(words) - len(words.rstrip("."))
    if value is None or dots >= len(DOT_FACTOR):
        return None
    spoken = ("", "dotted ", "double-dotted ")[dots] + value.spoken
    length = value.quarters * DOT_FACTOR[dots]
    return f"{value.letter}{'.' * dots}  {spoken} (a duration)\n\n  Quarter notes it lasts: {length}."


def _signs() -> list[Entry]:
    return [Entry(sign, f"in the score: {words}") for sign, words in {**SIGNS, **TEMPO_CHANGES}.items()]


def _sign(words: str) -> str | None:
    row = "signs" if words in SIGNS else "tempo" if words in TEMPO_CHANGES else None
    if row is None:
        return None
    return f"{words}  (a cell of the row {row})\n\n  In the score: {SIGNS.get(words) or TEMPO_CHANGES[words]}"


def _layouts() -> list[Entry]:
    """The reference's table; a row that begins with … goes on from the last row that does not, and may offer two ways."""
    entries: list[Entry] = []
    whole = ""
    for form, about in table("layout"):
        ways, says = form.replace("`", "").split(", "), about.replace("`", "").split("; ")
        for way, said in zip(ways, says if len(says) == len(ways) else ["; ".join(says)] * len(ways), strict=True):
            if not way.startswith("…"):
                whole = way
            entries.append(Entry(way.replace("…", whole), said))
    return entries


def _kind(layout: str) -> str:
    """A layout without its numbers and where it begins: ``3 per string from string 6`` is ``per string``."""
    return " ".join(word for word in layout.split() if not word.isdecimal()).partition(" from ")[0]


def _layout(words: str) -> str | None:
    """The page of one layout; or of all whose names begin with the words, since ``shape`` alone names five."""
    kind = _kind(words)
    found = [entry for entry in _layouts() if words == entry.name]
    found = found or [entry for entry in _layouts() if kind == _kind(entry.name)]
    found = found or [entry for entry in _layouts() if kind and _kind(entry.name).startswith(f"{kind} ")]
    if not found:
        return None
    return "\n".join([f"{kind}  (a layout of a run)", "", *(f"  {line}" for line in columns(found).split("\n"))])


def _voicings() -> list[Entry]:
    return [Entry(written, about) for written, about in zip(VOICINGS, VOICING_KINDS.values(), strict=True)]


def _voicing(words: str) -> str | None:
    about = next((entry.about for entry in _voicings() if entry.name == words), None)
    return f"{words}  (a voicing of a chord block)\n\n  Its grips: {about}." if about else None


TOPICS: Final = (
    Topic(name="layouts", about="where on the neck a run lies", entries=_layouts, explain=_layout),
    Topic(name="voicings", about="how the chords of a chord block lie on the strings", entries=_voicings, explain=_voicing),
    Topic(name="durations", about="note values, as a row of rhythm writes them", entries=_durations, explain=_duration),
    Topic(name="settings", about="lines of the header and of blocks", entries=_settings, explain=_setting),
    Topic(name="rows", about="the aligned rows of riffs and chord blocks", entries=_rows, explain=_row),
    Topic(name="signs", about="signs of the way and changes of tempo, as rows write them", entries=_signs, explain=_sign),
)
