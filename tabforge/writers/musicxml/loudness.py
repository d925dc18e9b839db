"""Dynamics and hairpins of an event."""

from __future__ import annotations

from tabforge.model.events import Attached, Hairpin
from tabforge.writers.musicxml.ink import Ink

_BELOW = "below"


def write_loudness(ink: Ink, attached: Attached) -> None:
    """A dynamic below the staff, and the ends of hairpins: what ends here first, then the dynamic, then what begins."""
    if any(not (hairpin.begins or hairpin.through) for hairpin in attached.hairpins):
        ink.before += _stop(ink)
    if attached.dynamic is not None:
        ink.before += ink.direction(f"<dynamics><{attached.dynamic}/></dynamics>", place=_BELOW)
    for hairpin in attached.hairpins:
        if hairpin.begins:
            ink.before += _start(ink, hairpin)
        elif hairpin.through:
            ink.after += _stop(ink)


def _key(ink: Ink) -> tuple[int, str]:
    return (ink.voice, "hairpin")


def _start(ink: Ink, hairpin: Hairpin) -> str:
    number = ink.numbers.start("wedge", _key(ink), "hairpin", ink.event.span)
    if number is None:
        ink.lose("hairpin", "left out: the one before it has no end")
        return ""
    return ink.direction(f'<wedge type="{hairpin.kind}" number="{number}"/>', place=_BELOW)


def _stop(ink: Ink) -> str:
    number = ink.numbers.stop("wedge", _key(ink))
    if number is None:
        ink.lose("hairpin", "left out: it has no beginning")
        return ""
    return ink.direction(f'<wedge type="stop" number="{number}"/>', place=_BELOW)
