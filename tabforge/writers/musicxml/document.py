"""The document around the bars: identification, the list of parts, the fields that hold what notation has no sign for."""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.model.score import Score
from tabforge.writers.musicxml.layers import Part
from tabforge.writers.musicxml.text import escape

DOCTYPE = (
    '<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n'
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">\n'
)
"""The XML declaration and the public identifier the standard gives for partwise documents."""


def head(score: Score, parts: tuple[Part, ...], kinds: Sequence[str] = ()) -> str:
    """Everything before the first part; ``kinds`` of second parts follow it. No date and no version: the bytes change only when the music
    does.
    """
    label = score.instrument.label
    names = [f"{name} (TAB)" if number else name for name in (label, *map(str.capitalize, kinds)) for number, _ in enumerate(parts)]
    movement = f"<movement-title>{escape(score.subtitle)}</movement-title>\n" if score.subtitle else ""
    creator = f'<creator type="composer">{escape(score.author)}</creator>\n' if score.author else ""
    supports = "".join(f'<supports element="{name}" type="yes"/>\n' for name in ("accidental", "beam"))
    supports += '<supports attribute="new-system" element="print" type="yes" value="yes"/>\n'
    return (
        f'{DOCTYPE}<score-partwise version="4.0">\n'
        f"<work>\n<work-title>{escape(score.title)}</work-title>\n</work>\n{movement}"
        f"<identification>\n{creator}<encoding>\n<software>tabforge</software>\n{supports}</encoding>\n"
        f"{_fields(score)}</identification>\n"
        f"<part-list>\n{''.join(_score_part(score, name, number) for number, name in enumerate(names, 1))}</part-list>\n"
    )


def _fields(score: Score) -> str:
    """Miscellaneous fields: the scales by name, and all teaching text, also of sections without a bar to stand above."""
    fields = []
    found = (scale for section in score.sections for scale in (section.scale, *(bar.scale for bar in section.bars)) if scale)
    scales = dict.fromkeys(f"{scale.root.pitch_class} {scale.name}" for scale in found)
    if scales:
        fields.append(("scale", "; ".join(scales)))
    if score.text:
        fields.append(("text", "\n".join(score.text)))
    for number, section in enumerate(score.sections, 1):
        if section.text:
            fields.append((f"text of section {number}: {section.title}", "\n".join(section.text)))
    if not fields:
        return ""
    inside = "".join(f'<miscellaneous-field name="{escape(name)}">{escape(value)}</miscellaneous-field>\n' for name, value in fields)
    return f"<miscellaneous>\n{inside}</miscellaneous>\n"


def _score_part(score: Score, name: str, number: int) -> str:
    label = escape(score.instrument.label)
    return (
        f'<score-part id="P{number}">\n<part-name>{escape(name)}</part-name>\n'
        f'<score-instrument id="P{number}-I1">\n<instrument-name>{label}</instrument-name>\n</score-instrument>\n'
        f'<midi-instrument id="P{number}-I1">\n<midi-channel>{number}</midi-channel>\n'
        f"<midi-program>{score.instrument.program}</midi-program>\n</midi-instrument>\n</score-part>\n"
    )


