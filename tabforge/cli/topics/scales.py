"""Scales as topics: the table's, on any root, and one's own."""

from __future__ import annotations

from typing import Final

from tabforge.cli.topics import Entry, Topic
from tabforge.explaining.asked import scale_asked
from tabforge.theory.scale_table import SCALES


def _entries() -> list[Entry]:
    return [Entry(kind.name, kind.about) for kind in SCALES]


def _page(words: str) -> str | None:
    scale = scale_asked(words)
    if scale is None:
        return None
    from tabforge.explaining.scale_text import scale_text  # noqa: PLC0415
    from tabforge.explaining.scales import scale_facts  # noqa: PLC0415

    return scale_text(scale_facts(scale))


TOPICS: Final = (Topic(name="scales", about="scales; `explain Bb lydian` tells one on a root", entries=_entries, explain=_page),)
