"""A practice plan as text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tabforge.diagnostics.render_text import counted
from tabforge.explaining.layout import entries, kept, table, wrapped
from tabforge.practice.lines import rungs_text
from tabforge.practice.model import BlockPlan, Day, Listening, Plan, Step
from tabforge.practice.words import BREAK, CAUTIONS, EVERY_DAY, LOOK_BACK, NO_TEMPO, TRACKS, WARM_UP, climbing, in_pieces, resting

ALL_BLOCKS: Final = "In every block"


def plan_text(plan: Plan) -> str:
    """The plan, at most ``explaining.layout.WIDTH`` characters wide, without a line break at its end."""
    return "\n".join(_lines(plan))


def heading(plan: Plan) -> str:
    """How much of it there is, and what it is played on."""
    days, minutes = counted(plan.options.days, "day", "days"), plan.options.minutes
    return f"{days} of {minutes} minutes. {plan.instrument}, tuned {plan.tuning}"


def _lines(plan: Plan) -> Iterator[str]:
    yield f"Practice plan: {plan.title or 'a study without a title'}"
    yield heading(plan)
    if not plan.days:
        yield ""
        yield "  Nothing is played in this study."
        return
    yield from _listed("Take care", CAUTIONS)
    yield from _listed("How to climb", climbing_of(plan))
    if len(plan.keys) > 1:
        yield from ("", "Keys, in this order")
        yield from wrapped(", ".join(map(kept, plan.keys)), "  ", "  ")
    yield from ("", "Every day", *entries(every_day(plan)))
    yield from ("", "Blocks and what to listen for")
    common = shared(plan.blocks)
    if common:
        yield from ("", f"  {ALL_BLOCKS}", *entries([(point.about, point.text) for point in common], indent=4, width=9))
    for block in plan.blocks:
        yield from ("", *_block(block, common))
    for number, day in enumerate(plan.days, 1):
        yield from ("", f"Day {number}", *_day(plan, day))
    if plan.remarks:
        yield from _listed("Notes", plan.remarks)
    yield from ("", TRACKS, f"  {plan.tracks}")


def _listed(head: str, said: tuple[str, ...]) -> Iterator[str]:
    yield from ("", head)
    for each in said:
        yield from wrapped(each, "  - ", "    ")


def about(block: BlockPlan) -> str:
    """What a block is: ``4 bars, Bb lydian``."""
    return ", ".join([counted(block.bars, "bar", "bars"), *([block.scale] if block.scale else [])])


def ladder_of(block: BlockPlan) -> str:
    """A block's ladder, or what to do without a tempo."""
    said = rungs_text(block.rungs, block.beat)
    return said if block.beat else f"{NO_TEMPO}; then {said}"


def climbing_of(plan: Plan) -> tuple[str, ...]:
    """How its ladders are climbed."""
    return *climbing(plan.options.times), resting(plan.days[0].steps[0].rest)


def every_day(plan: Plan) -> list[tuple[str, str]]:
    """What its days have besides their steps; short days have no break."""
    breaks = any(step.pause for day in plan.days for step in day.steps)
    return [(word, said) for word, said in EVERY_DAY if breaks or word != BREAK]


def shared(blocks: Sequence[BlockPlan]) -> tuple[Listening, ...]:
    """What is to be listened for in every one of several blocks: it is said once."""
    return tuple(point for point in blocks[0].listen if all(point in block.listen for block in blocks)) if len(blocks) > 1 else ()


def _block(block: BlockPlan, common: Sequence[Listening]) -> list[str]:
    rows = [("ladder", ladder_of(block)), ("pieces", in_pieces(block.piece) if block.piece else "")]
    rows += [(point.about, point.text) for point in block.listen if point not in common]
    return [f"  {block.name}  ({about(block)})", *entries(rows, indent=4, width=9)]


def name_of(plan: Plan, step: Step) -> str:
    """The block of a step, with its key where there are several."""
    name = plan.blocks[step.block].name
    return f"{name} in {step.key}" if step.key and len(plan.keys) > 1 else name


def rungs_of_step(step: Step) -> str:
    """The rungs of a step, in turn."""
    return ", ".join(map(str, step.rungs))


def _day(plan: Plan, day: Day) -> list[str]:
    rows = [(day.warm_up, WARM_UP, "", "")]
    for step in day.steps:
        rows.append((step.minutes, name_of(plan, step), rungs_of_step(step), step.focus.about))
        if step.pause:
            rows.append((step.pause, BREAK, "", ""))
    rows.append((day.closing, LOOK_BACK, "", ""))
    said = [("min", "", "rungs", "listen"), *((f"{minutes:>3}", *more) for minutes, *more in rows), (f"{day.minutes:>3}", "in all", "", "")]
    return table(said)
