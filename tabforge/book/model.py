"""A book as data, from its manifest to what is bound. Everything here can be pickled: exercises are made in any process.

manifest ──read──▶ Book ──plan──▶ Exercises ──make, each alone──▶ Made ──bind──▶ PDF, HTML, zip
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from tabforge.source import NOWHERE, Span

if TYPE_CHECKING:
    from tabforge.pages.sheets import Sheet

LEVELS: Final = ("first steps", "settled", "fluent", "demanding")
"""How far along a student should be, in order; a name of our own for each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StudyOptions:
    """What a manifest may change about a study, or ask to be shown with it. None: as the study, or the book, says.

    ``key`` is a root as a ``scale`` setting has it (``Bb``, ``Bb2``), ``tuning`` a named tuning or pitches from the lowest string,
    ``tempo`` beats a
    minute, ``hand`` "left" or "right", ``level`` one of LEVELS. ``blocks`` are names of the study's blocks to print, all of them if empty.
    ``tab``: its ASCII form is printed too. ``diagrams``: the shapes of its scales and chords. ``plan``: a practice plan. ``tracks``:
    practice tracks are made for the web page.
    """

    key: str | None = None
    instrument: str | None = None
    tuning: str | tuple[str, ...] | None = None
    tempo: float | None = None
    hand: str | None = None
    level: str | None = None
    fingering: str | None = None
    blocks: tuple[str, ...] = ()
    tab: bool | None = None
    diagrams: bool | None = None
    plan: bool | None = None
    tracks: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BookStudy:
    """A study as a chapter lists it: ``file`` relative to the manifest's folder; ``each`` has one StudyOptions for each exercise it
    becomes.

    Keys and tunings multiply: two keys in two tunings are four exercises. ``span`` is the place in the manifest.
    """

    file: str
    each: tuple[StudyOptions, ...]
    title: str | None = None
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """A chapter. ``introduction`` is a file of Markdown in the book's folder; ``text`` is what it holds once it has been read."""

    title: str
    studies: tuple[BookStudy, ...]
    introduction: str | None = None
    text: str = ""
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A manifest that has passed its guard. ``paper`` is a key of ``pages.options.PAPERS``; ``language`` a BCP 47 tag.

    ``text_font`` and ``heading_font`` are families the typesetter has or that lie in ``font_files`` of the book's folder. ``cover`` are
    lines of words under the
    title, ``front`` Markdown before the first chapter (besides the practice cautions, which every book has). ``cautions`` are a teacher's
    own, added to them.
    """

    title: str
    chapters: tuple[Chapter, ...]
    subtitle: str | None = None
    author: str | None = None
    edition: str | None = None
    licence: str | None = None
    language: str = "en"
    paper: str = "a4"
    text_font: str | None = None
    heading_font: str | None = None
    font_files: tuple[str, ...] = ()
    cover: tuple[str, ...] = ()
    cover_study: str | None = None
    front: str | None = None
    front_text: str = ""
    cautions: tuple[str, ...] = ()
    date: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """One exercise of the book. ``id`` is unique and safe as a file name and an anchor; ``number`` is what is printed ("3.2")."""

    id: str
    number: str
    chapter: int
    file: str
    options: StudyOptions
    title: str | None = None
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A diagram: a whole SVG with its size in millimetres, and its words for those who do not see it."""

    svg: str
    width: float
    height: float
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What indexes, glossary and headings are made of. ``techniques`` are keys of ``model.techniques.TECHNIQUES``."""

    instrument: str
    tuning: str
    key: str | None = None
    tempo: str | None = None
    meter: str | None = None
    level: str | None = None
    scales: tuple[str, ...] = ()
    techniques: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A block of the study as it is printed, in reading order: heading, teaching text, pictures, music, ASCII tab.

    ``sheet`` is None for a block of text alone.
    """

    title: str
    text: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
    sheet: Sheet | None = None
    tab: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """An exercise, made. ``files`` maps a suffix with its dot (``.musicxml``, ``.mid``, ``.tab.txt``, ``.mp3``) to bytes. ``plan`` has
    the lines of its practice plan.

    ``report`` is what the user is told about the study, rendered, under a heading of the caller's (``making.heading``), empty if nothing is
    to be told; ``failed``: it has errors, and nothing else is here.
    """

    id: str
    title: str
    facts: Facts | None = None
    text: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
    plan: tuple[str, ...] = ()
    files: dict[str, bytes] = field(default_factory=dict)
    report: str = ""
    failed: bool = False
