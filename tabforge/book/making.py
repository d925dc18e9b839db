"""One exercise, made: from a study's bytes to everything the binders need. Pure, and picklable, so that it runs in any process."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from tabforge.book.describing import facts_of
from tabforge.book.model import Exercise, Made, Part, StudyOptions
from tabforge.book.picturing import pictures_of
from tabforge.diagnostics.core import Diagnostic, nearest, only_errors
from tabforge.diagnostics.render_text import render
from tabforge.pipeline import Outcome, export, study_from, with_advice
from tabforge.syntax.altered import Changes
from tabforge.writers import WRITERS, WriteOptions
from tabforge.writers.ascii.backing import shown_backing

if TYPE_CHECKING:
    from tabforge.model.score import Score, Section
    from tabforge.pages import Engraver, PageOptions, Sheet

FORMATS: Final = ("musicxml", "midi", "tab")
"""What every exercise is handed out as."""

TAB_WIDTH: Final = {"a4": 88, "letter": 90, "a5": 72}
"""Characters in a line of ASCII tab that fit each paper beside one another in a fixed-width face of 9 points (of 7.5 on A5)."""

TRACK: Final = ".mp3"


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """What all exercises of a book are made with.

    ``paper`` is a key of ``pages.options.PAPERS``. ``font`` is the family that words in music are measured in: any with serifs, since
    each binder sets them in that of its book.
    """

    paper: str = "a4"
    font: str = "serif"
    engraved: bool = True
    tracks: bool = True


def make(exercise: Exercise, data: bytes, making: Making, engraver: Engraver | None = None) -> Made:
    """Make one exercise of the study in ``data``. The same arguments give the same result, byte for byte, in any process.

    A study with errors, or one without a block that the manifest asks for, gives a Made that has ``failed`` and says why.
    Raises MissingEngraverError if pages are to be engraved and the extra ``pages`` is not installed.
    """
    options = exercise.options
    outcome = study_from(exercise.file, data, _changes(options))
    if outcome.score is None:
        return _failed(exercise, _report(outcome))
    missing = _missing(exercise, data, outcome.score)
    if missing:
        return _failed(exercise, f"{missing[:1].upper()}{missing[1:]}\n")
    score = replace(outcome.score, sections=tuple(section for section in outcome.score.sections if not _is_empty(section)))
    files: dict[str, bytes] = {}
    lost: list[Diagnostic] = []
    for name in FORMATS:
        files[WRITERS[name].suffix], more = export(score, name)
        lost += more
    if options.tracks and making.tracks:
        files[TRACK] = _track(score)
    return Made(
        id=exercise.id,
        title=exercise.title or score.title or exercise.file,
        facts=facts_of(score, score.sections, options.level),
        text=score.text,
        parts=tuple(_parts(score, options, making, engraver)),
        plan=_plan(score) if options.plan else (),
        files=files,
        report=_report(with_advice(outcome, lost)),
    )


def _changes(options: StudyOptions) -> Changes:
    words = ("key", "instrument", "tuning", "tempo", "hand", "fingering", "blocks")
    return Changes(**{word: getattr(options, word) for word in words})


def _missing(exercise: Exercise, data: bytes, score: Score) -> str | None:
    """What is to be said if the study has not every block that is asked for."""
    titles = {section.title.casefold() for section in score.sections}
    for name in exercise.options.blocks:
        if name.casefold() not in titles:
            whole = study_from(exercise.file, data).score
            known = [section.title for section in whole.sections if section.title] if whole else []
            near = nearest(name, known)
            return f"this study has no block “{name}”. " + (f"Did you mean “{near}”?" if near else f"There are: {', '.join(known)}.")
    return None


def _is_empty(section: Section) -> bool:
    return not (section.bars or section.text or section.title)


def _parts(score: Score, options: StudyOptions, making: Making, engraver: Engraver | None) -> Iterator[Part]:
    sheets: dict[int, Sheet] = {}
    if making.engraved:
        from tabforge.pages import PageOptions, engrave  # noqa: PLC0415  # needs the extra

        page: PageOptions = replace(PageOptions.on(making.paper), font=making.font)
        sheets = {sheet.section: sheet for sheet in engrave(score, page, engraver)[0]}
    for number, section in enumerate(score.sections):
        yield Part(
            title=section.title,
            text=(*section.text, *(told for _, told in shown_backing(section, score.divisions))),
            pictures=pictures_of(score, section) if options.diagrams else (),
            sheet=sheets.get(number),
            tab=_tab(score, section, making) if options.tab and section.bars else None,
        )


def _tab(score: Score, section: Section, making: Making) -> str:
    """The ASCII form of one section; its titles and texts stand around it on the page."""
    alone = replace(score, sections=(section,))
    data, _ = export(alone, "tab", WriteOptions(width=TAB_WIDTH[making.paper], legend=False, headings=False))
    return data.decode().strip("\n")


def _plan(score: Score) -> tuple[str, ...]:
    from tabforge.practice import plan_lines  # noqa: PLC0415  # only where one is asked for

    return plan_lines(score)


def _track(score: Score) -> bytes:
    from tabforge.performance import PlayOptions, perform  # noqa: PLC0415  # only where tracks are asked for
    from tabforge.sound.options import TrackOptions  # noqa: PLC0415
    from tabforge.sound.tracks import tracks  # noqa: PLC0415

    unsaid = all(section.count_in is None for section in score.sections)
    (track,) = tracks(perform(score, PlayOptions(count_in=1 if unsaid else None)), TrackOptions(form="mp3"))
    return track.data


def heading(exercise: Exercise) -> str:
    """What an exercise is called where something is told of it."""
    options = exercise.options
    tuning = " ".join(options.tuning) if isinstance(options.tuning, tuple) else options.tuning
    how = [f"in {options.key}" if options.key else "", f"on {options.instrument}" if options.instrument else "", tuning or ""]
    said = ", ".join(each for each in how if each)
    return f"exercise {exercise.number}, {exercise.file}" + (f" ({said})" if said else "")


def _report(outcome: Outcome) -> str:
    """What the user is told: errors, and advice where there is any."""
    return render(only_errors(outcome.diagnostics) or outcome.diagnostics, outcome.source, unshown=outcome.unshown)


def _failed(exercise: Exercise, report: str) -> Made:
    return Made(id=exercise.id, title=exercise.title or exercise.file, report=report, failed=True)
