"""Codes for placing notes on the neck."""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics.core import Code, Severity

OFF_THE_NECK: Final = Code(
    id="N401",
    severity=Severity.ERROR,
    title="a pitch the neck does not have",
    explanation="The instrument, as it is tuned, has no place for this pitch: it is lower than the lowest open string, or higher than "
    "the last fret of every string.",
    wrong="""scale  E2 major
riff
  rhythm   q q h
  notes    E2 F#2 D2
""",
    right="""scale  E2 major
riff
  rhythm   q q h
  notes    E2 F#2 G#2
""",
)
