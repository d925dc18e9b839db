"""Documents compiled without a text, and scores told in short texts that a test can read."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tabforge.compile import compile_study
from tabforge.diagnostics import Diagnostic
from tabforge.model.events import Event
from tabforge.model.score import Score
from tabforge.source import NOWHERE, Span
from tabforge.syntax.origins import Pointer


class Nowhere:
    """Origins of a document that was read from nothing."""

    def span(self, pointer: Pointer) -> Span:
        return NOWHERE

    def starts(self, pointer: Pointer) -> Sequence[int]:
        return ()


def study(**settings: Any) -> dict[str, Any]:
    return {"study": 1, "scale": {"root": "C3", "name": "major"}, **settings}


def riff(*systems: dict[str, Any], **settings: Any) -> dict[str, Any]:
    return {"kind": "riff", "name": "Sample", "systems": list(systems), **settings}


def compiled(document: dict[str, Any]) -> tuple[Score | None, tuple[Diagnostic, ...]]:
    return compile_study(document, Nowhere())  # type: ignore[arg-type]


def score_of(document: dict[str, Any]) -> Score:
    score, diagnostics = compiled(document)
    assert score is not None, [each.headline for each in diagnostics]
    assert not diagnostics, [each.headline for each in diagnostics]
    return score


def codes(document: dict[str, Any]) -> list[str]:
    return [each.code.id for each in compiled(document)[1]]


def written(event: Event) -> str:
    """``q.`` with a tie before or after it: ``~q`` is tied in, ``q~`` tied out; rests in parentheses."""
    text = event.written.value.letter + "." * event.written.dots
    if not event.notes:
        return f"({text})"
    return "~" * event.notes[0].tied_in + text + "~" * event.notes[0].tied_out


def bars_of(document: dict[str, Any], voice: int = 0) -> list[str]:
    """The written values of each bar."""
    (section,) = [section for section in score_of(document).sections if section.bars]
    return [" ".join(written(event) for event in bar.voices[voice]) for bar in section.bars]


def pitches_of(document: dict[str, Any]) -> list[str]:
    """Every note's pitch, in order, chords joined with +, rests as r; tied continuations left out."""
    found = []
    for section in score_of(document).sections:
        for bar in section.bars:
            for event in bar.voices[0]:
                if not event.notes:
                    found.append("r")
                elif not event.notes[0].tied_in:
                    found.append("+".join(str(note.pitch) for note in reversed(event.notes)))
    return found


def marks_of(document: dict[str, Any]) -> list[str]:
    """For each event, its marks as ``name.role``."""
    (section,) = score_of(document).sections
    return [
        " ".join(
            f"{mark.technique.form}.{mark.role.value}"
            for mark in (*(event.notes[0].marks if event.notes else ()), *event.marks)
        )
        for bar in section.bars
        for event in bar.voices[0]
    ]


def hung_on(document: dict[str, Any]) -> list[str]:
    """What hangs on each event: dynamic, hairpins (``c[`` and ``d[`` begin, ``]`` ends, ``]]`` with its event), word, chord."""
    (section,) = score_of(document).sections
    found = []
    for bar in section.bars:
        for event in bar.voices[0]:
            attached = event.attached
            ends = [f"{each.kind[0]}[" if each.begins else "]]" if each.through else "]" for each in attached.hairpins]
            parts = (attached.dynamic, *ends, attached.word and attached.word.text, attached.chord and attached.chord.text)
            found.append(" ".join(part for part in parts if part))
    return found
