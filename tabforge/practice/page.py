"""A practice plan as a page to print: one HTML file with all it needs, well-formed XML too, boxes to tick with a pencil."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape
from typing import Final

from tabforge.practice.model import BlockPlan, Day, Listening, Plan, Step
from tabforge.practice.sheet import CSS
from tabforge.practice.text import ALL_BLOCKS, about, climbing_of, every_day, heading, ladder_of, name_of, shared
from tabforge.practice.words import BREAK, CAUTIONS, LOOK_BACK, TRACKS, WARM_UP, in_pieces

MOST_BOXES: Final = 6
"""Boxes beside a rung; one that is played more often has a single one."""

_HEADS: Final = (
    '<th class="min" scope="col">min</th><th scope="col">what</th><th scope="col">rungs</th><th class="listen" scope="col">listen</th>'
)


def plan_page(plan: Plan) -> str:
    """The whole page. It needs no network, no script and no font; its text is that of ``plan_text``."""
    title = escape(plan.title or "A study without a title")
    body = "\n".join(_body(plan))
    return (
        '<!DOCTYPE html>\n<html lang="en" xmlns="http://www.w3.org/1999/xhtml">\n<head>\n<meta charset="utf-8"/>\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1"/>\n'
        f"<title>Practice plan: {title}</title>\n<style>{CSS}</style>\n</head>\n<body>\n<main>\n"
        f"<h1>{title}</h1>\n{body}\n</main>\n</body>\n</html>\n"
    )


def _body(plan: Plan) -> Iterator[str]:
    yield f'<p class="about">Practice plan. {escape(heading(plan))}</p>'
    if not plan.days:
        yield "<p>Nothing is played in this study.</p>"
        return
    yield f'<section class="care"><h2>Take care</h2>{_list(CAUTIONS)}</section>'
    yield f"<h2>How to climb</h2>{_list(climbing_of(plan))}"
    if len(plan.keys) > 1:
        yield f"<h2>Keys, in this order</h2><p>{escape(', '.join(plan.keys))}</p>"
    yield f"<h2>Every day</h2>{_pairs(every_day(plan))}"
    yield "<h2>Blocks and what to listen for</h2>"
    common = shared(plan.blocks)
    if common:
        yield f'<div class="block"><h3>{ALL_BLOCKS}</h3>{_pairs((point.about, point.text) for point in common)}</div>'
    for block in plan.blocks:
        yield _block(block, common)
    for number, day in enumerate(plan.days, 1):
        yield _day(plan, number, day)
    if plan.remarks:
        yield f"<h2>Notes</h2>{_list(plan.remarks)}"
    yield f"<h2>{escape(TRACKS.rstrip(':'))}</h2><p><code>{escape(plan.tracks)}</code></p>"


def _list(said: Iterable[str]) -> str:
    return f"<ul>{''.join(f'<li>{escape(each)}</li>' for each in said)}</ul>"


def _pairs(rows: Iterable[tuple[str, str]]) -> str:
    return f"<dl>{''.join(f'<dt>{escape(word)}</dt><dd>{escape(said)}</dd>' for word, said in rows)}</dl>"


def _block(block: BlockPlan, common: tuple[Listening, ...]) -> str:
    rows = [("ladder", ladder_of(block)), *([("pieces", in_pieces(block.piece))] if block.piece else [])]
    rows += [(point.about, point.text) for point in block.listen if point not in common]
    return f'<div class="block"><h3>{escape(block.name)} <small>{escape(about(block))}</small></h3>{_pairs(rows)}</div>'


def _day(plan: Plan, number: int, day: Day) -> str:
    rows = [_between(day.warm_up, WARM_UP)]
    for step in day.steps:
        rows.append(_step(plan, step))
        if step.pause:
            rows.append(_between(step.pause, BREAK))
    rows.append(_between(day.closing, LOOK_BACK, 'highest clean rungs: <span class="line" aria-hidden="true"></span>'))
    rows.append(f'<tr class="sum"><td class="min">{day.minutes}</td><th scope="row">in all</th><td></td><td class="listen"></td></tr>')
    body = "\n".join(rows)
    return f'<section class="day"><h2>Day {number}</h2><table><thead><tr>{_HEADS}</tr></thead><tbody>\n{body}\n</tbody></table></section>'


def _between(minutes: int, what: str, more: str = "") -> str:
    return f'<tr class="between"><td class="min">{minutes}</td><th scope="row">{what}</th><td>{more}</td><td class="listen"></td></tr>'


def _step(plan: Plan, step: Step) -> str:
    boxes = '<span class="box" aria-hidden="true"></span>' * (step.times if step.times <= MOST_BOXES else 1)
    rungs = " ".join(f'<span class="rung">{escape(str(rung))}{boxes}</span>' for rung in step.rungs)
    name, focus = escape(name_of(plan, step)), escape(step.focus.about)
    return f'<tr><td class="min">{step.minutes}</td><th scope="row">{name}</th><td>{rungs}</td><td class="listen">{focus}</td></tr>'
