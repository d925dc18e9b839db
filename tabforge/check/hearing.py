"""Whether what is named is heard: the scale's own notes, its characteristic tones, its root."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.view import View
from tabforge.diagnostics.catalogue import advice as codes
from tabforge.diagnostics.core import Diagnostic
from tabforge.model.score import Scale, Section
from tabforge.syntax.origins import Pointer, written
from tabforge.theory.modes import is_symmetric
from tabforge.theory.scale_table import find_kind
from tabforge.theory.traits import colour_of

ENOUGH: Final = 8
"""With fewer notes than these nothing is said of what they leave out."""

SHARE: Final = 3
"""One note in so many outside the scale, or fewer, is common; more speak against the scale."""

_BARS: Final = 2


def _name(scale: Scale) -> str:
    return f"{scale.root.pitch_class} {scale.name}"


def scales_that_do_not_fit(view: View) -> Iterator[Diagnostic]:
    """Blocks with more than one note in three outside the scale: once for each, whatever the notes."""
    for section, pointer, heard in view.heard:
        for stretch in heard:
            scale = stretch.scale
            if scale is None or stretch.total < ENOUGH:
                continue
            if stretch.outside * SHARE > stretch.total:
                yield Diagnostic(
                    code=codes.OUTSIDE_SCALE,
                    headline=f"{stretch.outside} of the {stretch.total} notes of {_block(section)} lie outside {_name(scale)}",
                    span=section.span,
                    help=f"{_name(scale)} is {' '.join(map(str, scale.tones))}; if another scale is meant, say it",
                    pointer=written(pointer),
                )


def _block(section: Section) -> str:
    return f"“{section.title}”" if section.title else "this block"


def colours_unheard(view: View) -> Iterator[Diagnostic]:
    """Scales of the table none of whose characteristic tones is heard where they were said: a header's in all blocks that take it."""
    where: dict[Pointer, tuple[Scale, dict[int, int]]] = {}
    for _, pointer, heard in view.heard:
        if heard and heard[0].scale is not None:
            at = view.scale_of(pointer)
            _, counts = where.setdefault(at, (heard[0].scale, {}))
            for sound, times in heard[0].struck.items():
                counts[sound] = counts.get(sound, 0) + times
    for at, (scale, counts) in where.items():
        tones = colour_of(scale).tones if find_kind(scale.name) else ()
        if tones and sum(counts.values()) >= ENOUGH and not any(tone.note.semitone in counts for tone in tones):
            said = " or ".join(f"{tone.degree} ({tone.note})" for tone in tones)
            yield Diagnostic(
                code=codes.COLOUR_UNHEARD,
                headline=f"{_name(scale)} is named, but {said} is never heard",
                span=view.origins.span(at),
                label=f"without it this could as well be {_name(colour_of(scale).against)}",
                help=f"play {said} where it can be heard, or name the scale that is",
                pointer=written(at),
            )


def roots_unheard(view: View) -> Iterator[Diagnostic]:
    """Riffs and chord blocks whose root falls on no strong beat; not one over a second part, which may say the root.

    A run goes as its layout and its order take it, and is passed over.
    """
    for section, pointer, heard in view.heard:
        if len(heard) != 1 or section.backing or len(section.bars) < _BARS or view.kind_of(pointer) == "run":
            continue
        scale, stretch = heard[0].scale, heard[0]
        if scale is None or stretch.total < ENOUGH or is_symmetric(scale):
            continue
        root = scale.root.pitch_class
        if root.semitone not in stretch.strong:
            yield Diagnostic(
                code=codes.ROOT_WEAK,
                headline=f"the root {root} never falls on a strong beat in {_block(section)}",
                span=section.span,
                help=f"begin or end on {root}, or put a drone on it under the block",
                pointer=written(pointer),
            )
