"""Diagrams on the neck: a scale, a chord's grips, a study's blocks."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from tabforge.diagrams.finding import find_grips
from tabforge.diagrams.grips import grip
from tabforge.diagrams.model import Diagram
from tabforge.diagrams.plain import text
from tabforge.diagrams.shapes import on_whole_neck, played_in, shape
from tabforge.diagrams.svg import svg
from tabforge.fretboard.gripped import shape_text
from tabforge.fretboard.instruments import neck_of
from tabforge.pipeline import study_from
from tabforge.service.tasks.job import Answer, CannotError, Job
from tabforge.service.tasks.studies import StudyError, chosen, score_of

if TYPE_CHECKING:
    from tabforge.diagrams.naming import Labels
    from tabforge.fretboard.neck import Neck
    from tabforge.model.score import Score, Section


def diagram(job: Job) -> Answer:
    """The diagrams that ``options`` ask for, as models of ``inputs`` have them."""
    asked = job.options
    made = _scale(asked) if "scale" in asked else _chord(asked) if "chord" in asked else _blocks(job)
    if not any(each.dots for each in made):
        raise CannotError("There is nothing to draw: no note lies here.")
    if asked.get("labels") == "finger" and not any(dot.label for each in made for dot in each.dots):
        raise CannotError("No fingers are given here: choose degrees or notes.")
    if asked.get("form") == "text":
        return Answer(body=text(made).encode(), media="text/plain; charset=utf-8")
    return Answer(body=svg(made, bool(asked.get("bare"))).encode(), media="image/svg+xml")


def _neck(score: Score, section: Section) -> Neck:
    return neck_of(score.instrument, section.tuning, section.capo, section.fretting)


def _blocks(job: Job) -> list[Diagram]:
    score = score_of(job)
    made = []
    for number in chosen(score, job.options.get("blocks") or ()):
        section = score.sections[number]
        scale = section.scale
        labels: Labels = job.options.get("labels") or ("degree" if scale else "note")
        if labels == "degree" and scale is None:
            raise CannotError("Degrees need a scale to be counted in, and a block has none: choose notes.")
        about = f"{scale.root.pitch_class} {scale.name}: {' '.join(map(str, scale.tones))}" if scale else ""
        title = section.title or score.title
        neck = _neck(score, section)
        made.append(shape(played_in(section), neck, title=title, subtitle=about, labels=labels, scale=scale, left_handed=score.left_handed))
    return made


def _compiled(asked: Mapping[str, Any], lines: list[str]) -> tuple[Score, Section]:
    """A study that is made of words: their errors are its errors."""
    header = [f"{word} {asked[word]}" for word in ("instrument", "tuning") if word in asked]
    outcome = study_from("diagram", "\n".join([*header, *lines, ""]).encode("utf-8", "replace"))
    if outcome.score is None:
        raise StudyError(outcome)
    return outcome.score, outcome.score.sections[0]


_SILENCE = ["riff", "  rhythm w", "  notes r"]
"""A block that plays nothing: it has the scale and the tuning in force."""


def _scale(asked: Mapping[str, Any]) -> list[Diagram]:
    layout = asked.get("layout")
    score, section = _compiled(asked, [f"scale {asked['scale']}", *(["run", f"  layout {layout}"] if layout else _SILENCE)])
    scale, neck = section.scale, _neck(score, section)
    if scale is None:
        raise CannotError(f"“{asked['scale']}” is no scale.")
    places = played_in(section) if layout else on_whole_neck(scale, neck, None)
    subtitle = "; ".join([" ".join(map(str, scale.tones)), *([layout] if layout else [])])
    return [
        shape(
            places, neck, title=f"{scale.root.pitch_class} {scale.name}", subtitle=subtitle, labels=asked.get("labels") or "degree",
            scale=scale, whole=not layout, left_handed=bool(asked.get("left")),
        )
    ]  # fmt: skip


def _chord(asked: Mapping[str, Any]) -> list[Diagram]:
    symbol = asked["chord"]
    score, section = _compiled(asked, [*_SILENCE, f"  chords {symbol}"])
    neck = _neck(score, section)
    chord = section.bars[0].voices[0][0].attached.chord
    if chord is None or chord.root is None:
        raise CannotError("A chord is named by its symbol, such as Bbmaj7, F#m7b5 or C/E.")
    shapes = find_grips(chord, neck, asked.get("grips") or 3, None)
    if not shapes:
        raise CannotError(f"No hand reaches a grip of {symbol}.")
    labels: Labels = asked.get("labels") or "degree"
    left = bool(asked.get("left"))
    return [grip(each, neck, chord=chord, labels=labels, fingers=(), left_handed=left, subtitle=shape_text(each)) for each in shapes]
