"""What may be posted: a study with its settings, and what each path wants besides. Unknown members are refused, and so is null."""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator
from pydantic.json_schema import SkipJsonSchema

from tabforge.limits import MAX_STRINGS
from tabforge.syntax.altered import Changes

ROOT = r"^[A-G](?:##|#|bb|b)?(?:-?[0-9])?$"
"""A root as the setting ``keys`` has it."""

MAX_COUNT_IN = 8
"""Bars counted before a block, at most."""

_SOURCES = ("text", "document", "study")

Line = Annotated[str, Field(min_length=1, max_length=200, pattern=r"^[^\x00-\x1f\x7f-\x9f]+$")]


def _plain(schema: dict[str, Any]) -> None:
    """Leave out that what is absent is null inside."""
    for each in schema.get("properties", {}).values():
        if "default" in each and each["default"] is None:
            del each["default"]


class Said(BaseModel):
    """A JSON object of which everything is looked at."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, allow_inf_nan=False, json_schema_extra=_plain)

    @model_validator(mode="before")
    @classmethod
    def _no_nulls(cls, given: Any) -> Any:
        if isinstance(given, dict):
            for word, value in given.items():
                if value is None:
                    raise ValueError(f"“{word}” is null: leave out what is not said")
        return given


class Settings(Said):
    """What is to be another way than the study says."""

    key: Annotated[str, Field(pattern=ROOT, description="a root, with its octave if need be")] | SkipJsonSchema[None] = None
    instrument: Annotated[Line, Field(description="a named instrument", examples=["bass"])] | SkipJsonSchema[None] = None
    tuning: (
        Annotated[Line, Field(description="a named tuning of the instrument", examples=["drop D"])]
        | Annotated[list[Line], Field(min_length=3, max_length=MAX_STRINGS, description="the open strings from the lowest")]
        | SkipJsonSchema[None]
    ) = None
    tempo: Annotated[float, Field(ge=10, le=500, description="beats a minute")] | SkipJsonSchema[None] = None
    hand: Annotated[Literal["right", "left"], Field(description="the hand that picks")] | SkipJsonSchema[None] = None
    fingering: Literal["show", "hide"] | SkipJsonSchema[None] = None
    layout: (
        Annotated[Line, Field(description="the layout of every run, as a study says it", examples=["3 per string from string 6"])]
        | Annotated[dict[str, Any], Field(description="the same as a study's document has it")]
        | SkipJsonSchema[None]
    ) = None

    def changes(self) -> Changes:
        """The same as the compiler wants it. Raises Problem for a layout that is none."""
        from tabforge.service.layouts import layout_of  # noqa: PLC0415  # most settings name none

        return Changes(
            key=self.key,
            instrument=self.instrument,
            tuning=tuple(self.tuning) if isinstance(self.tuning, list) else self.tuning,
            tempo=self.tempo,
            hand=self.hand,
            fingering=self.fingering,
            layout=None if self.layout is None else layout_of(self.layout),
        )


def _one_source(schema: dict[str, Any]) -> None:
    _plain(schema)
    schema["properties"]["document"] = {"$ref": "#/components/schemas/Study"}
    schema["oneOf"] = [{"required": [each]} for each in _SOURCES]


class StudyInput(Said):
    """A study: its text, or its document, or the id of one of the watched folder; and what is to be another way."""

    model_config = ConfigDict(json_schema_extra=_one_source)

    text: Annotated[str, Field(description="a study in the riff language, or a JSON document as text")] | SkipJsonSchema[None] = None
    document: Any = None
    study: Annotated[str, Field(max_length=64, description="an id of GET /studies")] | SkipJsonSchema[None] = None
    name: Annotated[Line, Field(description="what diagnostics and files call it")] | SkipJsonSchema[None] = None
    settings: Settings | SkipJsonSchema[None] = None

    @model_validator(mode="after")
    def _one(self) -> Self:
        said = [each for each in _SOURCES if each in self.model_fields_set]
        if len(said) != 1:
            raise ValueError("say exactly one of text, document and study")
        return self


class Playing(Said):
    """How it is played."""

    blocks: Annotated[list[Line], Field(max_length=100, description="blocks by title or number; all if none")] | SkipJsonSchema[None] = None
    count_in: Annotated[int, Field(ge=0, le=MAX_COUNT_IN, description="bars counted before each block")] = 0
    click: Annotated[bool, Field(description="clicks throughout")] = True
    drone: Annotated[bool, Field(description="a deep root under blocks that have a scale")] = True


class PlayInput(StudyInput):
    """A study to be played."""

    play: Playing | SkipJsonSchema[None] = None


class ViewInput(PlayInput):
    """A study to be shown."""

    width: Annotated[float, Field(ge=60, le=400, description="of a line of music, in millimetres")] | SkipJsonSchema[None] = None


class BlocksInput(StudyInput):
    """A study, or some of its blocks."""

    blocks: Annotated[list[Line], Field(max_length=100)] | SkipJsonSchema[None] = None


class Words(Said):
    """The name of a scale on its root, or of a chord."""

    words: Annotated[Line, Field(examples=["E2 phrygian dominant", "Dm7 in C major"])]


class _Drawn(Said):
    form: Literal["svg", "text"] = "svg"
    labels: Literal["degree", "note", "finger"] | SkipJsonSchema[None] = None
    bare: Annotated[bool, Field(description="SVG without paper, in the colour of the text around it")] = False


class BlockDiagram(BlocksInput, _Drawn):
    """Diagrams of a study's blocks."""


class _OnNeck(_Drawn):
    instrument: Line | SkipJsonSchema[None] = None
    tuning: Line | SkipJsonSchema[None] = None
    left: bool = False


class ScaleDiagram(_OnNeck):
    """A scale on the neck, or in a layout."""

    scale: Annotated[Line, Field(examples=["Bb2 lydian"])]
    layout: Annotated[Line, Field(examples=["3 per string from string 6"])] | SkipJsonSchema[None] = None


class ChordDiagram(_OnNeck):
    """Grips of a chord."""

    chord: Annotated[Line, Field(pattern=r"^[^\s|@]+$", examples=["C/E"])]
    grips: Annotated[int, Field(ge=1, le=8)] = 3
