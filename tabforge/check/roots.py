"""Roots that are awkward to read while another sounds the same."""

from __future__ import annotations

from collections.abc import Iterator

from tabforge.check.view import View
from tabforge.diagnostics.catalogue.advice import PLAINER_ROOT
from tabforge.diagnostics.core import Diagnostic
from tabforge.model.pitch import Pitch, PitchClass
from tabforge.model.score import Scale
from tabforge.syntax.document import Study
from tabforge.syntax.origins import Origins, Pointer, written
from tabforge.theory.keys import plainer_root
from tabforge.theory.scale_text import tones_text
from tabforge.theory.scales import on_root


def _root_of(text: str) -> str:
    """The pitch class of a root that may have an octave."""
    return text.rstrip("-0123456789")


def _said_at(root: PitchClass, document: Study) -> Pointer:
    """Where the study asks for a root: its own scale, a block's, or one of its keys."""
    asked = str(root)
    header = document.get("scale")
    if header and _root_of(header["root"]) == asked:
        return ("scale", "root")
    for index, block in enumerate(document.get("blocks", [])):
        own = block.get("scale")
        if own and _root_of(own["root"]) == asked:
            return ("blocks", index, "scale", "root")
    keys = document.get("keys", [])
    if not isinstance(keys, str):
        for index, key in enumerate(keys):
            if _root_of(key) == asked:
                return ("keys", index)
    return ("keys",) if keys else ("scale",)


def _advice(scale: Scale, plainer: PitchClass, document: Study, origins: Origins) -> Diagnostic:
    again = on_root(scale, Pitch(plainer.step, plainer.alter, scale.root.octave))
    root = scale.root.pitch_class
    pointer = _said_at(root, document)
    return Diagnostic(
        code=PLAINER_ROOT,
        headline=f"{root} {scale.name} needs double accidentals; {plainer} {scale.name} sounds the same and is plainer to read",
        span=origins.span(pointer),
        label=tones_text(scale),
        help=f"{plainer} {scale.name} is {tones_text(again)}",
        pointer=written(pointer),
    )


def plainer_roots(view: View) -> Iterator[Diagnostic]:
    """Each scale of the study whose root has a plainer enharmonic, once."""
    seen: set[tuple[PitchClass, tuple[str, ...]]] = set()
    for section in view.score.sections:
        scale = section.scale
        if scale is None or (scale.root.pitch_class, scale.labels) in seen:
            continue
        seen.add((scale.root.pitch_class, scale.labels))
        plainer = plainer_root(scale)
        if plainer is not None:
            yield _advice(scale, plainer, view.document, view.origins)
