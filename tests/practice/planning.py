"""Studies to be planned, and how the tests make them into scores."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from tabforge.model.score import Score
from tabforge.pipeline import study_from

EXAMPLES: Final = sorted((Path(__file__).parents[2] / "examples").glob("*.riff"))

PLAIN: Final = """\
title    Slipway
scale    C3 major
tempo    {tempo}

riff "Climb"
  rhythm   q q q q
  degrees  1 2 3 4

riff "Fall"
  rhythm   q q q q | h h
  degrees  4 3 2 1 | 5 1
"""


def score_of(text: str) -> Score:
    outcome = study_from("slipway.riff", text.encode())
    assert outcome.score is not None, outcome.diagnostics
    return outcome.score


def plain(tempo: str = "96") -> Score:
    return score_of(PLAIN.format(tempo=tempo))


def example(path: Path) -> Score:
    return score_of(path.read_text(encoding="utf-8"))
