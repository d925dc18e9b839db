"""Our MusicXML loaded by an independent engraver, verovio: it must read the document whole, draw every page, and put every TAB numeral on
the line of its string.
"""

from __future__ import annotations

import os
import re
import tempfile
from collections.abc import Iterator
from typing import Any, NamedTuple

from tabforge.model.score import Score

KNOWN_LIMITS = ("Adding 'artic' to a 'tabGrp'",)
"""Errors verovio 6.4 reports for what the standard has and it does not draw: technique letters and bends on a TAB staff."""


class Engraved(NamedTuple):
    """A document as verovio has read it: whether it loads, what the log says, the pages as SVG, the music as MEI."""

    loaded: bool
    said: list[str]
    pages: list[str]
    mei: str


def engrave(document: bytes) -> Engraved:
    """Load and draw a document."""
    import verovio

    verovio.enableLog(verovio.LOG_WARNING)
    toolkit = verovio.toolkit()
    toolkit.setOptions({"pageHeight": 60000, "adjustPageHeight": True, "xmlIdChecksum": True})
    with tempfile.TemporaryFile() as log:
        # The engraver writes its log to the process's standard error, past Python's sys.stderr.
        kept = os.dup(2)
        os.dup2(log.fileno(), 2)
        try:
            loaded = bool(toolkit.loadData(document.decode()))
            pages = [toolkit.renderToSVG(page) for page in range(1, toolkit.getPageCount() + 1)] if loaded else []
            mei = toolkit.getMEI() if loaded else ""
        finally:
            os.dup2(kept, 2)
            os.close(kept)
        log.seek(0)
        said = log.read().decode(errors="replace").splitlines()
    return Engraved(loaded, said, pages, mei)


def complaints(document: bytes) -> list[str]:
    """Why verovio could not load or draw a document: errors beyond its known limits, and what it warns of while it reads.

    Its warnings about drawing (let ring on a last note, crowded bars) are no matter of the document.
    """
    engraved = engrave(document)
    lines = [line for line in engraved.said if line.startswith(("[Error]", "[Warning] MusicXML import"))]
    lines = [line for line in lines if not any(known in line for known in KNOWN_LIMITS)]
    if not engraved.loaded:
        return ["verovio does not load the document", *lines]
    return lines + [f"page {number} is empty" for number, svg in enumerate(engraved.pages, 1) if "<use" not in svg]


class Numeral(NamedTuple):
    """A TAB numeral as it is read and as it is drawn.

    ``group`` tells the notes struck together, ``voice`` the bar and voice they belong to (both are mere names). ``course`` and ``fret`` are
    what the engraver has read; ``line`` is the staff line nearest to the middle of the numeral, counted from the top, or None if it
    stands on none; ``text`` is what is drawn.
    """

    voice: str
    group: str
    course: int
    fret: int
    line: int | None
    text: str


_XML = "{http://www.w3.org/XML/1998/namespace}"
_MEI = "{*}"
_SVG = "{*}"
_MIDDLE = 0.32
"""Height of the middle of a figure above its baseline, in parts of the size of the type (about half the height of a figure; measured)."""


def numerals(document: bytes) -> list[Numeral]:
    """Every numeral that verovio draws on the TAB staves of a document, in the order of bars, voices and notes."""
    from lxml import etree

    engraved = engrave(document)
    drawn = {key: found for svg in engraved.pages for key, found in _drawn(etree.fromstring(svg.encode()))}
    found = []
    for layer in etree.fromstring(engraved.mei.encode()).iter(f"{_MEI}layer"):
        for note in layer.iter(f"{_MEI}note"):
            course, fret, key = note.get("tab.course"), note.get("tab.fret"), note.get(f"{_XML}id")
            if course is not None:
                line, text = drawn.get(key, (None, ""))
                group = note.getparent().get(f"{_XML}id")
                found.append(Numeral(layer.get(f"{_XML}id"), group, int(course), int(fret), line, text))
    return found


def _drawn(page: Any) -> Iterator[tuple[str, tuple[int | None, str]]]:
    """The id of every numeral of a page, with the line it is on and its text."""
    for staff in page.iter(f"{_SVG}g"):
        if staff.get("class") != "staff":
            continue
        rules = [re.fullmatch(r"M\S+ (\S+) L\S+ (\S+)", path.get("d", "")) for path in staff.findall(f"{_SVG}path")]
        lines = sorted({float(rule[1]) for rule in rules if rule and rule[1] == rule[2]})
        for note in staff.iter(f"{_SVG}g"):
            text = note.find(f"{_SVG}text")
            if note.get("class") != "note" or text is None:
                continue
            size = float(text.find(f".//{_SVG}tspan[@font-size]").get("font-size").removesuffix("px"))
            middle = float(text.get("y")) - _MIDDLE * size
            space = (lines[-1] - lines[0]) / (len(lines) - 1)
            near = [number for number, line in enumerate(lines, 1) if abs(line - middle) < space / 4]
            yield note.get("id"), (near[0] if near else None, "".join(text.itertext()).strip())


def misplaced(score: Score, document: bytes) -> list[str]:
    """How the numerals that verovio draws differ from the strings and frets of the score; none if every one is on its line."""
    meant = [
        [sorted((note.string, note.fret) for note in event.notes) for event in voice if event.notes]
        for section in score.sections
        for number, bar in enumerate(section.bars)
        for voice in (*bar.voices, *(part.bars[number] for part in section.backing if part.shown))
    ]
    read: dict[str, dict[str, list[Numeral]]] = {}
    for each in numerals(document):
        read.setdefault(each.voice, {}).setdefault(each.group, []).append(each)
    voices = [voice for voice in meant if voice]
    differences = [] if len(voices) == len(read) else [f"{len(read)} voices with numerals were read, {len(voices)} are meant"]
    for number, (voice, groups) in enumerate(zip(voices, read.values(), strict=False), 1):
        where = f"voice {number} with notes"
        for what, found in (
            ("read", [sorted((each.course, each.fret) for each in group) for group in groups.values()]),
            ("drawn", [sorted((each.line or 0, each.text) for each in group) for group in groups.values()]),
        ):
            wanted = voice if what == "read" else [[(string, str(fret)) for string, fret in group] for group in voice]
            if found != wanted:
                differences.append(f"{where}: {found} is {what}, {wanted} is meant")
    return differences
