"""What indexes, headings and the glossary of signs need to know of a study."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from tabforge.book.model import Facts
from tabforge.model.meter import Tempo
from tabforge.model.score import Scale, Score, Section
from tabforge.model.techniques import Mark
from tabforge.theory.scale_table import find_kind

_DOTS: Final = ("", "dotted ", "double dotted ")


def facts_of(score: Score, sections: Iterable[Section], level: str | None) -> Facts:
    """What is said of the sections of a study that are printed."""
    played = [section for section in sections if section.bars]
    scales = list(_scales(played))
    tempos = [bar.tempo for section in played for bar in section.bars if bar.tempo is not None]
    first = played[0] if played else None
    tuning = first.tuning if first else score.instrument.tuning
    return Facts(
        instrument=score.instrument.label,
        tuning=f"{tuning.name} ({tuning})" if tuning.name else str(tuning),
        key=_titled(scales[0]) if scales else None,
        tempo=tempo_words(tempos[0]) if tempos else None,
        meter=str(first.bars[0].meter) if first else None,
        level=level,
        scales=tuple(dict.fromkeys(_canonical(scale) for scale in scales)),
        techniques=tuple(dict.fromkeys(mark.technique.name for mark in _marks(played))),
    )


def tempo_words(tempo: Tempo) -> str:
    """A tempo as it is said: ``quarter note = 96``."""
    said = f"{_DOTS[tempo.dots]}{tempo.beat.spoken} = {tempo.bpm:.6g}"
    return f"{tempo.words}, {said}" if tempo.words else said


def _canonical(scale: Scale) -> str:
    """The name under which an index has a scale, whichever of its names the study says."""
    kind = find_kind(scale.name)
    return kind.name if kind else scale.name


def _titled(scale: Scale) -> str:
    return f"{scale.root.pitch_class} {scale.name}"


def _scales(sections: Iterable[Section]) -> Iterator[Scale]:
    for section in sections:
        if section.scale is not None:
            yield section.scale
        yield from (bar.scale for bar in section.bars if bar.scale is not None)


def _marks(sections: Iterable[Section]) -> Iterator[Mark]:
    for section in sections:
        for bar in section.bars:
            for voice in bar.voices:
                for event in voice:
                    yield from event.marks
                    for note in event.notes:
                        yield from note.marks
