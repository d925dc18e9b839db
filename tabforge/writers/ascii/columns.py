"""From events to slots: reads the bars of a section in order, remembering what reaches from one bar into the next."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from tabforge.model.events import NOTHING_ATTACHED, Event, Note
from tabforge.model.score import Bar
from tabforge.writers.ascii.charts import symbol
from tabforge.writers.ascii.context import Context
from tabforge.writers.ascii.extents import Extents
from tabforge.writers.ascii.hands import Hands
from tabforge.writers.ascii.lines import edge
from tabforge.writers.ascii.longrests import words
from tabforge.writers.ascii.marks import DOWN, UP
from tabforge.writers.ascii.rhythm import tuplet_number
from tabforge.writers.ascii.rows import ALONE, CHORDS, VOICES, VoiceRows
from tabforge.writers.ascii.slides import Slides
from tabforge.writers.ascii.slots import Ending, Piece, Reach, Slot, Style
from tabforge.writers.ascii.swells import Swells
from tabforge.writers.ascii.voices import common_slots, settle

FRETS: Final = tuple(str(fret) for fret in range(100))


class BarReader:
    """Reads the bars of one section. ``alone``: none of them has two voices."""

    def __init__(self, context: Context, slides: Slides, alone: bool) -> None:
        self.context = context
        self.slides = slides
        self._rows = ALONE if alone else VOICES
        self._extents = Extents()
        self._swells = Swells(context)
        self._ending = False

    def read(self, number: int, bars: Sequence[Bar]) -> tuple[Piece, str]:
        """Bar ``number`` (from 0), or bars of rest that begin with it, as one piece, not yet measured; and the repeat count at its end."""
        reaches: list[Reach] = []
        slots: list[Slot] = []
        if len(bars) == 1:
            slots = self._slots(number, bars[0], reaches)
        self._extents.carry(reaches)
        self._swells.carry(reaches)
        left, right = bars[0].left, bars[-1].right
        count = f"x{right.times}" if right.repeat == "backward" and right.times != 2 else ""
        edges = edge(left), edge(right)
        self.context.used.update([each for each in edges if each in ("forward", "backward")] + (["count"] if count else []))
        piece = Piece(slots, reaches, sum(bar.ticks for bar in bars), *edges)
        piece.ending = self._bracket(bars[0], bars[-1])
        piece.rest = words(len(bars)) if len(bars) > 1 else ""
        piece.breaks = bars[0].new_line
        return piece, count

    def _slots(self, number: int, bar: Bar, reaches: list[Reach]) -> list[Slot]:
        hands = Hands()
        if len(bar.voices) == 1:
            events = bar.voices[0]
            slots = [Slot(event.onset, event.grace is not None) for event in events]
            self._voice((number, 0), events, slots, range(len(events)), reaches, hands)
        else:
            slots, places = common_slots(bar.voices)
            self._voice((number, 0), bar.voices[0], slots, places[0], reaches, hands)
            upper = [len(slot.cells) for slot in slots]
            self._voice((number, 1), bar.voices[1], slots, places[1], reaches, hands)
            settle(slots, upper, places[1], bar.voices[1], self.context.losses)
            self.context.used.add("lower voice")
        hands.write(slots, self.context)
        return slots

    def _bracket(self, first: Bar, last: Bar) -> Ending | None:
        text = None
        if first.left.endings:
            text = ",".join(map(str, first.left.endings)) + "."
            self._ending = True
        if not self._ending:
            return None
        closes = bool(last.right.endings)
        self._ending = not closes
        self.context.used.add("ending")
        return Ending(text, closes, closes and last.right.hooked)

    def _voice(
        self, where: tuple[int, int], events: Sequence[Event], slots: list[Slot], places: Sequence[int], reaches: list[Reach], hands: Hands
    ) -> None:
        """Put one voice's events into their slots. This is where a note's time is spent."""
        context = self.context
        rhythm = context.rhythm if context.options.rhythm_line else None
        rows = self._rows[where[1]]
        rhythm_row = rows.rhythm
        tuplets: dict[int, int] = {}
        for index, event in enumerate(events):
            place = places[index]
            slot = slots[place]
            if rhythm:
                slot.labels.append((rhythm_row, *rhythm(event)))
                written = event.written
                if written.opens or written.closes:
                    self._tuplets(event, place, slot, rows, tuplets, reaches)
            fingers = False
            special: list[Note] | None = None
            for note in event.notes:
                if note.marks or note.tied_in:
                    if special is None:
                        special = []
                    special.append(note)
                else:
                    fret = note.fret
                    text = FRETS[fret] if fret < 100 else str(fret)
                    if len(text) > slot.after:
                        slot.after = len(text)
                    slot.cells.append((note.string, text, 0))
                if note.finger or note.pluck:
                    fingers = True
            if fingers:
                hands.add(place, event)
            if special or event.marks:
                self._marked(where, index, event, special or [], place, slot, rows, reaches)
            if event.attached is not NOTHING_ATTACHED:
                self._attached(event, place, slot, rows, hands, reaches)
        for level, first in tuplets.items():
            reaches.append(Reach(rows.tuplets[level], first, len(slots) - 1, "", Style.BRACKET))

    def _tuplets(self, event: Event, place: int, slot: Slot, rows: VoiceRows, tuplets: dict[int, int], reaches: list[Reach]) -> None:
        written = event.written
        self.context.used.add("tuplet")
        for level in written.opens:
            tuplets[level] = place
        for level in written.closes:
            number = tuplet_number(written.tuplets[level])
            if ":" in number:
                self.context.used.add("ratio")
            first = tuplets.pop(level, place)
            if first == place:
                slot.labels.append((rows.tuplets[level], "", len(number) + 2))
            reaches.append(Reach(rows.tuplets[level], first, place, number, Style.BRACKET))

    def _marked(
        self,
        where: tuple[int, int],
        index: int,
        event: Event,
        special: list[Note],
        place: int,
        slot: Slot,
        rows: VoiceRows,
        reaches: list[Reach],
    ) -> None:
        context = self.context
        down = self.slides.down
        strings: dict[str, list[int]] = {}
        for note in special:
            slide = DOWN if down and (*where, index, note.string) in down else UP
            text, before, after, above = context.note(note, slide)
            slot.cells.append((note.string, text, before))
            slot.before = max(slot.before, before)
            slot.after = max(slot.after, after)
            for sign in above:
                strings.setdefault(sign, []).append(note.string)
        signs: list[str] = []
        if event.marks:
            over, extents = context.event(event.marks)
            signs.extend(over)
            for extent in extents:
                self._extents.event(extent, rows, place, slot, reaches)
        if signs or strings:
            slot.labels.append((rows.signs, *context.above(event, signs, strings)))

    def _attached(self, event: Event, place: int, slot: Slot, rows: VoiceRows, hands: Hands, reaches: list[Reach]) -> None:
        attached = event.attached
        if attached.chord is not None:
            text = symbol(attached.chord, self.context.grips)
            for label in [label for label in slot.labels if label[0] == CHORDS]:
                # Both voices name a chord here: the row is shared, and one name is enough if they agree.
                slot.labels.remove(label)
                text = text if text == label[1] else f"{label[1]} {text}"
            slot.labels.append((CHORDS, *self.context.label(text, "chord symbol", event.span, symbol=True)))
        if attached.word is not None:
            text, width = self.context.label(attached.word.text, "word", event.span)
            slot.labels.append((rows.words, text + "-", width + 1) if attached.word.hyphen else (rows.words, text, width))
        if attached.stroke is not None:
            hands.stroke(place, attached.stroke)
        if attached.dynamic or attached.hairpins:
            self._swells.event(event, place, slot, rows.dynamics, reaches)
