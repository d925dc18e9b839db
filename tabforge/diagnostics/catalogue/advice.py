"""Advice: findings that do not keep a study from being exported."""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics.core import Code, Severity

PLAINER_ROOT: Final = Code(
    id="A501",
    severity=Severity.ADVICE,
    title="A plainer root sounds the same",
    explanation=(
        "Every note of a scale is spelled with the letter of its degree, so some roots need double sharps or "
        "flats, or a key signature that does not exist. G# lydian needs a C## and an F##; Ab lydian sounds the "
        "same with three flats. The scale is written as you asked for it; change its root if the page should be "
        "easier to read."
    ),
    wrong='scale G#2 lydian\n\nriff "Louvre window"\n  rhythm   q q q q\n  degrees  1 2 3 4\n',
    right='scale Ab2 lydian\n\nriff "Louvre window"\n  rhythm   q q q q\n  degrees  1 2 3 4\n',
)
