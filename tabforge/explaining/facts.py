"""What explanations say, as JSON types. ``schemas/explanation.schema.json`` describes them; a test holds the two together."""

from __future__ import annotations

from typing import Literal, TypedDict


class Tone(TypedDict):
    """A note and what it is called in a scale or a chord."""

    degree: str
    note: str


class Mode(TypedDict):
    """A turn of a scale."""

    degree: str
    root: str
    name: str | None


class Tritone(TypedDict):
    """Two notes and where each pulls."""

    notes: list[Tone]
    goals: list[list[Tone]]
    away: bool


class Stack(TypedDict):
    """A stacked chord."""

    name: str | None
    sounds_like: str | None
    numeral: str | None
    notes: list[str]
    intervals: list[str]
    role: str | None


class Degree(TypedDict):
    """The chords on a degree of a scale."""

    degree: str
    note: str
    triad: Stack | None
    seventh: Stack | None
    ninth: Stack | None
    others: list[str]


class Said(TypedDict):
    """A chord by its numeral and by its name."""

    numeral: str
    chord: str


class ScaleFacts(TypedDict):
    """A scale on its root."""

    explains: Literal["scale"]
    name: str
    about: str | None
    notes: list[str]
    degrees: list[str]
    steps: list[str]
    fifths: int
    other_names: list[str]
    plainer: str | None
    plainer_notes: list[str]
    against: str
    characteristic: list[Tone]
    telling: list[Tone]
    parent: str | None
    modes: list[Mode]
    tritones: list[Tritone]
    chords: list[Degree]
    home: list[Said]
    home_pulls: bool
    leading: list[Said]
    colour: list[Said]
    pull: list[Said]
    parent_home: list[Said]
    vamp: list[Said]


class Key(TypedDict):
    """What a chord is in a key or scale. ``outside`` are its notes that the scale has not; ``role`` what it does to its colour.

    ``applied`` is its numeral as the dominant or leading-note chord of another degree, where it has notes outside.
    """

    scale: str
    numeral: str | None
    applied: str | None
    outside: list[str]
    role: str | None


class ChordFacts(TypedDict):
    """A chord."""

    explains: Literal["chord"]
    name: str
    notes: list[Tone]
    bass: str | None
    keys: list[Key]
    asked: Key | None
    scales: list[str]
    more_scales: int


class Heard(TypedDict):
    """A note of a block: how often it is struck, and where first."""

    degree: str
    note: str
    times: int
    bar: int | None
    beat: str | None


class BlockChord(TypedDict):
    """A chord symbol of a block."""

    bar: int
    chord: str
    numeral: str | None
    role: str | None


class Stretch(TypedDict):
    """Bars of a block with one scale in force."""

    scale: str | None
    notes: list[str]
    parent: str | None
    first_bar: int
    last_bar: int
    characteristic: list[Heard]
    outside: list[Heard]
    chords: list[BlockChord]


class Count(TypedDict):
    """How often a technique is used."""

    name: str
    times: int


class BlockFacts(TypedDict):
    """A block of a study."""

    name: str
    bars: int
    notes: int
    stretches: list[Stretch]
    lowest: str | None
    highest: str | None
    frets: list[int]
    strings: list[int]
    open_strings: bool
    techniques: list[Count]
    second_parts: list[str]


class StudyFacts(TypedDict):
    """A study, or one block of it."""

    explains: Literal["study"]
    title: str
    instrument: str
    tuning: list[str]
    keys: list[str]
    blocks: list[BlockFacts]


class PageFacts(TypedDict):
    """A page on anything else that has a name."""

    explains: Literal["page"]
    lines: list[str]


Facts = ScaleFacts | ChordFacts | StudyFacts | PageFacts
