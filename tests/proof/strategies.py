"""Scores for property tests: any values, dots, tuplets in tuplets, ties, chords, grace notes, rests, marks, dynamics, hairpins, signs of
the way, tempos, chord diagrams, long rests, two voices, partial bars, line breaks.

They are whole and consistent as a compiler's would be (every bar full, every tie and every leading mark with both its ends), but not music.
"""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

from hypothesis import strategies as st

from tabforge.model.events import DYNAMICS, HAIRPINS, Attached, Hairpin, Note, Word
from tabforge.model.harmony import ChordDegree, ChordSymbol
from tabforge.model.meter import TEMPO_CHANGES, Swing, Tempo
from tabforge.model.pitch import Pitch, PitchClass, spell_plainly
from tabforge.model.score import SIGNS, Bar, BarLine, Score, Section
from tabforge.model.techniques import TECHNIQUES, Amount, Mark, Role, Technique, parse_mark, with_role
from tabforge.model.tuning import Tuning
from tabforge.model.values import BY_LETTER
from tests.proof.scores import BB_LYDIAN, E_MAJOR, STANDARD, Item, bar, rest, score, section, tuning, tuplet, value, voice

METERS = ("4/4", "3/4", "2/4", "6/8", "12/8", "2+2+3/8", "5/4", "7/8", "2/2", "3/8")
_LENGTHS = ("w", "h.", "h", "q..", "q.", "q", "e.", "e", "s.", "s", "t")
_ROOM = {text: value(text).quarters for text in _LENGTHS}
_TUPLETS = (
    ("3:2", "e", Fraction(1)),
    ("5:4", "s", Fraction(1)),
    ("3:2", "q", Fraction(2)),
    ("7:4", "s", Fraction(1)),
    ("2:3", "e", Fraction(3, 2)),
)
_AMOUNTS = {
    Amount.WHOLE_STEPS: ("1/4", "1/2", "1", "3/2", "2"),
    Amount.FRETS: ("1", "2", "3", "7", "12"),
    Amount.STROKES: ("1", "2", "3"),
}
_CHORDS = (
    ChordSymbol(text="Bbmaj7", root=PitchClass("B", -1), kind="major-seventh", suffix="maj7"),
    ChordSymbol(text="C7#9/E", root=PitchClass("C"), kind="dominant", suffix="7#9", bass=PitchClass("E"),
                degrees=(ChordDegree(value=9, alter=1, type="add"),)),
    ChordSymbol(text="N.C.", root=None, kind="none"),
    ChordSymbol(text="F", root=PitchClass("F"), kind="major", shape=(1, 3, 3, 2, 1, 1)),
    ChordSymbol(text="Em", root=PitchClass("E"), kind="minor", suffix="m", shape=(None, 7, 9, 9, 8, None)),
)


_TUNINGS = (
    (STANDARD, tuning("D2 A2 D3 G3 B3 E4", "drop D")),
    (tuning("B1 E2 A2 D3 G3 B3 E4"),),
    (tuning("G4 C4 E4 A4"),),
    (tuning("G4 D3 G3 B3 D4"), tuning("G4 C3 G3 B3 D4")),
    (tuning("E1 A1 D2 G2"),),
)


