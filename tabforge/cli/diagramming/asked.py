"""What ``tabforge diagram`` is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final, Literal

from tabforge.diagrams.naming import Labels

CHORD: Final = "chord"
"""The word before a chord symbol."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the command line asks for; None where it does not say."""

    what: tuple[str, ...]
    form: Literal["text", "svg"] | None
    into: Path | None
    labels: Labels | None
    frets: str | None
    left: bool | None
    layout: str | None
    tones: str | None
    shape: str | None
    voicing: str | None
    strings: str | None
    inversion: int | None
    grips: int | None
    fingers: str | None
    instrument: str | None
    tuning: str | None
    capo: str | None
    width: int | None
    bare: bool
    quiet: bool
