"""Stored tabs, each read by a player before it was stored. ``--regen`` writes them again."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tabforge.model.score import Score
from tabforge.writers.ascii import write
from tabforge.writers.options import WriteOptions
from tests.writers.ascii.studies import STUDIES

GOLDEN = Path(__file__).parent / "golden"
WIDTHS = {"long_bar": 60}


@pytest.mark.parametrize("study", STUDIES, ids=lambda study: study.__name__)
def test_tab_is_as_stored(study: Callable[[], Score], regen: bool) -> None:
    name = study.__name__
    data, _ = write(study(), WriteOptions(width=WIDTHS.get(name, 80)))
    path = GOLDEN / f"{name}.txt"
    if regen:
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)
    assert data.decode() == path.read_text(encoding="utf-8")


def test_every_stored_tab_has_its_study() -> None:
    assert {path.stem for path in GOLDEN.iterdir()} == {study.__name__ for study in STUDIES}
    assert all(path.stat().st_size for path in GOLDEN.iterdir())