class _Maker:
    """Makes one score from a source of choices."""

    def __init__(self, draw: random.Random, strings: Tuning) -> None:
        self.draw = draw
        self.strings = strings

    def chance(self, percent: int) -> bool:
        return self.draw.randrange(100) < percent

    def pitch(self, midi: int) -> Pitch:
        """Any of the usual spellings, and now and then an odd one such as E# or Cb."""
        plain = spell_plainly(midi, flats=self.chance(50))
        if plain.alter == 0 and self.chance(20):
            below = spell_plainly(midi - 2, flats=True)
            if below.alter == 0:
                return Pitch(below.step, 2, below.octave)
        return plain

    def notes(self) -> tuple[Note, ...]:
        count = 1 if self.chance(75) else self.draw.randint(2, 4)
        found = []
        for string in sorted(self.draw.sample(range(1, len(self.strings) + 1), count)):
            fret = self.draw.randint(0, 15)
            pitch = self.pitch(self.strings.open(string).midi + fret)
            finger = self.draw.choice((None, None, None, "1", "2", "3", "4", "T"))
            pluck = self.draw.choice((None, None, None, "p", "i", "m", "a"))
            found.append(Note(pitch=pitch, string=string, fret=fret, finger=finger, pluck=pluck))
        # Two strings at one pitch cannot be told apart by a reader that keeps chords by pitch.
        return tuple({(note.pitch.midi): note for note in found}.values())

    def item(self, length: str, *, rests: bool = True) -> Item:
        if rests and self.chance(15):
            return rest(length)
        attached = Attached(
            chord=self.draw.choice(_CHORDS) if self.chance(10) else None,
            word=Word(text=self.draw.choice(("one", "lan", "&", "<e>")), hyphen=self.chance(40)) if self.chance(15) else None,
            stroke=self.draw.choice("du") if self.chance(15) else None,
            dynamic=self.draw.choice(DYNAMICS) if self.chance(10) else None,
        )
        plain = Attached() == attached
        item = Item(value(length), tuple(sorted(self.notes(), key=lambda note: note.string)))
        return item if plain else replace(item, attached=attached)

    def fill(self, room: Fraction, depth: int = 0) -> list[Item]:
        """Items that fill so many quarter notes."""
        found: list[Item] = []
        whole = room
        while room:
            tuplets = [each for each in _TUPLETS if each[2] <= room and (not depth or each[0] == "3:2")]
            if depth < 2 and tuplets and self.chance(20):
                ratio, unit, length = self.draw.choice(tuplets)
                inner = self.fill(BY_LETTER[unit].quarters * int(ratio.split(":")[0]), depth + 1)
                found += tuplet(ratio, unit, inner)
                room -= length
                continue
            length_text = self.draw.choice([text for text in _LENGTHS if _ROOM[text] <= room])
            if self.chance(8) and not depth:
                grace = "on" if self.chance(30) else "before"
                found.append(replace(self.item("e"), grace=grace, attached=Attached()))
                if not found[-1].notes:
                    found.pop()
            # music21 stretches a whole rest to the bar if another voice has a bar rest: a longer bar gets none.
            found.append(self.item(length_text, rests=length_text != "w" or whole == _ROOM["w"]))
            room -= _ROOM[length_text]
        return found

    def tie(self, items: list[Item]) -> None:
        """Tie some sounding items to the next one, which then has the same notes."""
        for at in range(len(items) - 1):
            here, there = items[at], items[at + 1]
            if here.notes and there.notes and here.grace is None and there.grace is None and self.chance(15):
                items[at] = replace(here, notes=tuple(replace(note, tied_out=True) for note in here.notes))
                same = tuple(replace(note, tied_in=True, tied_out=False, finger=None, pluck=None) for note in here.notes)
                items[at + 1] = replace(there, notes=same, attached=Attached())

    def mark(self, technique: Technique) -> Mark:
        before, hole, after = technique.form.partition("#")
        amount = self.draw.choice(_AMOUNTS[technique.amount]) if hole else ""
        found = parse_mark(before + amount + after)
        assert found is not None, technique
        return found

    def put(self, items: list[Item], at: int, mark: Mark, string: int | None = None) -> None:
        item = items[at]
        if mark.technique.scope == "event":
            items[at] = replace(item, marks=(*item.marks, mark))
            return
        notes = tuple(
            replace(note, marks=(*note.marks, mark)) if string in {None, note.string} else note for note in item.notes
        )
        items[at] = replace(item, notes=notes)

    def marks(self, items: list[Item]) -> None:
        """Put techniques on items: some alone, some from one to the next on its string, some over a few."""
        busy: set[tuple[str, int]] = set()
        for at, item in enumerate(items):
            if not item.notes or self.chance(55):
                continue
            technique = self.draw.choice(TECHNIQUES)
            mark = self.mark(technique)
            if technique.leads:
                following = {note.string for note in items[at + 1].notes} if at + 1 < len(items) else set()
                common = [note.string for note in item.notes if note.string in following]
                if common:
                    self.put(items, at, with_role(mark, Role.START), common[0])
                    self.put(items, at + 1, with_role(mark, Role.STOP), common[0])
            elif technique.extends:
                if item.grace is not None and "octave" in technique.name:
                    continue  # music21 loses a grace note at which a line begins
                end = min(len(items) - 1, at + self.draw.randint(0, 3))
                while not items[end].notes:
                    end -= 1
                reach = range(at, end + 1)
                # One vibrato at a time, wide or not; one barre; one octave line.
                kind = "octave" if "octave" in technique.name else technique.name.split()[-1]
                if any((kind, place) in busy for place in reach):
                    continue
                busy.update((kind, place) for place in reach)
                for place in reach:
                    role = Role.SINGLE if at == end else Role.START if place == at else Role.STOP if place == end else Role.INSIDE
                    self.put(items, place, with_role(mark, role))
            else:
                self.put(items, at, mark)

    def hairpins(self, items: list[Item]) -> None:
        """Put hairpins on items, one after another, that end with an event or where one begins."""
        at = 0
        while at < len(items):
            if items[at].grace is not None or not items[at].notes or self.chance(90):
                at += 1
                continue
            end = min(len(items) - 1, at + self.draw.randint(0, 4))
            while items[end].grace is not None or not items[end].notes:
                end -= 1
            kind = self.draw.choice(tuple(HAIRPINS.values()))
            through = end == at or self.chance(50)
            self.hang(items, at, Hairpin(kind=kind, begins=True))
            self.hang(items, end, Hairpin(kind=kind, begins=False, through=through))
            at = end + 1 if through else end
            if not through and self.chance(50):
                at += 1

    def hang(self, items: list[Item], at: int, hairpin: Hairpin) -> None:
        attached = items[at].attached
        items[at] = replace(items[at], attached=replace(attached, hairpins=(*attached.hairpins, hairpin)))

    def signs(self) -> tuple[str, ...]:
        return (self.draw.choice(tuple(SIGNS)),) if self.chance(12) else ()

    def bars(self, count: int) -> list[Bar]:
        """Bars whose ties and marks reach over bar lines."""
        two = self.chance(30)
        meter = self.draw.choice(METERS)
        pickup = self.chance(25)
        voices: list[list[list[Item]]] = []
        for _ in range(2 if two else 1):
            contents = []
            for index in range(count):
                top, unit = meter.split("/")
                whole = Fraction(sum(map(int, top.split("+"))) * 4, int(unit))
                silent = [text for text in _LENGTHS if _ROOM[text] == whole and not two and self.chance(30)]
                if silent and not (pickup and index == 0):
                    contents.append([rest(silent[0])])
                else:
                    contents.append(self.fill(min(whole, Fraction(1, 2)) if pickup and index == 0 else whole))
            flat = [item for content in contents for item in content]
            self.tie(flat)
            self.marks(flat)
            self.hairpins(flat)
            voices.append([[flat.pop(0) for _ in content] for content in contents])
        found = []
        for index in range(count):
            lines = {}
            if index == count - 1 and self.chance(40):
                lines["right"] = BarLine(repeat="backward", times=self.draw.choice((2, 3)))
            tempo = None
            if self.chance(10):
                tempo = Tempo(bpm=self.draw.choice((60.0, 132.5)), beat=BY_LETTER["q"], dots=self.draw.choice((0, 1)))
            events = [voice(*each[index], place=1000 * index + 500 * number) for number, each in enumerate(voices)]
            found.append(
                bar(
                    *events,
                    meter=meter,
                    tempo=tempo,
                    partial=pickup and index == 0,
                    tempo_change=self.draw.choice(tuple(TEMPO_CHANGES)) if self.chance(10) else None,
                    signs=self.signs(),
                    rehearsal=self.draw.choice("ABC") if self.chance(10) else None,
                    new_line=self.chance(15),
                    **lines,
                )
            )
        return found


@st.composite
def scores(draw: st.DrawFn, *, max_bars: int = 4) -> Score:
    """Scores of one or two sections. What is in a bar comes from a seed: a draw for every choice would take longer than the writing."""
    source = random.Random(draw(st.integers(0, 10**9)))
    sections: list[Section] = []
    # Of one number of strings: verovio draws a staff to its end with the lines it begins with.
    tunings = draw(st.sampled_from(_TUNINGS))
    for number in range(draw(st.integers(1, 2))):
        strings = draw(st.sampled_from(tunings))
        maker = _Maker(source, strings)
        bars = maker.bars(draw(st.integers(1, max_bars)))
        swing = draw(st.sampled_from((None, Swing(value=BY_LETTER["e"]))))
        scale = draw(st.sampled_from((None, BB_LYDIAN, E_MAJOR)))
        title = draw(st.text(max_size=8))
        capo = (2, (3, 4)) if maker.chance(20) else None
        sections.append(
            section(*bars, title=title, strings=strings, swing=swing, scale=scale, text=(f"Section {number}.",), partial_capo=capo)
        )
    return score(*sections, title=draw(st.text(max_size=12)), left_handed=source.random() < 0.2)
