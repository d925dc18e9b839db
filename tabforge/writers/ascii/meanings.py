"""What the signs that are no techniques mean, for the legend: feature of the tab, its sign, its meaning.

The terms are those of any dictionary of music (common practice, from memory).
"""

from __future__ import annotations

from typing import Final

from tabforge.model.events import DYNAMICS
from tabforge.model.meter import TEMPO_CHANGES
from tabforge.writers.ascii.way import WORDS

Meaning = tuple[str, str, str]

_WAY: Final = {
    "segno": "the sign that D.S. goes back to",
    "coda": "the closing part: To Coda leads here",
    "tocoda": "when told al Coda, leave here for (coda)",
    "fine": "the end, when told al Fine",
    "dc": "back to the beginning",
    "ds": "back to (segno)",
    "dcfine": "back to the beginning, and on to Fine",
    "dsfine": "back to (segno), and on to Fine",
    "dccoda": "back to the beginning, on to To Coda, then to (coda)",
    "dscoda": "back to (segno), on to To Coda, then to (coda)",
}
_DYNAMICS: Final = {
    "pppp": "as softly as can be",
    "ppp": "extremely softly",
    "pp": "very softly",
    "p": "softly",
    "mp": "moderately softly",
    "mf": "moderately loudly",
    "f": "loudly",
    "ff": "very loudly",
    "fff": "extremely loudly",
    "ffff": "as loudly as can be",
    "fp": "loudly, then at once softly",
    "pf": "softly, then at once loudly",
    "fz": "with force",
    "sf": "with sudden force",
    "sfz": "with sudden force",
    "sffz": "with very great sudden force",
    "sfp": "with sudden force, then at once softly",
    "rf": "with more force",
    "rfz": "with more force",
}
_TEMPO: Final = {
    "rit": "slower little by little",
    "rall": "slower little by little",
    "accel": "faster little by little",
    "atempo": "in the tempo of before",
}

WAY_MEANS: Final[tuple[Meaning, ...]] = (
    ("rehearsal", "[A]", "a letter or a word in brackets above a bar: a place to start from"),
    *((f"sign {sign}", word, _WAY[sign]) for sign, word in WORDS.items()),
)
TEMPO_MEANS: Final[tuple[Meaning, ...]] = tuple((f"tempo {change}", word, _TEMPO[change]) for change, word in TEMPO_CHANGES.items())
DYNAMICS_MEAN: Final[tuple[Meaning, ...]] = tuple((f"dynamic {sign}", sign, _DYNAMICS[sign]) for sign in DYNAMICS)
HAIRPINS_MEAN: Final[tuple[Meaning, ...]] = (
    ("crescendo", "<---", "crescendo: louder little by little"),
    ("diminuendo", ">---", "diminuendo: softer little by little"),
)
CHARTS: Final[tuple[Meaning, ...]] = (
    ("chart", "x o *", "chord chart: a string that is not played, an open one, a finger"),
    ("chart right", "| | |", "the strings of a chart, string 1 at the right"),
    ("chart left", "| | |", "the strings of a chart for the left hand, string 1 at the left"),
    ("chart nut", "===", "the nut"),
    ("chart fret", "5fr", "the chart begins at this fret, not at the nut"),
    ("chart", "x32010", "a chart in short: frets from the last string to string 1"),
)
