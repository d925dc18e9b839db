"""Writers: score in, bytes and losses out. One format a module; ``WRITERS`` is the table a caller chooses from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from tabforge.writers.loss import Loss
from tabforge.writers.options import DEFAULTS, STAVES, Staves, WriteOptions

if TYPE_CHECKING:
    from tabforge.model.score import Score

__all__ = ["DEFAULTS", "STAVES", "WRITERS", "Loss", "Staves", "WriteOptions", "Writer"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Writer:
    """A format. ``suffix`` is its file name's end with the dot; ``write`` is pure: the same score and options give the same bytes."""

    name: str
    suffix: str
    summary: str
    write: Callable[[Score, WriteOptions], tuple[bytes, tuple[Loss, ...]]]


def _musicxml(score: Score, options: WriteOptions) -> tuple[bytes, tuple[Loss, ...]]:
    from tabforge.writers.musicxml import write  # noqa: PLC0415  # only the format asked for is loaded

    return write(score, options)


def _mxl(score: Score, options: WriteOptions) -> tuple[bytes, tuple[Loss, ...]]:
    from tabforge.writers.musicxml.mxl import write  # noqa: PLC0415  # only the format asked for is loaded

    return write(score, options)


def _tab(score: Score, options: WriteOptions) -> tuple[bytes, tuple[Loss, ...]]:
    from tabforge.writers.ascii import write  # noqa: PLC0415  # only the format asked for is loaded

    return write(score, options)


def _midi(score: Score, options: WriteOptions) -> tuple[bytes, tuple[Loss, ...]]:
    from tabforge.writers.midi import write  # noqa: PLC0415  # only the format asked for is loaded

    return write(score, options)


WRITERS: Final[dict[str, Writer]] = {
    writer.name: writer
    for writer in (
        Writer(name="musicxml", suffix=".musicxml", summary="MusicXML 4.0 with notation and TAB", write=_musicxml),
        Writer(name="mxl", suffix=".mxl", summary="MusicXML 4.0, compressed", write=_mxl),
        Writer(name="tab", suffix=".tab.txt", summary="ASCII tab for posts and mail", write=_tab),
        Writer(name="midi", suffix=".mid", summary="MIDI file, played with its repeats, a channel a string", write=_midi),
    )
}
