"""``plan_of``: from a study to a plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from shlex import quote
from typing import Final

from tabforge.explaining.layout import listed
from tabforge.explaining.scales import title
from tabforge.model.score import Score
from tabforge.practice.blocks import PlayedBlock, beat_of, blocks_of, ladder_text, rungs_of
from tabforge.practice.days import frame_of
from tabforge.practice.keys import key_at, turns
from tabforge.practice.listening import listening_of
from tabforge.practice.model import BlockPlan, Plan, PlanOptions
from tabforge.practice.schedule import Pair, fitting, schedule
from tabforge.practice.words import GOING_ON, LESS, NO_SCALE, UNWRITTEN

_MOST_NAMES: Final = 3


def plan_of(score: Score, options: PlanOptions | None = None) -> Plan:
    """A plan for a study, or for some of its blocks. A study in which nothing is played has a plan without days.

    Every day lasts ``options.minutes`` exactly. The same score and options give the same plan.
    """
    options = options or PlanOptions()
    played = blocks_of(score)
    chosen = [block for number, block in enumerate(played) if options.blocks is None or number in options.blocks]
    blocks = tuple(_block(score, block, options) for block in chosen)
    frame = frame_of(options.minutes)
    keys = list(_keys(chosen, options))
    pairs = fitting(keys, frame, options.days)
    days, unreached = schedule(blocks, pairs, frame, options) if pairs else ((), ())
    return Plan(
        title=score.title,
        instrument=score.instrument.label,
        tuning=str(chosen[0].first.tuning if chosen else score.instrument.tuning),
        options=options,
        keys=tuple(dict.fromkeys(pair.key for pair in pairs if pair.key)),
        blocks=blocks,
        days=days,
        remarks=tuple(_remarks(chosen, keys, pairs, unreached, options)),
        tracks=_tracks(options, chosen, len(played)),
    )


def _block(score: Score, block: PlayedBlock, options: PlanOptions) -> BlockPlan:
    return BlockPlan(
        name=block.name,
        bars=len(block.first.bars),
        scale=title(block.scale) if block.scale else None,
        beat=beat_of(block.tempo),
        rungs=rungs_of(block.tempo, options.ladder),
        seconds=block.seconds,
        piece=block.piece,
        listen=listening_of(score, block.first),
    )


def _keys(blocks: Sequence[PlayedBlock], options: PlanOptions) -> Iterator[list[Pair]]:
    """Key by key, the blocks that are practised in it. A block without a scale has no other key than that it is written in."""
    if options.keys == "as written":
        for at in range(max((len(block.sections) for block in blocks), default=0)):
            scales = [(number, block.sections[at].scale) for number, block in enumerate(blocks) if at < len(block.sections)]
            yield [Pair(number, title(scale) if scale else None) for number, scale in scales]
        return
    for at, turn in enumerate(turns(options.keys, options.seed)):
        row = [
            Pair(number, key_at(block.scale, turn) if block.scale else None)
            for number, block in enumerate(blocks)
            if block.scale or at == 0
        ]
        if row:
            yield row


def _remarks(
    blocks: Sequence[PlayedBlock], keys: Sequence[Sequence[Pair]], pairs: Sequence[Pair], unreached: Sequence[Pair], options: PlanOptions
) -> Iterator[str]:
    if options.keys != "as written":
        still = [block.name for block in blocks if block.scale is None]
        if still:
            yield NO_SCALE.format(blocks=listed(still))
        written = {title(section.scale) for block in blocks for section in block.sections if section.scale}
        if any(pair.key and pair.key not in written for pair in pairs):
            yield UNWRITTEN
    if len(pairs) < sum(map(len, keys)):
        yield LESS
    if unreached:
        names = [f"{blocks[pair.block].name}{f' ({pair.key})' if pair.key and len(keys) > 1 else ''}" for pair in unreached]
        more = len(names) - _MOST_NAMES
        yield GOING_ON.format(blocks=listed(names) if more <= 0 else f"{', '.join(names[:_MOST_NAMES])} and {more} more")


def _tracks(options: PlanOptions, chosen: Sequence[PlayedBlock], played: int) -> str:
    words = ["tabforge tracks", quote(options.file)]
    if len(chosen) == 1 and played > 1:
        words += ["--block", quote(chosen[0].first.title or str(chosen[0].number))]
    words += ["--ladder", ladder_text(options.ladder), "--times", str(options.times), "--click"]
    return " ".join(words)
