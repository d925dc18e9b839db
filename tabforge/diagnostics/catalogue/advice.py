"""Advice: findings that do not keep a study from being exported."""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics.core import Code, Severity

PLAINER_ROOT: Final = Code(
    id="A501",
    severity=Severity.ADVICE,
    title="a plainer root sounds the same",
    explanation=(
        "Every note of a scale is spelled with the letter of its degree, so some roots need double sharps or "
        "flats, or a key signature that does not exist. G# lydian needs a C## and an F##; Ab lydian sounds the "
        "same with three flats. The scale is written as you asked for it; change its root if the page should be "
        "easier to read."
    ),
    wrong='scale G#2 lydian\n\nriff "Louvre window"\n  rhythm   q q q q\n  degrees  1 2 3 4\n',
    right='scale Ab2 lydian\n\nriff "Louvre window"\n  rhythm   q q q q\n  degrees  1 2 3 4\n',
)

ONE_FINGER_TWICE: Final = Code(
    id="A502",
    severity=Severity.ADVICE,
    title="one finger at two frets",
    explanation=(
        "A row of fingers gives one finger two frets of the same chord. A finger can lie across several strings (a barre), "
        "but only at one fret. Give the second note another finger."
    ),
    wrong='riff "Bench vice"\n  rhythm   w\n  frets    5:3+4:5+3:5\n  fingers  1+1+3\n',
    right='riff "Bench vice"\n  rhythm   w\n  frets    5:3+4:5+3:5\n  fingers  1+3+3\n',
)

NOT_IN_FORMAT: Final = Code(
    id="A550",
    severity=Severity.ADVICE,
    title="a format cannot show this",
    explanation=(
        "A study can say more than some formats can hold. What is left out of a file, or written in it in another "
        "way, is told for each format; the other exports are not concerned."
    ),
    wrong='riff "Bench vice"\n  rhythm   h    h\n  frets    5:3  5\n  marks    tr5  .\n',
    right='riff "Bench vice"\n  rhythm   h    h\n  frets    5:3  5\n  marks    tr2  .\n',
)
