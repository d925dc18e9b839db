"""All that a page shows of a study, in one answer."""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from tabforge.book.picturing import pictures_of
from tabforge.explaining.studies import study_facts, told_once
from tabforge.explaining.study_text import study_text
from tabforge.pages import MissingEngraverError, PageOptions, Sheet, engrave, share_glyphs
from tabforge.pipeline import export, lost_in, with_advice
from tabforge.service.tasks.engravers import engraver
from tabforge.service.tasks.job import Answer, Job
from tabforge.service.tasks.playing import performance
from tabforge.service.tasks.studies import findings, outcome_of, written
from tabforge.writers import WriteOptions
from tabforge.writers.musicxml.numbering import numbered

if TYPE_CHECKING:
    from tabforge.model.score import Score
    from tabforge.pipeline import Outcome

_STYLE = ' style="position:absolute"'
"""The hidden picture's: a page that forbids styles in attributes has it in its style sheet."""


class _Watch:
    """Milliseconds of each part of the work."""

    def __init__(self) -> None:
        self.spent: dict[str, float] = {}
        self._since = time.perf_counter()

    def mark(self, part: str) -> None:
        now = time.perf_counter()
        self.spent[part] = round((now - self._since) * 1e3, 3)
        self._since = now


def view(job: Job) -> Answer:
    """The view of a study; of one with errors its findings alone. ``options``: ``play`` (see ``playing``), ``width`` in millimetres."""
    watch = _Watch()
    outcome = outcome_of(job)
    watch.mark("compile")
    told: dict[str, Any] = {"name": job.name, "source": outcome.source.text, **findings(outcome)}
    if outcome.score is not None:
        told |= _music(outcome.score, outcome, job.options, watch)
    body = written(told)
    watch.mark("write")
    return Answer(body=body, spent=watch.spent)


def _music(score: Score, outcome: Outcome, options: Mapping[str, Any], watch: _Watch) -> dict[str, Any]:
    """Everything a study without errors has to show."""
    page = PageOptions(flavour="web", width=options.get("width") or PageOptions().width)
    sheets: dict[int, Sheet] = {}
    engraved = True
    try:
        made, losses = engrave(score, page, engraver())
        sheets = {sheet.section: sheet for sheet in made}
        outcome = with_advice(outcome, lost_in("pages", losses))
    except MissingEngraverError:
        engraved = False
    glyphs, bare = share_glyphs([system.svg for sheet in sheets.values() for system in sheet.systems])
    pictures = iter(bare)
    drawn = {number: [_system(system, next(pictures)) for system in sheet.systems] for number, sheet in sheets.items()}
    watch.mark("engrave")
    facts = study_facts(score)
    heard = performance(score, options.get("play") or {})
    watch.mark("perform")
    counted = _numbers(score)
    told = {
        **findings(outcome),
        "title": score.title,
        "subtitle": score.subtitle,
        "author": score.author,
        "text": list(score.text),
        "left_handed": score.left_handed,
        "engraved": engraved,
        "glyphs": glyphs.replace(_STYLE, ""),
        "sections": [
            _section(score, number, outcome, sheets.get(number), drawn.get(number, []), counted.get(number, []))
            for number in range(len(score.sections))
        ],
        "tab": export(score, "tab")[0].decode(),
        "theory": {"facts": facts, "text": study_text(facts, [counted[number] for number in told_once(score.sections)])},
        "performance": heard,
    }
    watch.mark("text")
    return told


def _system(system: Any, svg: str) -> dict[str, Any]:
    told = {word: getattr(system, word) for word in ("width", "height", "first_bar", "last_bar", "label")}
    return {"svg": svg, **told}


def _section(
    score: Score, number: int, outcome: Outcome, sheet: Sheet | None, systems: list[dict[str, Any]], numbers: list[str]
) -> dict[str, Any]:
    section = score.sections[number]
    place = outcome.source.position(section.span.start)
    return {
        "index": number,
        "title": section.title,
        "text": list(section.text),
        "label": sheet.label if sheet else section.title,
        "at": f"{section.span.start}-{section.span.end}",
        "line": place.line,
        "bars": len(section.bars),
        "numbers": numbers,
        "click": section.click,
        "count_in": section.count_in,
        "scale": f"{section.scale.root.pitch_class} {section.scale.name}" if section.scale else None,
        "tuning": str(section.tuning),
        "systems": systems,
        "tab": _tab(score, number),
        "diagrams": [{"svg": each.svg, "label": each.label} for each in pictures_of(score, section)],
    }


def _numbers(score: Score) -> dict[int, list[str]]:
    """The numbers that are printed over the bars of each section that has bars."""
    left = iter(numbered(score))
    return {index: [next(left).number for _ in section.bars] for index, section in enumerate(score.sections)}


def _tab(score: Score, number: int) -> str | None:
    """The ASCII form of one section, without the titles and texts that stand around it."""
    section = score.sections[number]
    if not section.bars:
        return None
    bare = replace(score, title="", subtitle=None, author=None, text=(), sections=(replace(section, title="", text=()),))
    return export(bare, "tab", WriteOptions(legend=False))[0].decode().strip("\n")
