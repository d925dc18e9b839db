"""The grips of a chord block: chosen for the whole progression at once, so that each leads to the next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from tabforge.compile.frame import Frame
from tabforge.compile.progression import Change, ChordBar
from tabforge.compile.report import Report
from tabforge.diagnostics.catalogue import music
from tabforge.diagnostics.catalogue import neck as neck_codes
from tabforge.fretboard.gripped import Grip, NoGrip
from tabforge.fretboard.voicings import VOICING_KINDS, VoicingKind, VoicingStyle, choose_grips
from tabforge.model.harmony import ChordSymbol
from tabforge.syntax.document import Block, VoicingSetting
from tabforge.syntax.grammar import VOICINGS
from tabforge.syntax.origins import Pointer

KINDS: Final[dict[str, VoicingKind]] = dict(zip(VOICINGS, VOICING_KINDS, strict=True))
"""Voicings as they are written → as the fretboard knows them."""

DEFAULT: Final[VoicingSetting] = {"kind": "free"}

Grips = dict[int, Grip]
"""The identity of a change → its grip."""


def grips_of(block: Block, bars: Sequence[ChordBar], frame: Frame, at: Pointer, report: Report) -> Grips:
    """The grip of each change that has a chord. What cannot be had as it is asked for is reported, once for each chord."""
    style = _style(block.get("voicing", DEFAULT), frame, at, report)
    steps: list[tuple[ChordSymbol, list[tuple[ChordBar, Change]]]] = []
    for bar in bars:
        for change in bar.changes:
            if change.symbol is None or change.symbol.root is None:
                continue
            if steps and steps[-1][0] == change.symbol:
                steps[-1][1].append((bar, change))
            else:
                steps.append((change.symbol, [(bar, change)]))
    if style is None or not steps:
        return {}
    found: Grips = {}
    told: set[ChordSymbol] = set()
    for (symbol, places), grip in zip(steps, choose_grips(frame.neck, [symbol for symbol, _ in steps], style, frame.player), strict=True):
        for bar, change in places:
            if isinstance(grip, Grip):
                found[id(change)] = grip
            else:
                bar.broken = True
                if symbol not in told:
                    told.add(symbol)
                    _tell(symbol, grip, bar, change, style, report)
    return found


def _style(given: VoicingSetting, frame: Frame, at: Pointer, report: Report) -> VoicingStyle | None:
    strings = tuple(given.get("strings", ()))
    count = len(frame.tuning)
    missing = [string for string in strings if string > count]
    for string in missing:
        report.add(
            music.NO_SUCH_STRING,
            f"there is no string {string}: this tuning has {count} strings",
            (*at, "voicing"),
            expected=f"strings from 1 to {count}",
        )
    return None if missing else VoicingStyle(kind=KINDS[given["kind"]], strings=strings, inversion=given.get("inversion"))


def _tell(symbol: ChordSymbol, none: NoGrip, bar: ChordBar, change: Change, style: VoicingStyle, report: Report) -> None:
    kind = next(word for word, kind in KINDS.items() if kind == style.kind)
    report.add(
        neck_codes.NO_VOICING,
        f"{symbol.text} cannot be had in the voicing {kind}",
        bar.at,
        span=change.span,
        expected=None,
        help=" ".join(part for part in (none.why, none.instead) if part) or None,
    )


def shown(symbol: ChordSymbol, grip: Grip | None) -> ChordSymbol:
    """A chord's symbol with its grip as a chart, or without one."""
    return replace(symbol, shape=grip.shape if grip is not None else None)
