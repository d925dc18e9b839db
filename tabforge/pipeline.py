"""From a text to a score and from a score to bytes: the rooms in their order. Pure: no disk, clock or network.

``study_from`` is reading → guard → compiling → a player's look over it. Each room reports all it finds; a later one is entered only with
what the ones before left whole.
"""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from tabforge.diagnostics.allowance import NOTHING_ALLOWED, Allowance
from tabforge.diagnostics.catalogue.advice import NOT_IN_FORMAT
from tabforge.diagnostics.core import Diagnostic, only_errors, ordered
from tabforge.limits import MAX_DIAGNOSTICS
from tabforge.readers import READERS, decode, reader_for
from tabforge.source import Source, Span
from tabforge.syntax.altered import AS_WRITTEN, Changes, altered
from tabforge.syntax.grammar import ROWS, SETTINGS
from tabforge.writers import DEFAULTS, WRITERS, WriteOptions

if TYPE_CHECKING:
    from tabforge.model.score import Score
    from tabforge.readers import Reading
    from tabforge.syntax.document import Block, Study
    from tabforge.writers.loss import Loss


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of a source. ``score`` is None if it has errors.

    ``diagnostics`` are in the order of their places, at most ``limits.MAX_DIAGNOSTICS``; ``unshown`` counts those beyond.
    ``allowed`` is the advice that the study does not want to hear: it is left out.
    """

    source: Source
    score: Score | None
    diagnostics: tuple[Diagnostic, ...]
    unshown: int = 0
    allowed: Allowance = NOTHING_ALLOWED

    @property
    def failed(self) -> bool:
        """Whether the study has errors."""
        return self.score is None


def _read(source: Source) -> Reading:
    """Read a source by its name's suffix; without a telling one, as JSON if it begins like it."""
    name = reader_for(source.name) or ("json" if source.text.lstrip()[:1] == "{" else "riff")
    return READERS[name](source)


@contextmanager
def uncollected() -> Iterator[None]:
    """Work that makes many objects and no circles, and is bounded by the limits: looking through them for garbage again and again
    would double its cost, and more the larger the study.
    """
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()


@uncollected()
def study_from(name: str, data: bytes, changes: Changes = AS_WRITTEN) -> Outcome:
    """Read, guard, compile and look over a study, with ``changes`` to what it says. ``name`` is what the user is shown."""
    source, found = decode(name, data)
    if only_errors(found):
        return _outcome(source, None, found)
    reading = _read(source)
    if changes != AS_WRITTEN and reading.document is not None and not only_errors(reading.diagnostics):
        reading = replace(reading, document=altered(reading.document, changes))
    return _judged(source, reading, changes.key)


def _judged(source: Source, reading: Reading, key: str | None = None) -> Outcome:
    from tabforge.check import advise, allowance  # noqa: PLC0415  # what only lays studies out does without
    from tabforge.compile import compile_study  # noqa: PLC0415
    from tabforge.schema import guard  # noqa: PLC0415

    found, allowed = list(reading.diagnostics), NOTHING_ALLOWED
    document, origins = reading.document, reading.origins
    score: Score | None = None
    if document is not None:
        if not only_errors(found):
            found += guard(document, origins)
        errors = only_errors(found)
        sound, readable = without_faults(document, reading, source, errors) if errors else (document, document)
        if not errors or not guard(sound, origins):
            score, compiled = compile_study(readable, origins, key)
            found += compiled
    if only_errors(found):
        score = None
    elif score is not None and document is not None:
        found += advise(score, document, origins)
        if only_errors(found):  # no hand can play it
            score = None
        allowed = allowance(document, origins)
    return _outcome(source, score, found, allowed)


_HARMLESS: Final = ("title", "subtitle", "author", "text", "tempo", "swing")
"""Header settings whose loss makes nothing else wrong."""


_ROWS_ALONE: Final = frozenset(word for word in ROWS if word not in SETTINGS or "riff" not in SETTINGS[word].where)
"""Words at the head of a riff's line that can only be a row."""


