"""Reading the values of settings that the header knows: words, meter, tempo, pickup, swing and keys.

Each function returns the document's value, or None when it has reported what is wrong.
"""

from __future__ import annotations

import re
from typing import Final, Literal

from tabforge.diagnostics import nearest
from tabforge.syntax.document import SwingSetting, TempoSetting
from tabforge.syntax.field import MAX_PHRASE, Field, Part, plain_signs
from tabforge.syntax.grammar import DURATION_TEXT, METER_TEXT, ROOT_TEXT, TEMPO_TEXT
from tabforge.syntax.report import quoted
from tabforge.syntax.spelling import respelled_duration, respelled_meter, respelled_pitch

TEMPO_RANGE: Final = (10, 500)
"""Beats a minute; see the document's schema."""

MAX_KEYS: Final = 60
WALKS: Final = ("fifths", "fourths", "chromatic")

_ROOT: Final = re.compile(ROOT_TEXT)
_TEMPO: Final = re.compile(TEMPO_TEXT)
_RATIO: Final = re.compile(r"([1-9]):([1-9])")


def line(field: Field) -> str:
    """Words to the end of the line."""
    return field.text


def phrase(field: Field) -> str | None:
    """A name: words with single spaces between."""
    text = " ".join(field.text.split())
    return text if field.within(MAX_PHRASE, "a name") else None


def meter(field: Field) -> str | None:
    """A time signature."""
    if re.fullmatch(METER_TEXT, field.text):
        return field.text
    field.unlike("a meter", suggestion=respelled_meter(field.text))
    return None


def tempo(field: Field) -> TempoSetting | None:
    """Beats a minute, with words and a beat before them if need be."""
    parts = field.parts()
    first = parts[0]
    if len(parts) == 2 and first.is_quoted and _TEMPO.fullmatch(parts[1].text):
        words, number = first.text[1:-1], parts[1]
    elif len(parts) == 1 and (_TEMPO.fullmatch(first.text) or whole(first.text) is not None):
        words, number = None, first
    else:
        field.unlike("a tempo", suggestion=_respelled_tempo(field.text))
        return None
    beat, _, beats = number.text.rpartition("=")
    bpm = float(beats)
    if not TEMPO_RANGE[0] <= bpm <= TEMPO_RANGE[1]:
        field.refuse(f"{beats} beats a minute cannot be a tempo", number, expected=f"from {TEMPO_RANGE[0]} to {TEMPO_RANGE[1]}")
        return None
    if words is not None and not field.within(MAX_PHRASE + 2, "a tempo's words", first):
        return None
    setting: TempoSetting = {"bpm": int(bpm) if bpm == int(bpm) else bpm}
    if beat:
        setting["beat"] = beat
    if words is not None:
        setting["words"] = words
    return setting


def _respelled_tempo(text: str) -> str | None:
    plain = re.sub(r"\s*=\s*", "=", re.sub(r"(?i)\s*bpm\b", "", plain_signs(text)).strip()).lstrip(":=")
    reverse = re.fullmatch(r"([0-9.]+)=([whqest]\.{0,2})", plain)
    if reverse:
        plain = f"{reverse[2]}={reverse[1]}"
    if _TEMPO.fullmatch(plain):
        return plain
    words = re.fullmatch(rf'"?([^"=]*[^"=\s])"?\s+({TEMPO_TEXT})', plain)
    return f'"{words[1]}" {words[2]}' if words and len(words[1]) <= MAX_PHRASE else None


def pickup(field: Field) -> str | None:
    """A duration."""
    if not field.within(MAX_PHRASE, "a pickup"):
        return None
    if re.fullmatch(DURATION_TEXT, field.text):
        return field.text
    field.unlike("a duration", suggestion=respelled_duration(field.text))
    return None


def swing(field: Field) -> Literal["off"] | SwingSetting | None:
    """The swung value, with its ratio if given; or off."""
    parts = field.parts()
    value = parts[0].text
    if value == "off" and len(parts) == 1:
        return "off"
    if value not in ("e", "s"):
        field.unlike("a value that swings", parts[0], _one_of(("e", "s"), respelled_duration(value)))
        return None
    if len(parts) == 1:
        return {"value": value}
    ratio = _RATIO.fullmatch(parts[1].text)
    if ratio is None or len(parts) > 2:
        written = re.findall(r"[1-9]", field.text)
        field.unlike("a swing", suggestion=f"{value} {written[0]}:{written[1]}" if len(written) == 2 else None)
        return None
    return {"value": value, "ratio": [int(ratio[1]), int(ratio[2])]}


def keys(field: Field) -> str | list[str] | None:
    """Roots, or a walk through all twelve."""
    if field.text in WALKS:
        return field.text
    parts = field.parts()
    if len(parts) > MAX_KEYS:
        field.report.limit(field.span, f"a study is written in at most {MAX_KEYS} further keys")
        return None
    bad = [part for part in parts if not _ROOT.fullmatch(part.text)]
    walk = next((part.text.casefold() for part in parts if part.text.casefold() in WALKS), None)
    if walk:
        field.refuse(f"a walk through the keys is called {walk} and nothing else", suggestion=walk)
        return None
    for part in bad:
        near = fitting(_ROOT, respelled_pitch(part.text.strip(",;"))) or (nearest(part.text, WALKS) if len(parts) == 1 else None)
        field.unlike("a root", part, near, help="roots stand with a space between: F A" if "," in part.text else None)
    if bad:
        return None
    for index, part in enumerate(parts):
        field.note(index, part)
    return [part.text for part in parts]


def whole(text: str) -> int | None:
    """A whole number of at most four digits, or None."""
    return int(text) if len(text) <= 4 and text.isascii() and text.isdecimal() else None


def fitting(pattern: re.Pattern[str], text: str | None) -> str | None:
    """A text that a pattern matches whole, else None."""
    return text if text and pattern.fullmatch(text) else None


def _one_of(words: tuple[str, ...], text: str | None) -> str | None:
    return text if text in words else None


def root(field: Field, part: Part) -> str | None:
    """A root with or without its octave; reports it otherwise."""
    if _ROOT.fullmatch(part.text):
        return part.text
    german = plain_signs(part.text)[:1] in ("H", "h")
    help_ = "the note a half step below C is B, and a half step below that is Bb" if german else None
    field.unlike("a root", part, fitting(_ROOT, respelled_pitch(part.text)), help=help_)
    return None


def missing(field: Field, what: str, expected: str | None = None) -> None:
    """Report that a value stops too early."""
    field.refuse(f"{field.word} {quoted(field.text)} lacks {what}", expected=expected)
