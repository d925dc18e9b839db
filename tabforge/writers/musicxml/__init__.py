"""MusicXML 4.0 partwise, the open standard of the W3C Music Notation Community Group.

``write`` gives the document as UTF-8, a line for every note. Modules: ``document`` (head and part list), ``numbering``, ``bars``,
``rhythm``,
``beams``, ``grouping``, ``accidentals``, ``notes``, ``techniques``, and one for each other kind of element; ``mxl`` compresses.
"""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from itertools import islice, product

from tabforge.model.events import Event
from tabforge.model.meter import Meter
from tabforge.model.score import Bar, Score, Section
from tabforge.model.values import VALUES, Written
from tabforge.source import Span
from tabforge.writers.loss import Loss
from tabforge.writers.musicxml.backing import in_part, second_parts, without_long_rests
from tabforge.writers.musicxml.bars import PartWriter
from tabforge.writers.musicxml.document import head
from tabforge.writers.musicxml.layers import PARTS
from tabforge.writers.musicxml.numbering import numbered
from tabforge.writers.options import DEFAULTS, WriteOptions


def write(score: Score, options: WriteOptions = DEFAULTS) -> tuple[bytes, tuple[Loss, ...]]:
    """The score as a MusicXML document, and what it could not carry. Reads ``options.staves`` and ``options.exact_mode``."""
    parts = PARTS[options.staves]
    losses: list[Loss] = []
    if not any(section.bars for section in score.sections):
        losses.append(Loss(span=Span(0, 0), what="a study without music", how="a bar of rest stands where the music would"))
        score = _with_a_bar(score)
    if score.left_handed:
        losses += _mirrored(score)
    kinds = second_parts(score)
    own = without_long_rests(list(numbered(score))) if kinds else []
    buffer = BytesIO()
    buffer.write(head(score, parts, kinds).encode())
    for number, (kind, part) in enumerate(product(("", *kinds), parts), 1):
        buffer.write(f'<part id="P{number}">\n'.encode())
        writer = PartWriter(part, score, losses, leads=number == 1, exact=options.exact_mode)
        for place in in_part(own, kind) if kind else own or numbered(score):
            out: list[str] = []
            writer.write(out, place)
            buffer.write("".join(out).encode())
        buffer.write(b"</part>\n")
    buffer.write(b"</score-partwise>\n")
    return buffer.getvalue(), tuple(dict.fromkeys(losses))


def _mirrored(score: Score) -> list[Loss]:
    """That chord diagrams are not turned around, said once, at the first one."""
    events = (event for section in score.sections for bar in section.bars for voice in bar.voices for event in voice)
    spans = (event.span for event in events if event.attached.chord is not None and event.attached.chord.shape is not None)
    how = "written from the lowest string to the highest: the standard has no diagram for the left hand"
    return [Loss(span=span, what="chord diagrams for the left hand", how=how) for span in islice(spans, 1)]


def _with_a_bar(score: Score) -> Score:
    """The score with a bar of rest at its end: the standard has no part without a measure."""
    ticks = 4 * score.divisions
    rest = Event(onset=0, ticks=ticks, written=Written(value=VALUES[0]), notes=(), span=Span(0, 0))
    bar = Bar(meter=Meter(groups=(4,), unit=4), ticks=ticks, voices=((rest,),))
    return replace(score, sections=(*score.sections, Section(title="", tuning=score.instrument.tuning, capo=0, bars=(bar,))))
