"""The blocks of a study, each with the keys it is written in, its beat, its ladder and how long it lasts."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from tabforge.explaining.scales import title
from tabforge.model.meter import Tempo
from tabforge.model.score import Scale, Score, Section
from tabforge.performance.tempo import paces
from tabforge.performance.way import way_through
from tabforge.practice.model import Rung

WHOLE_BARS: Final = 6
"""The longest block, in bars, that is learnt as a whole; a longer one is learnt PIECE bars at a time (common practice, no source)."""

PIECE: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayedBlock:
    """A block that plays. ``sections`` are its sections, one for each key it is written in; ``tempo`` that in force where it begins.

    ``number`` is that of its first section among those that play, counted from 1. ``seconds`` is how long it lasts, repeats played, at the
    written tempo; without one at PLAIN_TEMPO of ``performance.practice``.
    """

    name: str
    number: int
    sections: tuple[Section, ...]
    tempo: Tempo | None
    seconds: float

    @property
    def first(self) -> Section:
        """The block in its first key."""
        return self.sections[0]

    @property
    def scale(self) -> Scale | None:
        """Its scale in its first key."""
        return self.first.scale

    @property
    def piece(self) -> int | None:
        """How many bars are learnt at a time, None for all."""
        return PIECE if len(self.first.bars) > WHOLE_BARS else None


def _plain_name(section: Section) -> str:
    """A block's name without the key that is added to it where it is written in several."""
    return section.title.removesuffix(f"in {title(section.scale)}").strip() if section.scale else section.title


def blocks_of(score: Score) -> tuple[PlayedBlock, ...]:
    """The blocks that play, in order; those without a name are called ``block 2``."""
    pace = paces(score.sections)
    tempo: Tempo | None = None
    found: dict[object, list[int]] = {}
    tempos: dict[int, Tempo | None] = {}
    for number, section in enumerate(score.sections):
        if not section.bars:
            continue
        found.setdefault(section.span, []).append(number)
        tempos[number] = section.bars[0].tempo or tempo
        for bar in section.bars:
            tempo = bar.tempo or tempo
    several = {span for span, numbers in found.items() if len(numbers) > 1}
    playing = list(tempos)
    made = []
    for at, (span, numbers) in enumerate(found.items(), 1):
        sections = tuple(score.sections[number] for number in numbers)
        way = way_through(score.sections, (numbers[0],))
        seconds = 0.0
        for place in way.places:
            bar, now = score.sections[place.section].bars[place.bar], pace[place]
            seconds += bar.ticks / score.divisions * 120 / (now.first + now.last)
        name = _plain_name(sections[0]) if span in several else sections[0].title
        made.append(
            PlayedBlock(
                name=name or f"block {at}",
                number=playing.index(numbers[0]) + 1,
                sections=sections,
                tempo=tempos[numbers[0]],
                seconds=seconds,
            )
        )
    return _told_apart(made)


def _told_apart(blocks: Sequence[PlayedBlock]) -> tuple[PlayedBlock, ...]:
    """Blocks whose names are all different: one whose name comes again has its number beside it."""
    often = Counter(block.name for block in blocks)
    return tuple(
        block if often[block.name] == 1 else replace(block, name=f"{block.name} ({number})") for number, block in enumerate(blocks, 1)
    )


def beat_of(tempo: Tempo | None) -> str | None:
    """What a metronome's figures count: ``quarter notes a minute``, ``dotted quarter notes a minute``."""
    if tempo is None:
        return None
    dots = ("", "dotted ", "double-dotted ")[tempo.dots]
    return f"{dots}{tempo.beat.spoken}s a minute"


def figure(bpm: float, percent: float) -> int:
    """Percents of a tempo as a whole number of beats a minute, at least one: halves are rounded up."""
    return max(1, math.floor(bpm * percent / 100 + 0.5))


def rungs_of(tempo: Tempo | None, ladder: Sequence[float]) -> tuple[Rung, ...]:
    """The rungs of a ladder on a tempo; of neighbours that come out at the same figure the first stays."""
    if tempo is None:
        return tuple(Rung(percent, None) for percent in ladder)
    rungs: list[Rung] = []
    for percent in ladder:
        rung = Rung(percent, figure(tempo.bpm, percent))
        if not rungs or rungs[-1].figure != rung.figure:
            rungs.append(rung)
    return tuple(rungs)


def ladder_text(ladder: Sequence[float]) -> str:
    """A ladder as ``performance.ladder.read_ladder`` reads it, with equal steps as one."""
    steps = {round(high - low, 3) for low, high in pairwise(ladder)}
    if len(ladder) > 2 and len(steps) == 1 and (step := steps.pop()):
        return f"{ladder[0]:g}..{ladder[-1]:g}/{abs(step):g}"
    return ",".join(f"{percent:g}" for percent in ladder)
