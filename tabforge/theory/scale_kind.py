"""What a named scale is, without a root."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from tabforge.theory.labels import read_label


@dataclass(frozen=True, slots=True)
class ScaleKind:
    """A kind of scale.

    ``names``: the canonical name first, then others the trade uses. ``labels``: its degrees against the major scale on its root, ascending.
    ``kin``: the diatonic mode whose key signature it is written in, or None for a scale that has no key (its accidentals are
    written out). ``about``: one sentence for a player.
    """

    names: tuple[str, ...]
    labels: tuple[str, ...]
    kin: str | None
    about: str

    @property
    def name(self) -> str:
        """The canonical name."""
        return self.names[0]

    @property
    def offsets(self) -> tuple[int, ...]:
        """Semitones above the root, ascending."""
        return tuple(read_label(label).offset for label in self.labels)


def kind(name: str, labels: str, kin: str | None, about: str, *others: str) -> ScaleKind:
    """A row of the table; ``labels`` are parted by spaces."""
    return ScaleKind((name, *others), tuple(labels.split()), kin, about)


def family(parent: str, kinds: Iterable[ScaleKind]) -> Iterator[ScaleKind]:
    """The modes of a parent scale in order, the parent first: each is also called ``<parent> mode <n>``."""
    for number, each in enumerate(kinds, start=1):
        yield replace(each, names=(*each.names, f"{parent} mode {number}"))
