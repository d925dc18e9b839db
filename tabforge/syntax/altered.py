"""A document with other settings than its own: on another instrument, at another tempo, in another layout.

Whoever prints or shows a study asks for it; the study's file stays as it is.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, cast

from tabforge.syntax.document import Block, LayoutSetting, Study

_OCTAVES: Final = "-0123456789"


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """What is to be another way; None: as the study says.

    ``key`` is a root, with its octave if need be: the study is compiled on it in place of its own (see ``compile_study``). ``tempo`` is
    beats a minute, ``fingering`` "show" or "hide", ``layout`` that of every run. ``blocks`` are the names of those that are wanted, in
    upper or lower case; all of them if empty.
    """

    key: str | None = None
    instrument: str | None = None
    tuning: str | tuple[str, ...] | None = None
    tempo: float | None = None
    hand: str | None = None
    fingering: str | None = None
    layout: LayoutSetting | None = None
    blocks: tuple[str, ...] = ()


AS_WRITTEN: Final = Changes()


def altered(study: Study, changes: Changes) -> Study:
    """The document with its settings changed; the same object if nothing is asked for. Of ``key`` only ``keys`` are its business.

    On another instrument the tuning, the fretting and the capo that belonged to the old one are dropped, and scales begin at the lowest
    such root it has. A block's own tuning stays as long as the instrument does; its own tempo keeps its ratio to the study's. A block
    that is not wanted leaves an empty text behind, since the places of the others are told by their numbers.
    """
    if changes == AS_WRITTEN:
        return study
    made = cast(Study, dict(study))
    if changes.key is not None:
        made.pop("keys", None)
    if changes.instrument is not None:
        made["instrument"] = changes.instrument
        _without_neck(made)
    if changes.tuning is not None:
        made["tuning"] = changes.tuning if isinstance(changes.tuning, str) else list(changes.tuning)
    if changes.hand is not None:
        made["hand"] = changes.hand
    if changes.fingering is not None:
        made["fingering"] = "show" if changes.fingering == "show" else "hide"
    ratio = None
    if changes.tempo is not None:
        own = made.get("tempo")
        ratio = changes.tempo / own["bpm"] if own else None
        made["tempo"] = {**(own or {}), "bpm": changes.tempo}
    blocks = study.get("blocks", [])
    made["blocks"] = [_block(block, changes, ratio) if _wanted(block, changes) else _NOTHING for block in blocks]
    first = next((block for block in blocks if block.get("kind") != "text"), None)
    if first is not None and not _wanted(first, changes):
        made.pop("pickup", None)  # it is the first block's
    return made


_NOTHING: Final[Block] = {"kind": "text", "lines": []}


def _wanted(block: Block, changes: Changes) -> bool:
    return not changes.blocks or block.get("name", "").casefold() in {name.casefold() for name in changes.blocks}


def _block(block: Block, changes: Changes, ratio: float | None) -> Block:
    made = cast(Block, dict(block))
    if changes.instrument is not None:
        _without_neck(made)
    if changes.fingering is not None:
        made.pop("fingering", None)
    if ratio is not None and "tempo" in made:
        made["tempo"] = {**made["tempo"], "bpm": round(made["tempo"]["bpm"] * ratio, 2)}
    if changes.layout is not None and block.get("kind") == "run":
        made["layout"] = changes.layout
    return made


def _without_neck(settings: Study | Block) -> None:
    settings.pop("tuning", None)
    settings.pop("fretting", None)
    settings.pop("capo", None)
    if "scale" in settings:
        settings["scale"] = {**settings["scale"], "root": settings["scale"]["root"].rstrip(_OCTAVES)}
