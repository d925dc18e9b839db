"""What one bar of notes sounds like."""

from __future__ import annotations

from fractions import Fraction

from tabforge.performance import perform
from tabforge.performance.model import Sound
from tests.proof.scores import DIVISIONS, Item, one_bar

PLAIN = 80  # mezzo-forte, where a section begins


def played(*items: Item | list[Item], meter: str = "4/4") -> tuple[Sound, ...]:
    return perform(one_bar(*items, meter=meter)).sounds


def quarters(ticks: int) -> Fraction:
    return Fraction(ticks, DIVISIONS)


def cents(sound: Sound) -> list[float]:
    return [point.cents for point in sound.bend]
