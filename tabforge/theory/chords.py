"""Chord symbols: reading them, and the tones they stand for."""

from __future__ import annotations

import re
from functools import cache
from typing import Final

from tabforge.diagnostics.core import nearest
from tabforge.model.harmony import ChordDegree, ChordSymbol
from tabforge.model.pitch import PITCH_CLASS_TEXT, PitchClass, parse_pitch_class
from tabforge.theory.chord_table import ALTERED, CHANGE_TEXT, KIND_TONES, NO_CHORD, QUALITIES, Quality, qualities_by_form
from tabforge.theory.intervals import MOST_IN_SCALE, degree_interval, transpose_class
from tabforge.theory.labels import Label, read_label

_ROOT: Final = re.compile(PITCH_CLASS_TEXT)
_CHANGE: Final = re.compile(CHANGE_TEXT)
_CHANGES: Final = re.compile(f"(?:{CHANGE_TEXT})*")
_PLAIN_SIGNS: Final = str.maketrans({"♯": "#", "♭": "b"})
_LONGEST: Final = 40
_DOMINANT: Final = {7: -1}
"""An added degree is told against a dominant chord, whose seventh is minor (MusicXML 4.0, ``degree-alter``)."""


@cache
def parse_chord(text: str) -> ChordSymbol | None:
    """The chord a symbol such as ``Bbmaj7``, ``F#m7b5``, ``C6/9`` or ``D/F#`` names, or None. Cached.

    An accidental right after the letter belongs to the root: ``Bb5`` is B flat and its fifth. A slash with a note after it is the bass.
    """
    if text in NO_CHORD:
        return ChordSymbol(text=text, root=None, kind="none")
    symbol = text.translate(_PLAIN_SIGNS)
    found = _ROOT.match(symbol)
    if not found or len(text) > _LONGEST:
        return None
    root, rest = parse_pitch_class(found[0]), symbol[found.end() :]
    suffix, bass = rest, None
    read = _read_suffix(suffix)
    if read is None and "/" in rest:
        suffix, _, bass_text = rest.rpartition("/")
        bass = parse_pitch_class(bass_text)
        read = _read_suffix(suffix) if bass else None
    if read is None:
        return None
    kind, degrees = read
    return ChordSymbol(text=text, root=root, kind=kind, suffix=suffix, bass=bass, degrees=degrees)


@cache
def _read_suffix(suffix: str) -> tuple[str, tuple[ChordDegree, ...]] | None:
    """Kind and degrees of what follows a root: the longest quality that leaves nothing but changes."""
    found = _split(suffix)
    return (found[0].kind, found[2]) if found else None


@cache
def _split(suffix: str) -> tuple[Quality, list[str], tuple[ChordDegree, ...]] | None:
    forms = qualities_by_form()
    for end in range(len(suffix), -1, -1):
        quality = forms.get(suffix[:end])
        if quality and _CHANGES.fullmatch(suffix, end):
            changes = _CHANGE.findall(suffix, end)
            degrees = _degrees(quality, changes)
            if degrees is not None:
                return quality, changes, degrees
    return None


def usual_suffix(suffix: str) -> str | None:
    """What follows a root in its usual form (``min7`` → ``m7``, ``-7b5`` → ``m7b5``); None if it is no quality."""
    found = _split(suffix.translate(_PLAIN_SIGNS))
    return found[0].forms[0] + "".join(found[1]) if found else None


def chord_named(root: PitchClass, suffix: str, bass: PitchClass | None = None) -> ChordSymbol | None:
    """The chord of a root and what follows it, in the usual form; None if that is no quality.

    A suffix that begins with an accidental (``b5``) is written after ``maj``, for ``Cb5`` would be C flat and its fifth.
    """
    found, usual = _split(suffix), usual_suffix(suffix)
    if found is None or usual is None:
        return None
    usual = f"maj{usual}" if usual[:1] in ("b", "#") else usual
    text = f"{root}{usual}" + (f"/{bass}" if bass else "")
    return ChordSymbol(text=text, root=root, kind=found[0].kind, suffix=usual, bass=bass, degrees=found[2])


def _degrees(quality: Quality, changes: list[str]) -> tuple[ChordDegree, ...] | None:
    """MusicXML's degrees of a quality with changes after it; None where a change makes no sense (a ninth added to a ninth chord)."""
    having = {label.number: label.alter for label in map(read_label, KIND_TONES[quality.kind].split())}
    free = dict(having)  # tones that no change has touched yet
    taken: set[Label] = {Label(number, alter) for number, alter in having.items()}
    degrees: list[ChordDegree] = []
    for change in (*quality.changes, *(change.replace("+", "#").replace("-", "b") for change in changes)):
        word = next((word for word in ("add", "omit", "no") if change.startswith(word)), "")
        label = read_label(change.removeprefix(word))
        number, alter = label
        if word in ("omit", "no"):
            if free.pop(number, None) is None:
                return None
            degrees.append(ChordDegree(value=number, alter=0, type="subtract"))
            continue
        if label in taken or (not word and change not in ALTERED):
            return None
        taken.add(label)
        if not word and number in free:
            degrees.append(ChordDegree(value=number, alter=alter - free.pop(number), type="alter"))
        else:
            degrees.append(ChordDegree(value=number, alter=alter - _DOMINANT.get(number, 0), type="add"))
    return tuple(degrees)


def chord_labels(symbol: ChordSymbol) -> tuple[str, ...]:
    """The tones of a chord against the major scale on its root, by number, without its bass: ``1 b3 b5 b7``."""
    tones = [read_label(text) for text in KIND_TONES[symbol.kind].split()]
    for degree in symbol.degrees:
        own = next((tone for tone in tones if tone.number == degree.value), None)
        if degree.type == "add":
            tones.append(Label(degree.value, degree.alter + _DOMINANT.get(degree.value, 0)))
        elif own is not None:
            tones.remove(own)
            if degree.type == "alter":
                tones.append(Label(own.number, own.alter + degree.alter))
    return tuple(map(str, sorted(tones)))


@cache
def chord_tones(symbol: ChordSymbol) -> tuple[PitchClass, ...]:
    """The spelled tones of a chord; the bass first if it is named and is not one of them. Empty for N.C."""
    if symbol.root is None:
        return ()
    tones = tuple(
        transpose_class(symbol.root, degree_interval(read_label(label)), MOST_IN_SCALE) for label in chord_labels(symbol)
    )
    return tones if symbol.bass is None or symbol.bass in tones else (symbol.bass, *tones)


def chord_suffixes() -> list[str]:
    """The usual form of every quality, as it follows a root; the first is empty (major)."""
    return [quality.forms[0] for quality in QUALITIES]


def nearest_chord(text: str) -> str | None:
    """A valid symbol that is most like what was written, or None: ``bbmaj7`` → ``Bbmaj7``, ``Csus5`` → ``Csus``."""
    written = text.translate(_PLAIN_SIGNS)
    upright = written[:1].upper() + written[1:]
    if parse_chord(upright):
        return upright
    found = _ROOT.match(upright)
    if not found:
        return nearest(text, NO_CHORD[:1])
    suffix, slash, bass = upright[found.end() :].partition("/")
    near = suffix if _read_suffix(suffix) else nearest(suffix, list(qualities_by_form()))
    tail = f"/{bass[:1].upper()}{bass[1:]}" if slash else ""
    made = found[0] + (near or "") + tail
    return made if near is not None and parse_chord(made) else None
