"""What a picture shows, in words: for those who hear a page, and for programs that look for text."""

from __future__ import annotations

from tabforge.model.meter import Tempo
from tabforge.model.score import Score, Section


def section_label(score: Score, section: Section) -> str:
    """Title, key, meter and tempo of a section."""
    parts = [section.title or score.title]
    if section.scale is not None:
        parts.append(f"{section.scale.root.pitch_class} {section.scale.name}")
    parts.append(f"{section.bars[0].meter} time")
    tempo = section.bars[0].tempo or _tempo_before(score, section)
    if tempo is not None:
        dots = ("", "dotted ", "double dotted ")[tempo.dots]
        parts.append(f"{dots}{tempo.beat.spoken} = {tempo.bpm:.6g}")
    return ", ".join(parts)


def _tempo_before(score: Score, section: Section) -> Tempo | None:
    """The tempo that is in force where a section sets none."""
    found = None
    for each in score.sections:
        if each is section:
            break
        for bar in each.bars:
            found = bar.tempo or found
    return found


def system_label(label: str, first: int, last: int) -> str:
    """The label of one system; bars are counted from 0 here and from 1 in words."""
    bars = f"bar {first + 1}" if first == last else f"bars {first + 1} to {last + 1}"
    return f"{label}, notation and TAB, {bars}"
