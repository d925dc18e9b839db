"""What is answered, as models: they describe it in the OpenAPI document. Answers are not made of them, but tests hold the two together."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, WithJsonSchema

PLACE = "x-place"
"""In place of a reference to a definition of a schema file, until all of them are together."""

Finding = Annotated[dict[str, Any], WithJsonSchema({PLACE: "report.finding"})]
Facts = Annotated[dict[str, Any], WithJsonSchema({PLACE: "explanation.study"})]
Seconds = Annotated[float, Field(ge=0, description="seconds from the beginning")]
At = Annotated[str, Field(pattern=r"^\d+-\d+$", description="offsets in the study's text, as data-at of pictures has them")]


class Shape(BaseModel):
    """A JSON object that has what is named here and nothing else."""

    model_config = ConfigDict(extra="forbid")


class Check(Shape):
    """What was found in a study."""

    ok: bool
    errors: int
    advice: int
    unshown: Annotated[int, Field(description="diagnostics beyond those that are told")]
    diagnostics: list[Finding]


class Tidied(Check):
    """A study in the canonical layout."""

    text: str


class Sound(Shape):
    """One sound of one string. ``bend``: seconds after its start, cents above its pitch."""

    part: str
    start: Seconds
    seconds: float
    midi: int
    cents: float
    velocity: Annotated[int, Field(ge=1, le=127)]
    string: int
    attack: Literal["pick", "finger", "slur", "tap", "slide", "swell"]
    kind: Literal["note", "dead", "muted", "harmonic"]
    at: At
    bend: list[tuple[float, float]] = []


class Click(Shape):
    """A click of the metronome."""

    at: Seconds
    accent: bool
    counting: bool


class Tempo(Shape):
    """From here on, quarter notes a minute."""

    at: Seconds
    quarters: float


class Text(Shape):
    """A word at a moment."""

    at: Seconds
    text: str
    kind: Literal["lyric", "marker", "chord"]


class Passage(Shape):
    """Where a section is played."""

    section: int
    start: Seconds
    end: Seconds


class PlayedBar(Passage):
    """A bar as it is played once. ``bar`` counts from 0 in its section, as data-bar of pictures does.

    ``tick`` is where it begins in its section as it is written, as data-tick does, ``ticks`` its length.
    """

    bar: int
    tick: int
    ticks: int


class Performance(Shape):
    """A study as it is played, all rows sorted by time."""

    title: str
    seconds: float
    program: Annotated[int, Field(ge=1, le=128, description="General MIDI")]
    strings: int
    straight: Annotated[bool, Field(description="repeats would have made it too long: it is played straight through")]
    sounds: list[Sound]
    clicks: list[Click]
    tempos: list[Tempo]
    texts: list[Text]
    passages: list[Passage]
    bars: list[PlayedBar]


class System(Shape):
    """A line of music. Sizes are millimetres; bars count from 0 in the section."""

    svg: str
    width: float
    height: float
    first_bar: int
    last_bar: int
    label: str


class Picture(Shape):
    """A diagram, and its words."""

    svg: str
    label: str


class Section(Shape):
    """A block of a study."""

    index: int
    title: str
    text: list[str]
    label: str
    at: At
    line: int
    bars: int
    numbers: Annotated[list[str], Field(description="what is printed over each bar")]
    click: Annotated[bool, Field(description="the study wants its beats clicked")]
    count_in: Annotated[int | None, Field(description="bars that the study wants counted before it; null where it does not say")]
    scale: str | None
    tuning: str
    systems: list[System]
    tab: str | None
    diagrams: list[Picture]


class Theory(Shape):
    """What is played: as facts, whose bars count from 1 in their block, and in words, with the numbers that are printed."""

    facts: Facts
    text: str


class View(Check):
    """All that the page shows. Of a study with errors there is no music: nothing after ``diagnostics``."""

    name: str
    source: Annotated[str, Field(description="the text of the study, in which the places of everything lie")]
    title: str = ""
    subtitle: str | None = None
    author: str | None = None
    text: list[str] = []
    left_handed: bool = False
    engraved: Annotated[bool, Field(description="false where the extra pages is not installed")] = True
    glyphs: Annotated[str, Field(description="the music signs of all systems, as a hidden picture")] = ""
    sections: list[Section] = []
    tab: str = ""
    theory: Theory | None = None
    performance: Performance | None = None


class Watched(Shape):
    """A study of the watched folder. ``revision`` is another with other bytes."""

    id: str
    name: str
    revision: str
    bytes: int


class WatchedStudy(Watched):
    """The same with its text."""

    text: str


class Listing(Shape):
    """The watched folder."""

    watching: bool
    studies: list[Watched]


class Health(Shape):
    """That it runs."""

    ok: bool
    waiting: int


class Format(Shape):
    """A format."""

    name: str
    media: str
    suffix: str
    summary: str
    installed: bool


class Version(Shape):
    """The installed program."""

    name: str
    version: str
    formats: list[Format]


class Tuning(Shape):
    """A tuning, from the lowest string."""

    name: str
    strings: list[str]


class Instrument(Shape):
    """An instrument."""

    name: str
    label: str
    tunings: list[Tuning]


class Choices(Shape):
    """What settings can be."""

    instruments: list[Instrument]
    keys: list[str]
    hands: list[str]


class Schemas(Shape):
    """Names of schemas."""

    schemas: list[str]


class Wrong(Shape):
    """One thing that is wrong with a request."""

    pointer: str
    detail: str


class ProblemDetails(BaseModel):
    """Why a request is refused (RFC 9457)."""

    type: str
    title: str
    status: Annotated[int, Field(ge=400, le=599)]
    detail: str = ""
    errors: list[Wrong] | int = []
    diagnostics: list[Finding] = []


ANSWERS = (Check, Tidied, Performance, View, Listing, WatchedStudy, Health, Version, Choices, Schemas, ProblemDetails)
"""Those that paths answer with."""