def without_faults(document: Study, reading: Reading, source: Source, errors: Sequence[Diagnostic]) -> tuple[Study, Study]:
    """Two parts of a document with errors, so that what is wrong elsewhere is found in the same run.

    The first should be valid as it stands; the second, which is what is compiled, also has the blocks with cells that could not be
    read: the parser left poison in their stead, and compiling passes over it. A block with any other fault is in neither; if a header
    setting that the blocks hang on has one, no block is. A block left out leaves an empty text behind, since the places of the others are
    told by their numbers.
    """
    blocks = document.get("blocks")
    if not isinstance(blocks, list):
        return document, document
    spans = _extents([reading.origins.span(("blocks", index)) for index in range(len(blocks))], source.text)
    broken, poisoned = set[int](), set[int]()
    for error in errors:
        at = error.span.start
        word = next(iter(source.line(source.position(at).line).split()), "")
        inside = _blocks_of(error, spans)
        if inside:
            in_a_row = word in _ROWS_ALONE and all(blocks[index].get("kind") == "riff" for index in inside)
            (poisoned if in_a_row else broken).update(inside)
        elif word not in _HARMLESS and error.suggestion not in _HARMLESS:
            broken.update(range(len(blocks)))

    def leaving_out(lost: set[int]) -> Study:
        left: list[Block] = [{"kind": "text", "lines": []} if index in lost else block for index, block in enumerate(blocks)]
        return {**document, "blocks": left}

    return leaving_out(broken | poisoned), leaving_out(broken)


def _blocks_of(error: Diagnostic, spans: list[Span]) -> list[int]:
    """The block an error is in, by its pointer if it has one; none for the header."""
    if error.pointer is not None:
        steps = error.pointer.split("/")
        return [int(steps[2])] if steps[1:2] == ["blocks"] and len(steps) > 2 else []
    return [index for index, span in enumerate(spans) if span.start <= error.span.start < span.end]


def _extents(spans: list[Span], text: str) -> list[Span]:
    """Where blocks begin and end: the place of each is its head, and it ends where the next begins."""
    ends = [*(span.start for span in spans), len(text) + 1][1:]
    return [Span(span.start, end) for span, end in zip(spans, ends, strict=True)]


def _outcome(source: Source, score: Score | None, found: Iterable[Diagnostic], allowed: Allowance = NOTHING_ALLOWED) -> Outcome:
    told = ordered(allowed.wanted(found))
    return Outcome(
        source=source,
        score=score,
        diagnostics=tuple(told[:MAX_DIAGNOSTICS]),
        unshown=len(told[MAX_DIAGNOSTICS:]),
        allowed=allowed,
    )


def tidied(name: str, data: bytes) -> tuple[str | None, Outcome]:
    """A study in the canonical layout, or None if it cannot be read; with what was found while reading it.

    A JSON document is laid out in the riff language.
    """
    from tabforge.schema import guard  # noqa: PLC0415
    from tabforge.syntax.printer import print_study  # noqa: PLC0415

    source, found = decode(name, data)
    if only_errors(found):
        return None, _outcome(source, None, found)
    reading = _read(source)
    found = reading.diagnostics
    if reading.document is not None and not only_errors(found):
        found = (*found, *guard(reading.document, reading.origins))
    outcome = _outcome(source, None, found)
    if reading.document is None or only_errors(found):
        return None, outcome
    return print_study(reading.document), outcome


@uncollected()
def export(score: Score, name: str, options: WriteOptions = DEFAULTS) -> tuple[bytes, tuple[Diagnostic, ...]]:
    """A score in a format, a key of ``writers.WRITERS``, and advice about what the format cannot hold: once for each kind of loss."""
    data, losses = WRITERS[name].write(score, options)
    return data, lost_in(name, losses)


def lost_in(name: str, losses: Iterable[Loss]) -> tuple[Diagnostic, ...]:
    """Advice about what a format, called by a name, cannot hold: once for each kind of loss."""
    alike: dict[tuple[str, str], list[Span]] = {}
    for loss in losses:
        alike.setdefault((loss.what, loss.how), []).append(loss.span)
    return tuple(_lost(name, what, how, spans) for (what, how), spans in alike.items())


def with_advice(outcome: Outcome, more: Iterable[Diagnostic]) -> Outcome:
    """An outcome with what was found later."""
    return _outcome(outcome.source, outcome.score, (*outcome.diagnostics, *more), outcome.allowed)


def _lost(name: str, what: str, how: str, spans: list[Span]) -> Diagnostic:
    more = len(spans) - 1
    return Diagnostic(
        code=NOT_IN_FORMAT,
        headline=f"{what} in the format {name}: {how}",
        span=spans[0],
        help=f"the same in {more} more {'place' if more == 1 else 'places'}" if more else None,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """A study and its exports: format to bytes, empty if it has errors. ``outcome`` tells the formats' losses too."""

    outcome: Outcome
    files: Mapping[str, bytes]


def build(name: str, data: bytes, formats: Iterable[str], options: WriteOptions = DEFAULTS) -> Built:
    """A study from its text to the bytes of each format."""
    outcome = study_from(name, data)
    if outcome.score is None:
        return Built(outcome=outcome, files={})
    files: dict[str, bytes] = {}
    lost: list[Diagnostic] = []
    for each in formats:
        files[each], more = export(outcome.score, each, options)
        lost += more
    if lost:
        outcome = with_advice(outcome, lost)
    return Built(outcome=outcome, files=files)
