"""What a build leaves written down for the next one: how each exercise was made and each file bound. Pure."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any, Final

from tabforge.book.fingerprints import Fingerprint

_FORMAT: Final = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """How an exercise was made, and what was told of it."""

    made: Fingerprint
    report: str
    failed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """How a file was bound: all it hangs on, a hash of its bytes, and what was told of it."""

    print: str
    digest: str
    told: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """Exercises by id, and bound files by form. ``engraved``: exercises were made with pages; ``tracks``: with tracks, where asked for."""

    exercises: Mapping[str, Record] = field(default_factory=dict)
    bound: Mapping[str, Bound] = field(default_factory=dict)
    engraved: bool = False
    tracks: bool = False


def to_json(ledger: Ledger) -> bytes:
    """A ledger as JSON: the same bytes for the same ledger."""
    return json.dumps({"format": _FORMAT, **asdict(ledger)}, ensure_ascii=False, sort_keys=True, indent=0).encode("utf-8", "surrogatepass")


def from_json(data: bytes) -> Ledger:
    """The ledger in some bytes; an empty one if they hold none that is whole."""
    try:
        said = json.loads(data.decode("utf-8", "surrogatepass"))
        if said.pop("format") != _FORMAT:
            return Ledger()
        return Ledger(
            exercises={str(name): _record(each) for name, each in said["exercises"].items()},
            bound={str(name): _bound(each) for name, each in said["bound"].items()},
            engraved=said["engraved"] is True,
            tracks=said["tracks"] is True,
        )
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return Ledger()


def _record(said: Any) -> Record:
    made = dict(said["made"])
    packages = tuple(made.pop("packages"))
    if not all(" " in each for each in packages):
        raise ValueError(packages)
    (report,) = _texts({"report": said["report"]}).values()
    return Record(made=Fingerprint(packages=packages, **_texts(made)), report=report, failed=said["failed"] is True)


def _bound(said: Any) -> Bound:
    words = {str(number): each for number, each in enumerate(said["told"])}
    return Bound(told=tuple(_texts(words).values()), **_texts({name: each for name, each in said.items() if name != "told"}))


def _texts(said: Mapping[str, Any]) -> dict[str, str]:
    if not all(isinstance(each, str) for each in said.values()):
        raise TypeError(said)
    return dict(said)
