"""Codes for reading the riff language."""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics.core import Code, Severity

_E: Final = Severity.ERROR


def _riff(rows: str, header: str = "scale C3 major", opening: str = 'riff "Sample"') -> str:
    return f"{header}\n\n{opening}\n" + "".join(f"  {row}\n" for row in rows.split("\n"))


def _run(lines: str) -> str:
    return 'scale G2 major\n\nrun "Sample"\n' + "".join(f"  {line}\n" for line in lines.split("\n"))


_PLAIN: Final = "rhythm   q q q q\ndegrees  1 2 3 5"
_GOOD: Final = _riff(_PLAIN)

UNKNOWN_WORD: Final = Code(
    id="T101", severity=_E, title="unknown word at the start of a line",
    explanation="Every line begins with a word that says what it is: a setting such as `scale`, the kind of a block, or a row such as `rhythm`. "
    "Small letters and capitals matter. The word stands alone, with a space behind it and no colon.",
    wrong=_riff("rhythm   q q q q\ndegree   1 2 3 5"), right=_GOOD,
)
WRONG_PLACE: Final = Code(
    id="T102", severity=_E, title="a line in the wrong place",
    explanation="Settings of the whole study stand in the header, above the first block. Rows belong to a riff; layout, path and the like belong to a run. "
    "In a riff the settings come first and the rows below them.",
    wrong=_riff(f"{_PLAIN}\npath     up"), right=_GOOD,
)
TWICE: Final = Code(
    id="T103", severity=_E, title="a setting given twice",
    explanation="A setting holds for its whole study or block, so it is given once in each. Lines of `text` may be repeated. For a change of meter or tempo on the way "
    "write a row of `meter` or `tempo` with a cell for each bar.",
    wrong=_riff(_PLAIN, "title Lantern Bay\ntitle Slack Water\nscale C3 major"), right=_riff(_PLAIN, "title Lantern Bay\nsubtitle Slack Water\nscale C3 major"),
)
AT_MARGIN: Final = Code(
    id="T104", severity=_E, title="a margin that does not fit",
    explanation="A block begins at the left margin; the lines that belong to it are indented, by how much does not matter. The margin shows where one block ends and the next begins.",
    wrong='scale C3 major\n\nriff "Sample"\nrhythm   q q q q\ndegrees  1 2 3 5\n', right=_GOOD,
)
BLOCK_NAME: Final = Code(
    id="T105", severity=_E, title="a block's name without quotes",
    explanation="The name of a block stands in quotes behind its kind, and nothing else stands on that line: riff \"Undertow\".",
    wrong=_riff(_PLAIN, opening="riff Undertow"), right=_riff(_PLAIN, opening='riff "Undertow"'),
)
UNCLOSED_QUOTE: Final = Code(
    id="T106", severity=_E, title="quotes that are not closed",
    explanation="What begins with a quotation mark ends with one on the same line.",
    wrong=_riff(f'{_PLAIN}\nwords    by the "long bay'), right=_riff(f'{_PLAIN}\nwords    by the "long bay" .'),
)
BAD_VALUE: Final = Code(
    id="T107", severity=_E, title="a value that its setting does not take",
    explanation="Each setting has its own kind of value; the language reference lists them. The message names what was expected and, where it can, the nearest right spelling.",
    wrong=_riff(_PLAIN, "meter 4:4\nscale C3 major"), right=_riff(_PLAIN, "meter 4/4\nscale C3 major"),
)
NO_VALUE: Final = Code(
    id="T108", severity=_E, title="a line without a value",
    explanation="A setting has its value behind its word, and a row of rhythm, degrees, frets or notes has cells. A setting that is not needed is left out with its line.",
    wrong=_riff(_PLAIN, "capo\nscale C3 major"), right=_riff(_PLAIN, "capo 0\nscale C3 major"),
)
BAD_CELL: Final = Code(
    id="T109", severity=_E, title="a cell that does not fit its row",
    explanation="Each row holds one kind of cell: durations in `rhythm`, techniques in `marks`, and so on. Cells stand with spaces between. "
    "Durations are letters (`e` for an eighth), not numbers; degrees have their sign before them (`b3`).",
    wrong=_riff("rhythm   q q 8 e q\ndegrees  1 2 3 4 5"), right=_riff("rhythm   q q e e q\ndegrees  1 2 3 4 5"),
)
BAD_REPEAT: Final = Code(
    id="T110", severity=_E, title="a repeat count that cannot be",
    explanation="A cell, a group or a repeated bar is followed by `*` and a whole number from 1 to 999, all without spaces: `5*4`, `(1 3)*2`, `%*3`.",
    wrong=_riff("rhythm   q*4\ndegrees  1*0 2 3 5"), right=_riff("rhythm   q*4\ndegrees  1*1 2 3 5"),
)
PARENTHESES: Final = Code(
    id="T111", severity=_E, title="parentheses that do not match",
    explanation="A group is opened and closed in the same bar, has something in it, and is parted from its neighbours by spaces: `1 (3 5)*2 1`.",
    wrong=_riff("rhythm   q*4\ndegrees  (1 5*2 3"), right=_riff("rhythm   q*4\ndegrees  (1 5)*2"),
)
BAD_TUPLET: Final = Code(
    id="T112", severity=_E, title="a tuplet that cannot be written",
    explanation="A tuplet stands in the rhythm: its number, or its ratio, and its durations in parentheses: `3(e e e)`, `5:4(s s s s s)`. The numbers go up to 32. "
    "In the other rows its notes are written like any others.",
    wrong=_riff("rhythm   3(q q q) h\ndegrees  3(1 2 3) 5"), right=_riff("rhythm   3(q q q) h\ndegrees  1 2 3 5"),
)
BAR_IN_GROUP: Final = Code(
    id="T113", severity=_E, title="a bar line inside a group",
    explanation="A group belongs to one bar. Close it before the bar line and open another after it; a whole bar is repeated with `%`.",
    wrong=_riff("rhythm   h h\ndegrees  (1 2 | 3 5)*1"), right=_riff("rhythm   h h\ndegrees  (1 2)*1 | (3 5)*1"),
)
BAD_SIGN: Final = Code(
    id="T114", severity=_E, title="an unknown bar line",
    explanation="Bar lines are `|`, `||`, `|:`, `:|`, `:|*3` (played three times) and `:|:`. An ending begins with `[1` directly behind its bar line, then a space: `|[1`, `:|[2`.",
    wrong=_riff("rhythm   w\ndegrees  ||: 1 | 5 :|"), right=_riff("rhythm   w\ndegrees  |: 1 | 5 :|"),
)
BARS_DISAGREE: Final = Code(
    id="T115", severity=_E, title="rows with different numbers of bars",
    explanation="The rows of a system stand under one another bar by bar. A rhythm may be shorter, and is then begun again; a row of marks, fingers, picks or words may stop early; "
    "no row is longer than the one that sounds, and a second voice has as many bars as the first.",
    wrong=_riff("rhythm   h h\ndegrees  1 2 | 3 5\nmarks    . . | . . | . ."), right=_riff("rhythm   h h\ndegrees  1 2 | 3 5\nmarks    . . | . ."),
)
SIGNS_DISAGREE: Final = Code(
    id="T116", severity=_E, title="bar lines that contradict one another",
    explanation="A special bar line need stand in one row only; the others may have a plain `|` in its place, but not a different sign.",
    wrong=_riff("rhythm   |: w | w :|\ndegrees  |: 1 | 5 ||"), right=_riff("rhythm   |: w | w :|\ndegrees  |: 1 | 5 |"),
)
TWO_ROWS_SOUND: Final = Code(
    id="T117", severity=_E, title="two rows that say what sounds",
    explanation="A system says what sounds in one way: as degrees, as frets or as notes. A second voice stands below the line `voice 2`; a new system begins after a blank line.",
    wrong=_riff("rhythm   h h\ndegrees  1 2\nnotes    C3 D3"), right=_riff("rhythm   h h\ndegrees  1 2\n\nnotes    C3 D3"),
)
NO_ROW_SOUNDS: Final = Code(
    id="T118", severity=_E, title="nothing sounds",
    explanation="Every system of a riff has a row of degrees, frets or notes, every one of a chord block a row of progression. Rows that belong together stand directly under one another: a blank line begins a new system.",
    wrong=_riff("rhythm   h h\n\ndegrees  1 2"), right=_riff("rhythm   h h\ndegrees  1 2"),
)
EMPTY_BAR: Final = Code(
    id="T119", severity=_E, title="an empty bar",
    explanation="In the rhythm and in the row that sounds every bar has cells; a silent bar has a rest `r`. A double bar line is written `||`, without a space.",
    wrong=_riff("rhythm   w\ndegrees  1 | | 5"), right=_riff("rhythm   w\ndegrees  1 | r | 5"),
)
REPEATED_BAR: Final = Code(
    id="T120", severity=_E, title="a repeated bar that is not alone",
    explanation="`%` is the whole bar before again, so it stands alone between bar lines. A cell is repeated with a count (`5*4`), and so is a group (`(1 3)*2`).",
    wrong=_riff("rhythm   h h\ndegrees  1 2 | % 5"), right=_riff("rhythm   h h\ndegrees  1 2 | %"),
)
BAD_VOICE: Final = Code(
    id="T121", severity=_E, title="a second voice that cannot be",
    explanation="The line `voice 2` stands directly below the rows of its system, without a blank line; the rows after it are the lower voice. "
    "Meter, tempo and chords stand with the first voice.",
    wrong=_riff("rhythm   h h\ndegrees  8 9\n\nvoice 2\nrhythm   w\ndegrees  1"), right=_riff("rhythm   h h\ndegrees  8 9\nvoice 2\nrhythm   w\ndegrees  1"),
)
LIMIT: Final = Code(
    id="T122", severity=_E, title="beyond a limit",
    explanation="A study is at most 8 MiB and 250,000 lines long, and tuplets are three deep. The message says which limit was met. Split what is larger.",
    wrong=_riff("rhythm   3(3(3(3(e e e)*3)*3)*3) q q q\ndegrees  1*81 2 3 5"), right=_riff("rhythm   3(3(e e e) q q) h\ndegrees  1*5 2"),
)
AT_ODDS: Final = Code(
    id="T123", severity=_E, title="lines that exclude each other",
    explanation="A run ends at a degree (`to`) or after a number of octaves (`octaves`), a layout begins at a fret or on a degree, and chords are strummed (`strum`) or picked "
    "(`picking`): say one of the two.",
    wrong=_run("layout   3 per string from string 6\noctaves  1\nto       8"), right=_run("layout   3 per string from string 6\nto       8"),
)
NO_ROWS: Final = Code(
    id="T124", severity=_E, title="a riff or a chord block without rows",
    explanation="A riff has at least one row that says what sounds, and a rhythm; a chord block has a `progression`. They stand indented below its name.",
    wrong='scale C3 major\n\nriff "Sample"\n', right=_GOOD,
)
