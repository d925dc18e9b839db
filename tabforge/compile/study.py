"""The whole study: its header, its keys, its blocks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import lcm
from typing import Final

from tabforge.compile.durations import rhythm_bar
from tabforge.compile.frame import Frame, changed, header_frame
from tabforge.compile.keys import Key, key_on, keys_of
from tabforge.compile.report import Report
from tabforge.compile.section import Workshop, section_of
from tabforge.diagnostics import Diagnostic
from tabforge.diagnostics.catalogue import music
from tabforge.limits import MAX_DIVISIONS, MAX_EVENTS
from tabforge.model.meter import Tempo
from tabforge.model.score import Bar, Score, Section
from tabforge.syntax.document import Block, Study
from tabforge.syntax.origins import Origins
from tabforge.theory.intervals import Interval

BASE_DIVISIONS: Final = 480
"""Ticks a quarter note that every reader of MusicXML takes, and that hold every plain value down to a dotted thirty-second."""


def compile_study(study: Study, origins: Origins, on: str | None = None) -> tuple[Score | None, tuple[Diagnostic, ...]]:
    """The score of a document that has passed the guard, or None with at least one error among the findings.

    ``on`` is a root, with its octave if need be: the study is written on it alone, in place of its own key and those it asks for.
    """
    report = Report(origins)
    divisions = _divisions(study, report)
    frame = header_frame(study, None, report)
    if ("keys" in study or on is not None) and frame.scale is None and "scale" not in study:
        report.add(music.KEYS_NEED_SCALE, "to write the study on other roots, say its scale in the header", ("keys",))
    if report.errors():
        # Blocks are still read, for what else there is to say of them.
        _sections(study, None, Workshop(divisions), report, None)
        return None, report.finish()
    shop = Workshop(divisions)
    keys = keys_of(study, frame) if on is None else [key_on(on, frame)]
    sections: list[Section] = []
    for number, key in enumerate(keys):
        found = _in_key(study, key, shop, report, named=len(keys) > 1, first=number == 0)
        sections.extend(found)
        events = sum(map(_events, sections))
        if events > MAX_EVENTS:
            report.add(
                music.TOO_MUCH,
                f"written out, this study has more than {MAX_EVENTS:,} notes and rests",
                ("keys",) if number else ("blocks",),
                help="split it into several files",
            )
            break
        if report.errors() and number == 0:
            break
    if report.errors():
        return None, report.finish()
    score = Score(
        title=study.get("title", ""),
        subtitle=study.get("subtitle"),
        author=study.get("author"),
        text=tuple(study.get("text", ())),
        instrument=frame.instrument,
        divisions=divisions,
        sections=_closed(_repeats_of_their_own(_tempos_that_change(sections))),
        left_handed=study.get("hand") == "left",
    )
    return score, report.finish()


def _events(section: Section) -> int:
    parts = (events for part in section.backing for events in part.bars)
    return sum(len(voice) for bar in section.bars for voice in bar.voices) + sum(map(len, parts))


def _in_key(study: Study, key: Key, shop: Workshop, report: Report, named: bool, first: bool) -> list[Section]:
    """The study in one key, moved in the first way that fits the neck; if none does, what keeps the first way from fitting."""
    moves: tuple[Interval | None, ...] = key.moves or (None,)
    tried: list[tuple[list[Section], Report]] = []
    for move in moves:
        trial = report.fork()
        sections = _sections(study, move, shop, trial, str(key.root) if named else None, first)
        tried.append((sections, trial))
        if not trial.errors():
            break
    sections, trial = tried[-1] if not tried[-1][1].errors() else tried[0]
    if first or trial.errors():
        report.absorb(trial)
    if not first and trial.errors():
        report.add(
            music.CANNOT_MOVE,
            f"the study does not fit the neck on {key.root}",
            ("keys",),
            help="give the root an octave, leave it out, or write the block in degrees",
        )
    return sections


def _sections(
    study: Study, move: Interval | None, shop: Workshop, report: Report, key: str | None, first: bool = True
) -> list[Section]:
    silent = report if first else report.fork()
    frame = header_frame(study, move, silent)
    made: list[Section] = []
    pickup_due = True
    for index, block in enumerate(study.get("blocks", ())):
        at = ("blocks", index)
        if block["kind"] == "text":
            if first:
                made.append(_text_section(block, frame, report, index))
            continue
        own = changed(frame, block, at, silent)
        if "pickup" not in block and pickup_due:
            own = replace(own, pickup=frame.pickup)
        pickup_due = False
        title = block.get("name", "")
        if key is not None and own.scale is not None:
            title = f"{title} in {key if 'scale' not in block else own.scale.root.pitch_class} {own.scale.name}".strip()
        section = section_of(block, title, own, at, shop, report)
        made.append(section if first else replace(section, text=()))
    return made


def _text_section(block: Block, frame: Frame, report: Report, index: int) -> Section:
    return Section(
        title=block.get("name", ""),
        tuning=frame.tuning,
        capo=frame.capo,
        partial_capo=frame.partial_capo,
        fretting=frame.neck.fretting,
        scale=frame.scale,
        bars=(),
        text=tuple(block.get("lines", ())),
        span=report.origins.span(("blocks", index)),
    )


def _tempos_that_change(sections: list[Section]) -> list[Section]:
    """Every section begins with its tempo; where that is the one already in force it need not be said again.

    After a change of tempo, such as a ritardando, none is in force until one is said or the change is taken back.
    """
    made = []
    known: Tempo | None = None
    force: Tempo | None = None
    for section in sections:
        bars = section.bars
        said = bool(bars) and force is not None and bars[0].tempo == force
        made.append(replace(section, bars=(replace(bars[0], tempo=None), *bars[1:])) if said else section)
        for bar in bars:
            known = bar.tempo or known
            if bar.tempo is not None or bar.tempo_change is not None:
                force = known if bar.tempo_change in (None, "atempo") else None
    return made


def _repeats_of_their_own(sections: list[Section]) -> list[Section]:
    """A repeat goes back to its own block: where a block after the first says no ``|:`` before its ``:|``, its beginning has one.

    Readers of a score would else go back to the beginning of the piece, or to the last sign before.
    """
    made: list[Section] = []
    for section in sections:
        bars = section.bars
        signs = (sign for bar in bars for sign in (bar.left.repeat, bar.right.repeat) if sign)
        if any(each.bars for each in made) and next(signs, None) == "backward":
            bars = (replace(bars[0], left=replace(bars[0].left, repeat="forward")), *bars[1:])
        made.append(replace(section, bars=bars))
    return made


def _closed(sections: list[Section]) -> tuple[Section, ...]:
    """The last bar of the score gets the final bar line."""
    for index in range(len(sections) - 1, -1, -1):
        bars = sections[index].bars
        if bars:
            last: Bar = replace(bars[-1], right=replace(bars[-1].right, style="final"))
            sections[index] = replace(sections[index], bars=(*bars[:-1], last))
            break
    return tuple(sections)


def _divisions(study: Study, report: Report) -> int:
    """Ticks a quarter note: enough that every duration of the study is a whole number of them."""
    divisions = BASE_DIVISIONS
    counted = report.fork()
    for text in dict.fromkeys(_rhythms(study)):
        slots = rhythm_bar(text).slots
        if not counted.room_for(len(slots), ("blocks",)):  # each bar of rhythm is used, so its columns are the study's
            report.absorb(counted)
            return BASE_DIVISIONS
        for slot in slots:
            for piece in slot.pieces:
                denominator = Fraction(piece.quarters).denominator
                if divisions % denominator:
                    divisions = lcm(divisions, denominator)
                    if divisions > MAX_DIVISIONS:
                        report.add(
                            music.TOO_MUCH,
                            f"the tuplets of this study have no common division of the quarter note below {MAX_DIVISIONS:,}",
                            ("blocks",),
                            help="split the study",
                        )
                        return BASE_DIVISIONS
    return divisions


def _rhythms(study: Study) -> Iterator[str]:
    for block in study.get("blocks", ()):
        if "rhythm" in block:
            yield block["rhythm"]
        for system in block.get("systems", ()):
            yield from system.get("rhythm", ())
            if "voice2" in system:
                yield from system["voice2"].get("rhythm", ())
