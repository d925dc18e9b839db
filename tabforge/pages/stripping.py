"""What the engraver is given: our MusicXML a section at a time, every note with an id, TAB with nothing but its numbers.

The engraver's TAB lacks most of what players read there, and what it has (stems, grace notes, words) gets in the way of the numbers; all of
that is drawn afterwards. Titles and teaching text are left out: the typesetter sets them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from tabforge.model.score import Score, Section
from tabforge.pages.places import Placed, placed, staff_id, tab_id
from tabforge.writers.loss import Loss
from tabforge.writers.musicxml import write
from tabforge.writers.musicxml.attributes import AttributesWriter
from tabforge.writers.musicxml.layers import PARTS
from tabforge.writers.musicxml.numbering import Numbered, numbered

_TAB: Final = "<staff>2</staff>"
_ATTRIBUTES: Final = re.compile(r"^<attributes>.*</attributes>\n", re.M)
_HEAD: Final = re.compile(r"<part-name>.*?</part-name>")
_TUPLET: Final = re.compile(r"<tuplet [^>]*?(?:/>|>.*?</tuplet>)")
_PLACE: Final = re.compile(r"<string>\d+</string><fret>\d+</fret>")
_TWICE: Final = re.compile(r'<tied type="let-ring"/>|<wavy-line [^>]*/>|<harmonic>.*?</harmonic>')
_DRAWN: Final = ("<dashes ", '<words font-size="8"')
"""What tells of techniques over the staff: barres. It is told over TAB, with dashes that end where they should."""
_DEGREE: Final = re.compile(r"<degree .*?</degree>")
_EXTRAS: Final = re.compile(r"<tie [^>]*/>|<notehead.*?</notehead>")


@dataclass(frozen=True, slots=True)
class Part:
    """A section for the engraver.

    ``index`` is its number in the score. ``broken``: the document says where some lines end. ``drawn`` has for each bar that is drawn how
    many it stands for: more than one for a rest of several bars.
    """

    index: int
    section: Section
    events: tuple[Placed, ...]
    document: str
    broken: bool
    drawn: tuple[int, ...]


def stripped(score: Score) -> tuple[list[Part], tuple[Loss, ...]]:
    """Every section of a score that has bars, as a document of its own, and what MusicXML could not carry."""
    bare = replace(score, sections=tuple(replace(each, title="", text=(), backing=()) for each in score.sections if each.bars))
    data, losses = write(bare)
    text = data.decode()
    head, _, body = text.partition('<part id="P1">\n')
    head = _HEAD.sub("<part-name></part-name>", head)
    measures = [f"<measure {each}" for each in body.partition("</part>\n")[0].split("<measure ")[1:]]
    places: dict[int, list[Numbered]] = {}
    indices = [index for index, each in enumerate(score.sections) if each.bars]
    at = -1
    for place in numbered(bare):
        at += place.first
        places.setdefault(at, []).append(place)
    parts, used = [], 0
    for own, index in enumerate(indices):
        bars = places[own]
        section = bars[0].section
        events = placed(section)
        inside = measures[used : used + len(bars)]
        used += len(bars)
        inside[0] = _begun(inside[0], bars[0], bare)
        lines = "".join(_lines(inside, events))
        broken = any(bar.new_line for bar in section.bars[1:])
        document = f'{head}<part id="P1">\n{lines}</part>\n</score-partwise>\n'
        parts.append(Part(index, score.sections[index], events, document, broken, _drawn(bars)))
    return parts, losses


def _drawn(bars: Sequence[Numbered]) -> tuple[int, ...]:
    counts: list[int] = []
    at = 0
    while at < len(bars):
        counts.append(max(1, bars[at].rests))
        at += counts[-1]
    return tuple(counts)


def _begun(measure: str, place: Numbered, score: Score) -> str:
    """A section's first measure with all its attributes, those that had not changed too."""
    whole = AttributesWriter(PARTS["both"][0], score.instrument, score.divisions, exact=False).write(
        place.section, place.bar.meter, place.rests, place.bar.scale
    )
    first, _, rest = _ATTRIBUTES.sub("", measure, count=1).partition("\n")
    ahead = ""
    while rest.startswith(("<print", "<barline")):
        line, _, rest = rest.partition("\n")
        ahead += "" if line.startswith("<print") else f"{line}\n"
    return f"{first}\n{ahead}{whole}{rest}"


def _lines(measures: Sequence[str], events: Sequence[Placed]) -> Iterator[str]:
    """The lines of all measures, their notes named and TAB stripped."""
    by_bar: dict[int, list[Placed]] = {}
    for each in events:
        by_bar.setdefault(each.bar, []).append(each)
    for index, measure in enumerate(measures):
        names = iter(_names(by_bar.get(index, ())))
        skipped = False
        for line in measure.splitlines(keepends=True):
            if line.startswith("<note"):
                name, kept, grace = next(names)
                if name[0] == "s":
                    yield f'<note id="{name}"{_staff(line[5:])}'
                elif not grace:
                    yield _numbers(line, name, kept)
            elif skipped or (line.startswith("<direction") and (_TAB in line or any(each in line for each in _DRAWN))):
                skipped = "</direction>" not in line
            elif line.startswith("<harmony"):
                yield _DEGREE.sub("", line)  # the symbol's own text has them
            else:
                yield line


def _names(events: Sequence[Placed]) -> Iterator[tuple[str, bool, bool]]:
    """The ids of a bar's notes in the order of the document, with whether they are notes, and whether grace notes."""
    for made in (staff_id, tab_id):
        for each in events:
            for note in range(max(1, len(each.event.notes))):
                yield made(each.number, note), bool(each.event.notes), each.event.grace is not None


def _staff(line: str) -> str:
    """A note of the staff without what is drawn over TAB."""
    if "let-ring" in line or "<wavy-line" in line or "<harmonic>" in line:
        return _TWICE.sub("", line)
    return line


def _numbers(line: str, name: str, note: bool) -> str:
    """A note of TAB as a number and its length."""
    if not note:
        return f'<note id="{name}"{line[5:]}'
    front, _, back = line.partition("<notations>")
    if "<tie " in front or "<notehead" in front:
        front = _EXTRAS.sub("", front)
    tuplets = "".join(_TUPLET.findall(back)) if "<tuplet " in back else ""
    place = _PLACE.search(back)
    inside = place[0] if place else ""
    return f'<note id="{name}"{front[5:]}<notations>{tuplets}<technical>{inside}</technical></notations></note>\n'
