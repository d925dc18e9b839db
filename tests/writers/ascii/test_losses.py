"""What plain text cannot hold is reported at its place, and nothing else is."""

from __future__ import annotations

import pytest

from tabforge.source import Span
from tabforge.writers.ascii import write
from tabforge.writers.loss import Loss
from tabforge.writers.options import WriteOptions
from tests.writers.ascii.build import bar, score, section, tempo
from tests.writers.ascii.studies import STUDIES


def losses(*bars: object, **more: object) -> tuple[Loss, ...]:
    return write(score(section("", *bars)), WriteOptions(**more))[1]  # type: ignore[arg-type]


@pytest.mark.parametrize("study", STUDIES, ids=lambda study: study.__name__)
def test_the_usual_studies_lose_nothing(study: object) -> None:
    found = write(study(), WriteOptions())[1]  # type: ignore[operator]
    assert [loss.what for loss in found] == (["shift slide"] if study.__name__ == "signal_fire" else [])  # type: ignore[attr-defined]


def test_shift_slides_are_told_by_the_legend_unless_legato_slides_stand_beside_them() -> None:
    assert losses(bar("h 1:5 ss", "h 1:7")) == ()
    assert losses(bar("h 1:5 sl", "h 1:7")) == ()
    both = losses(bar("q 1:5 sl", "q 1:7 ss", "h 1:9"))
    assert [(loss.span, loss.what) for loss in both] == [(Span(1, 2), "shift slide")]
    assert [loss.what for loss in losses(bar("h 1:5 ss", "h 1:7"), legend=False)] == ["shift slide"]


def test_a_slide_away_that_looks_like_a_slide_to_the_next_note() -> None:
    assert [(loss.span, loss.what) for loss in losses(bar("h 1:5 out/", "h 1:7"))] == [(Span(0, 1), "slide out upward")]
    assert losses(bar("h 1:5 out/", "h 2:7")) == ()
    assert losses(bar("q 1:5 out/", "q r", "h 1:7")) == ()


def test_crossing_voices() -> None:
    assert losses(bar("w 2:3", below=["w 3:0"])) == ()
    assert [(loss.span, loss.what) for loss in losses(bar("w 4:3", below=["w 3:0"]))] == [
        (Span(100, 101), "which note is in which voice, for the voices cross")
    ]


def test_two_voices_on_one_string() -> None:
    found = losses(bar("w 2:3", below=["w 2:5"]))
    assert [loss.what for loss in found] == ["the lower voice on string 2, which the upper voice uses too"]


def test_words_longer_than_a_line() -> None:
    found = losses(bar("w 1:1 w:" + "la" * 40), width=60)
    assert [loss.what for loss in found] == ["the end of a long word"]
    found = losses(bar("w 1:1"), bar("w 1:1", tempo=tempo(60, "q", "Slowly, " * 20)), width=60)
    assert [loss.what for loss in found] == ["the end of a long tempo"]


def test_letters_that_ascii_lacks() -> None:
    assert losses(bar("w 1:1 w:né")) == ()
    found = losses(bar("w 1:1 w:né"), ascii_only=True)
    assert found == (Loss(span=Span(0, 1), what="word “né”", how="written in ASCII as “ne”"),)
    assert losses(bar("w 1:1 c:F♯m7♭5"), ascii_only=True) == ()


def test_losses_come_in_the_order_of_their_places() -> None:
    found = losses(bar("q 1:1 w:né", "q 1:5 sl", "q 1:7 ss", "q 1:9 w:à"), ascii_only=True)
    assert [loss.span for loss in found] == sorted(loss.span for loss in found)
    assert len(found) == 3
