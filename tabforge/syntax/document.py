"""The study document as types: what a text is parsed into and a JSON input must be. ``schemas/study.schema.json`` is its guard."""

from __future__ import annotations

from typing import Literal, TypedDict


class TempoSetting(TypedDict, total=False):
    """``bpm`` is required."""

    bpm: float
    beat: str
    words: str


class SwingSetting(TypedDict, total=False):
    """``value`` is required; ``ratio`` is long and short."""

    value: str
    ratio: list[int]


class ScaleSetting(TypedDict, total=False):
    """``root`` is required, and ``name`` or one of the three definitions."""

    root: str
    name: str
    steps: list[str]
    semitones: list[int]
    degrees: list[str]


class CapoSetting(TypedDict):
    """A capo that lies on some of the strings."""

    fret: int
    strings: list[int]


LayoutSetting = TypedDict(
    "LayoutSetting",
    {"kind": str, "count": int, "from": int, "to": int, "fret": int, "degree": str, "string": int, "shape": str},
    total=False,
)


class VoicingSetting(TypedDict, total=False):
    """How chords are laid on the strings. ``kind`` is required; ``inversion`` is 0 for root position to 3."""

    kind: str
    strings: list[int]
    inversion: int


class DroneSetting(TypedDict, total=False):
    """Notes that sound below. ``degrees`` is required; ``every`` is a duration, absent where they are held."""

    degrees: list[str]
    every: str


class VampSetting(TypedDict, total=False):
    """Chords behind a block. ``chords`` is required: "advised", or bars of a progression; ``every`` is a duration, absent where each is
    struck once.
    """

    chords: Literal["advised"] | list[str]
    every: str


class Voice(TypedDict, total=False):
    """Rows of one voice, each a list of bars."""

    rhythm: list[str]
    degrees: list[str]
    frets: list[str]
    notes: list[str]
    marks: list[str]
    dynamics: list[str]
    fingers: list[str]
    picks: list[str]
    words: list[str]


class System(Voice, total=False):
    """Rows that stand together, in a riff or in a chord block (which has ``progression``, ``strum`` and ``picking``, and no second voice).

    ``barlines``: the number of bars before it → a bar line that is not plain.
    """

    meter: list[str]
    key: list[str]
    tempo: list[str]
    signs: list[str]
    chords: list[str]
    progression: list[str]
    strum: list[str]
    picking: list[str]
    barlines: dict[str, str]
    voice2: Voice


_CountIn = TypedDict("_CountIn", {"count-in": int}, total=False)


class Settings(_CountIn, total=False):
    """What the header and a block may both say."""

    text: list[str]
    tuning: str | list[str]
    fretting: str | list[float]
    capo: int | CapoSetting
    scale: ScaleSetting
    meter: str
    tempo: TempoSetting
    pickup: str
    player: str
    fingering: Literal["show", "hide"]
    strokes: Literal["alternate", "economy", "legato", "written"]
    swing: Literal["off"] | SwingSetting
    drone: Literal["off"] | DroneSetting
    vamp: Literal["off"] | VampSetting
    backing: Literal["show", "hide"]
    click: Literal["on", "off"]
    allow: list[str]


_From = TypedDict("_From", {"from": str}, total=False)


class Block(Settings, _From, total=False):
    """A run, a riff, a chord block or a text; ``kind`` says which. ``name`` may be absent."""

    kind: str
    name: str
    lines: list[str]
    systems: list[System]
    layout: LayoutSetting
    path: list[str]
    order: list[int]
    tones: list[str]
    to: str
    octaves: int
    rhythm: str
    marks: str
    fingers: str
    picks: str
    finish: str
    voicing: VoicingSetting
    diagrams: Literal["show", "hide"]


class Comment(TypedDict):
    """A comment of the text; ``at`` is the JSON pointer of what it belongs to, ``place`` "before", "beside" or "end"."""

    at: str
    place: str
    text: str


class Study(Settings, total=False):
    """The whole document. ``study`` is the format's version, 1."""

    study: int
    title: str
    subtitle: str
    author: str
    instrument: str
    hand: str
    keys: str | list[str]
    blocks: list[Block]
    comments: list[Comment]
