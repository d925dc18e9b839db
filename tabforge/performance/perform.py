"""``perform``: a score as it is played."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from tabforge.model.events import NOTHING_ATTACHED, Event
from tabforge.model.score import Score
from tabforge.performance.loudness import Loudness, Said
from tabforge.performance.making import Making
from tabforge.performance.model import Performance, TextPoint
from tabforge.performance.practice import BACKING_LOUDNESS
from tabforge.performance.strings import sounded
from tabforge.performance.swing import Times, swung
from tabforge.performance.tempo import Beats, Pace, paces
from tabforge.performance.timeline import Played, clicks, meters, passages, played
from tabforge.performance.voice import Voice
from tabforge.performance.way import way_through

LINE = "line"
"""The part of a study's own voices."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayOptions:
    """What of a score is played. None: what the score says.

    ``sections`` are numbers of its sections, in order; ``tempo`` is a factor; ``backing``: with second parts or without; ``click``: with
    clicks throughout, or none; ``count_in``: bars of clicks before each section.
    """

    sections: tuple[int, ...] | None = None
    tempo: float = 1.0
    backing: bool | None = None
    click: bool | None = None
    count_in: int | None = None


AS_WRITTEN = PlayOptions()


def perform(score: Score, options: PlayOptions = AS_WRITTEN) -> Performance:
    """The score as it is played: repeats played out, every sound with its time, loudness and the way of its pitch.

    The same score and options give the same performance. A section that does not exist raises IndexError.
    """
    sections = score.sections
    chosen = range(len(sections)) if options.sections is None else options.sections
    way = way_through(sections, tuple(chosen))
    row = played(sections, way, score.divisions, options.count_in)
    pace = paces(sections)
    beats = Beats(score.divisions, options.tempo)
    timed: list[Times] = []
    for each in row:
        timed.append(swung(each.section.swing, each.bar, each.shift, score.divisions))
        now = pace[each.place]
        if each.count_in:
            beats.play(each.start - each.count_in, each.count_in, Pace(now.first, now.first))
        beats.play(each.start, each.bar.ticks, now, _fermatas(each))
    milliseconds = [pace[each.place].first * options.tempo * score.divisions / 60_000 for each in row]
    makings: list[Making] = []
    first: list[Said] = []
    for number in range(max((len(each.bar.voices) for each in row), default=0)):
        events = [_voice_of(each, number) for each in row]
        times = [time(bar) for time, bar in zip(timed, events, strict=True)]
        said = list(_said(row, events, times))
        first = first if number else said
        makings += _voice(LINE, score.divisions, row, events, times, milliseconds, said or first)
    if options.backing is not False:
        for kind in sorted({backing.kind for each in row for backing in each.section.backing}):
            events = [_backing_of(each, kind) for each in row]
            times = [time(bar) for time, bar in zip(timed, events, strict=True)]
            makings += _voice(kind, score.divisions, row, events, times, milliseconds, list(_said(row, events, times)))
    ticks = row[-1].start + row[-1].bar.ticks if row else 0
    texts = tuple(_texts(row))
    harmonies = sorted({*_changes(texts), *(each.start for each in row if each.fresh), ticks})
    return Performance(
        title=score.title,
        divisions=score.divisions,
        ticks=ticks,
        program=score.instrument.program,
        strings=max((len(each.section.tuning) for each in row), default=len(score.instrument.tuning)),
        sounds=tuple(sounded(makings, harmonies, score.divisions)),
        clicks=tuple(clicks(row, score.divisions, options.click)),
        tempos=tuple(beats.points),
        meters=tuple(meters(row, score.divisions)),
        texts=texts,
        passages=tuple(passages(row)),
        straight=way.straight,
    )


def _voice_of(each: Played, number: int) -> Sequence[Event]:
    return each.bar.voices[number] if number < len(each.bar.voices) else ()


def _backing_of(each: Played, kind: str) -> Sequence[Event]:
    return next((backing.bars[each.place.bar] for backing in each.section.backing if backing.kind == kind), ())


def _voice(
    part: str,
    divisions: int,
    row: Sequence[Played],
    events: Sequence[Sequence[Event]],
    times: Sequence[Sequence[tuple[int, int]]],
    milliseconds: Sequence[float],
    said: Sequence[Said],
) -> list[Making]:
    """The sounds of one voice of a part, as loud as ``said``. A voice without dynamics of its own follows the first."""
    voice = Voice(part, divisions, Loudness(said, [each.start for each in row if each.fresh]))
    for each, bar, when, millisecond in zip(row, events, times, milliseconds, strict=True):
        if each.fresh or not bar:
            voice.rest()
        voice.bar(bar, when, each.start, millisecond, each.section)
    if part != LINE:
        for sound in voice.sounds:
            sound.level *= BACKING_LOUDNESS
    return voice.sounds


def _said(row: Sequence[Played], events: Sequence[Sequence[Event]], times: Sequence[Sequence[tuple[int, int]]]) -> Iterator[Said]:
    for each, bar, when in zip(row, events, times, strict=True):
        for event, (begins, ends) in zip(bar, when, strict=True):
            attached = event.attached
            if attached is not NOTHING_ATTACHED and (attached.dynamic is not None or attached.hairpins):
                yield Said(each.start + begins, each.start + ends, attached)


def _fermatas(each: Played) -> list[tuple[int, int]]:
    """From where to where a bar's fermatas hold, in ticks from its beginning."""
    return [
        (event.onset, event.onset + event.ticks)
        for event in chain.from_iterable(each.bar.voices)
        if event.marks and any(mark.technique.name == "fermata" for mark in event.marks)
    ]


def _changes(texts: Sequence[TextPoint]) -> Iterator[int]:
    """Where another chord symbol than before stands."""
    last = ""
    for text in texts:
        if text.kind == "chord" and text.text != last:
            last = text.text
            yield text.tick


def _texts(row: Sequence[Played]) -> Iterator[TextPoint]:
    """Titles and rehearsal marks, chord symbols and words, in order."""
    section = -1
    for each in row:
        if each.place.section != section and each.section.title:
            yield TextPoint(each.start, each.section.title, "marker")
        section = each.place.section
        if each.bar.rehearsal:
            yield TextPoint(each.start, each.bar.rehearsal, "marker")
        hung = [event for event in chain.from_iterable(each.bar.voices) if event.attached is not NOTHING_ATTACHED]
        for event in sorted(hung, key=lambda event: event.onset):
            if event.attached.chord is not None:
                yield TextPoint(each.start + event.onset, event.attached.chord.text, "chord")
            if event.attached.word is not None:
                word = event.attached.word
                yield TextPoint(each.start + event.onset, word.text + "-" * word.hyphen, "lyric")
