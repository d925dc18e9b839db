"""Hypothesis strategies of whole studies as TEXT, over the full vocabulary, with what must come of them.

``studies()`` makes texts that are right in every way: bars add up, notes lie on the neck, every mark makes sense for its note. Beside
the text stands what sounds, worked out here and not by the compiler: for every struck note or chord of a voice its place in time and on
the neck. The exactness of meters, values and tuplets comes from tables of this module (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from random import Random
from typing import Final

from hypothesis import strategies as st

from tabforge.model.events import DYNAMICS
from tabforge.model.meter import TEMPO_CHANGES
from tabforge.model.pitch import parse_pitch, spell_plainly
from tabforge.theory.chord_table import QUALITIES
from tests.marks_that_fit import Slot, give_marks
from tests.progressions import chord_block

METERS: Final = {
    "4/4": 32, "3/4": 24, "2/4": 16, "5/4": 40, "2/2": 32, "3/2": 48, "6/8": 24, "9/8": 36, "12/8": 48, "5/8": 20, "7/8": 28, "3+3+2/8": 32,
    "2+2+3/8": 28, "2+3/16": 10, "1/4": 8, "3/8": 12,
}  # fmt: skip
"""Meters with their length in thirty-seconds."""

VALUES: Final = {
    "w": 32, "h..": 28, "h.": 24, "h": 16, "q..": 14, "q.": 12, "q": 8, "e..": 7, "e.": 6, "e": 4, "s.": 3, "s": 2, "t": 1,
    "q+e": 12, "e+s": 6, "h+q.": 28,
}  # fmt: skip
"""Values and sums of them with their length in thirty-seconds."""

TUPLETS: Final = {
    "3(e e e)": (8, "8/3 8/3 8/3"),
    "3(q q q)": (16, "16/3 16/3 16/3"),
    "3(q e)": (8, "16/3 8/3"),
    "3(e s s e)": (8, "8/3 4/3 4/3 8/3"),
    "3(e. s e)": (8, "4 4/3 8/3"),
    "5:4(s s s s s)": (8, "8/5 8/5 8/5 8/5 8/5"),
    "6(s s s s s s)": (8, "4/3 4/3 4/3 4/3 4/3 4/3"),
    "7:4(s s s s s s s)": (8, "8/7 8/7 8/7 8/7 8/7 8/7 8/7"),
    "2:3(e e)": (12, "6 6"),
    "4:3(e e e e)": (12, "3 3 3 3"),
    "3(q 3(e e e) q)": (16, "16/3 16/9 16/9 16/9 16/3"),
    "5:4(e 3(s s s) e e e)": (16, "16/5 16/15 16/15 16/15 16/5 16/5 16/5"),
}
"""Tuplets with their length in thirty-seconds and that of each note."""

NECKS: Final = (
    ("", "E2 A2 D3 G3 B3 E4"),
    ("hand left", "E2 A2 D3 G3 B3 E4"),
    ("tuning drop D", "D2 A2 D3 G3 B3 E4"),
    ("tuning all fourths", "E2 A2 D3 G3 C4 F4"),
    ("tuning G3 D4 G4", "G3 D4 G4"),
    ("instrument bass", "E1 A1 D2 G2"),
    ("instrument five-string bass", "B0 E1 A1 D2 G2"),
    ("instrument ukulele", "G4 C4 E4 A4"),
    ("instrument seven-string guitar", "B1 E2 A2 D3 G3 B3 E4"),
    ("tuning A1 B1 C2 D2 E2 F2 G2 C3 F3 A3 D4 G4", "A1 B1 C2 D2 E2 F2 G2 C3 F3 A3 D4 G4"),
)
"""Header lines with the open strings they mean, low to high."""

SCALES: Final = (
    *("A2 natural minor", "D3 major", "E2 minor pentatonic", "Bb2 lydian", "F#2 phrygian dominant", "C3 whole tone", "G2 minor blues"),
    *('D3 "Kiln" semitones 0 2 3 6 7 8 11', "E2 steps W W H W W W H", 'C#3 "Ash" degrees 1 b2 3 #4 5 6 b7', "Ab2 harmonic minor"),
)

FRETTING: Final = (2, 4, 5, 7, 9, 10, 12, 14, 16, 17, 19)
"""A fretting that leaves half steps out: those of each fret above the open string."""

QUARTERS: Final = tuple(fret / 2 for fret in range(1, 29))
"""Frets a quarter tone apart."""

UNEQUAL: Final = (0.98, 2.04, 2.94, 3.86, 4.98, 5.9, 7.02, 7.96, 9.06, 9.96, 10.88, 12)
"""A temperament of unequal half steps, each near the note it serves for."""

KEY_CHANGES: Final = {"A2-dorian": 45, "Bb2-lydian": 46, "C3-major": 48, "F#2-phrygian-dominant": 42, "Eb3-harmonic-minor": 51}
"""Cells of a key row with their roots as MIDI numbers."""

TEMPOS: Final = ("96", "q.=60", '"Slowly" q=60', "h=44.5", "e=200", "72.25", '"Not too fast" e.=80')
TEMPO_CELLS: Final = ("96", "q.=60", "h=44.5", "q..=40", *TEMPO_CHANGES)
SWINGS: Final = ("e", "s", "e 3:2", "s 3:2")
GUITARS: Final = ("", "hand left", "tuning drop D", "tuning all fourths", "instrument seven-string guitar")
"""Necks on which a fifth, and the chords of VAMPS, can be held."""

DRONES: Final = ("1", "1 held", "1 every q", "1 every w+w", "^1 every e.")
FIFTHS: Final = ("1+n5", "1+^n5 every h")
VAMPS: Final = ("Am7 | C", "Em | % | D/F# every q.", "G | Am every e")
STROKES: Final = ("alternate", "economy", "legato", "written")
PLAYERS: Final = ("usual", "beginner", "small hand", "classical", "lead")
NOTES: Final = ("Let the thumb lead.", "Play slowly & evenly: “été” < “hiver”.")
NUMBERS: Final = ("n1", "b2", "n2", "b3", "n3", "n4", "#4", "n5", "b6", "n6", "b7", "n7")
"""Degrees by their semitones above the root, against the major scale."""
LYRICS: Final = ("bay", "lan-", "tern", '"by the bay"', "été", '"& <on>"')
WAYS: Final = (
    ("segno", "fine", "dsfine"),
    (".", "fine", "dcfine"),
    ("segno", "tocoda", "dscoda", "coda"),
    (".", "tocoda", "dccoda", "coda"),
    (".", "dc"),
    ("segno", "ds"),
)
"""Signs that make a way through a piece, in the order of their bars."""


@dataclass(frozen=True, slots=True)
class Struck:
    """A note or chord that is struck: section, voice, onset in quarter notes from the section's start, and for each note its string and
    fret (None for a dead note's). ``places`` is None where the program chooses them."""

    section: int
    voice: int
    onset: Fraction
    places: tuple[tuple[int, int | None], ...] | None


@dataclass(frozen=True, slots=True)
class Given:
    """A study's text and what must sound of it."""

    text: str
    struck: tuple[Struck, ...]


@dataclass(slots=True)
class Bar:
    """A bar of one voice: its rhythm as text and the slots of its columns."""

    rhythm: str
    slots: list[Slot] = field(default_factory=list)
    root: int = 0
    """The MIDI number of degree 1."""


class Maker:
    """Makes one study. Every choice comes from ``dice``."""

    def __init__(self, dice: Random) -> None:
        self.dice = dice
        line, strings = dice.choice(NECKS)
        self.capo = dice.choice((0, 0, 0, 2))
        self.opens = [parsed.midi for name in reversed(strings.split()) if (parsed := parse_pitch(name)) is not None]
        self.fretting: tuple[float, ...] = tuple(range(1, 25))
        if self.chance(16):
            self.fretting = dice.choice((FRETTING, QUARTERS, UNEQUAL))
        """Half steps of each fret above the open string."""
        self.scale = dice.choice(SCALES)
        root = parse_pitch(self.scale.split()[0])
        assert root is not None
        self.own_root = self.root = root.midi
        self.meter = dice.choice(list(METERS))
        self.header = ["title Proof", f"scale {self.scale}", f"meter {self.meter}", *([line] if line else [])]
        self.plain = len(self.fretting) == 24
        """Whether each fret is a half step."""
        if not self.plain:
            self.capo = 0
            self.header.append("fretting " + " ".join(f"{steps:g}" for steps in self.fretting))
        self.guitar = line in GUITARS and self.fretting is not FRETTING
        self.struck: list[Struck] = []
        self.base = dice.randint(1, 7)
        """The fret of the first finger: notes lie within four frets of it, or open."""

    def chance(self, percent: int) -> bool:
        return self.dice.randrange(100) < percent

    def study(self) -> Given:
        dice = self.dice
        lines = self.header
        if self.capo:
            lines.append(f"capo {self.capo}")
        for word, values in (("player", PLAYERS), ("fingering", ("show", "hide")), ("strokes", STROKES), ("allow", ("A541", "A542 A543"))):
            if self.chance(20):
                lines.append(f"{word} {dice.choice(values)}")
        for word, values in (("subtitle", LYRICS[:1]), ("author", LYRICS[4:5]), ("text", NOTES), ("tempo", TEMPOS), ("swing", SWINGS)):
            if self.chance(30):
                lines.append(f"{word} {dice.choice(values)}")
        lines += self.second_parts("")
        for number in range(dice.randint(1, 2)):
            lines += ["", *self.riff(number)]
        if self.chance(40):
            section = sum(line.startswith("riff") for line in lines)
            block, struck = chord_block(dice, len(self.opens), self.base, self.plain_bar, METERS, list(KEY_CHANGES))
            lines += ["", *block]
            self.struck += [Struck(section, 0, onset, places) for onset, places in struck]
        return Given("\n".join(lines) + "\n", tuple(self.struck))

    def second_parts(self, indent: str) -> list[str]:
        """Settings of a drone, a vamp and what is counted."""
        found = []
        if self.fretting is not FRETTING and self.chance(25):
            found.append(f"drone {self.dice.choice(DRONES + FIFTHS if self.guitar else DRONES)}")
        if self.guitar and self.chance(15):
            found.append(f"vamp {self.dice.choice(VAMPS)}")
        for word, values in (("backing", ("show", "hide")), ("click", ("on", "off")), ("count-in", ("0", "1", "2"))):
            if self.chance(10):
                found.append(f"{word} {self.dice.choice(values)}")
        if indent and self.chance(10):
            found = ["drone off", "vamp off"]
        return [indent + line for line in found]

    # one riff

    def riff(self, number: int) -> list[str]:
        dice = self.dice
        lines = [f'riff "Part {number + 1}"']
        meter = self.meter
        if self.chance(30):
            meter = dice.choice(list(METERS))
            lines.append(f"  meter {meter}")
        for word, values in (("tempo", TEMPOS), ("swing", (*SWINGS, "off")), ("text", NOTES), ("strokes", STROKES)):
            if self.chance(15):
                lines.append(f"  {word} {dice.choice(values)}")
        lines += self.second_parts("  ")
        pickup = 0
        if METERS[meter] > 12 and self.chance(25):
            name, pickup = dice.choice((("q", 8), ("e", 4), ("e+s", 6), ("q.", 12)))
            lines.append(f"  pickup {name}")
        at = Fraction(0)
        self.root = self.own_root
        for index in range(dice.randint(1, 2)):
            made, meter, at = self.system(number, meter, pickup if index == 0 else 0, at)
            lines += ["", *made] if index else made
        return lines

    def system(self, section: int, meter: str, pickup: int, at: Fraction) -> tuple[list[str], str, Fraction]:
        """A system's lines, the meter at its end, and where its end lies in quarter notes."""
        dice = self.dice
        count = dice.randint(1, 4)
        meters, lengths = ["."] * count, []
        for index in range(count):
            if (index or not pickup) and self.chance(12):
                meter = meters[index] = dice.choice(list(METERS))
            lengths.append(METERS[meter])
        if pickup:
            count, lengths, meters = count + 1, [pickup, *lengths], [".", *meters]
        keys = [dice.choice(list(KEY_CHANGES)) if self.chance(30) else "." for _ in range(count)] if self.chance(15) else []
        roots = [self.root] * count
        for index, key in enumerate(keys):
            self.root = roots[index] = KEY_CHANGES.get(key, self.root)
        above = []
        if keys:
            above.append("key " + self._by_bar(keys))
        if set(meters) != {"."}:
            above.append("meter " + self._by_bar(meters))
        if self.chance(25):
            above.append("tempo " + self._by_bar([dice.choice(TEMPO_CELLS) if self.chance(40) else "." for _ in range(count)]))
        if self.chance(35):
            above.append("signs " + self._by_bar(self.signs(count)))
        two = len(self.opens) >= 4 and self.chance(30)
        half = len(self.opens) // 2
        lines = list(above)
        voices = [range(1, half + 1), range(half + 1, len(self.opens) + 1)] if two else [range(1, len(self.opens) + 1)]
        for number, strings in enumerate(voices):
            bars = [self.bar(length) for length in lengths]
            for bar, root in zip(bars, roots, strict=True):
                bar.root = root
            slots = [slot for bar in bars for slot in bar.slots]
            kinds = ("frets", "frets", "notes", "degrees", "frets" if two else "free")
            kind = dice.choice(kinds[:3] if self.fretting is QUARTERS else kinds)
            # Which chords a hand reaches where no place is given is the fretboard's own matter, and its own tests'.
            self.sound(slots, strings, largest=1 if kind == "free" else 4)
            # Harmonics and trills ask for frets counted in half steps, or for more of them than so short a neck has.
            without = frozenset({"nh", "ah#", "th#", "tr#"} if not self.plain else ())
            give_marks(slots, dice, self.base, free=kind == "free", without=without)
            lines += ["voice 2"] if number else []
            lines += self.rows(bars, kind, upper=not number)
            self._expect(section, number, slots, at, free=kind == "free")
        return [f"  {line}" for line in lines], meter, at + Fraction(sum(lengths), 8)

    @staticmethod
    def _by_bar(cells: list[str]) -> str:
        """A row of one cell a bar; one of a single bar ends in a bar line, so that it is no setting."""
        return " | ".join(cells) + (" |" if len(cells) == 1 else "")

    def signs(self, count: int) -> list[str]:
        cells: list[list[str]] = [[] for _ in range(count)]
        way = self.dice.choice(WAYS)
        if len(way) <= count and self.chance(60):
            for index, sign in enumerate(way, count - len(way)):
                cells[index] += [sign] if sign != "." else []
        for number, cell in enumerate(cells):
            if self.chance(20):
                cell.append("[" + self.dice.choice(("A", "B2", "Verse")) + "]")
            if number and self.chance(20):
                cell.append("newline")
        return ["+".join(cell) or "." for cell in cells]

    # rhythm

    def plain_bar(self, length: int) -> tuple[str, list[Slot]]:
        """A bar of so many thirty-seconds without grace notes, in which something is struck."""
        while True:
            made = self.bar(length)
            if not any(slot.grace or slot.rest for slot in made.slots):
                return made.rhythm, made.slots

    def bar(self, length: int) -> Bar:
        """A bar of so many thirty-seconds."""
        dice = self.dice
        if self.chance(4) and length in {32, 24, 16}:
            return Bar({32: "w", 24: "h.", 16: "h"}[length], [Slot(Fraction(length, 8), rest=True)])
        cells: list[str] = []
        slots: list[Slot] = []
        while length:
            if self.chance(7):
                cells.append(dice.choice(("g", "gs", "ge", "gt", "g!", "gs!")))
                slots.append(Slot(Fraction(0), grace=True))
            tuplets = [text for text, (size, _) in TUPLETS.items() if size <= length]
            if tuplets and self.chance(12):
                text = dice.choice(tuplets)
                size, parts = TUPLETS[text]
                cells.append(text)
                slots += [Slot(Fraction(part) / 8) for part in parts.split()]
            else:
                fits = [text for text, size in VALUES.items() if size <= length]
                likely = [text for text in fits if text in {"q", "e", "s"}]
                text = dice.choice(likely if likely and self.chance(65) else fits)
                size = VALUES[text]
                cells.append(text)
                slots.append(Slot(Fraction(size, 8)))
            length -= size
        return Bar(" ".join(cells), slots)

    # what sounds

    def sound(self, slots: list[Slot], strings: range, largest: int) -> None:
        """Give each slot its notes: notes keep to a string for a while, so that marks can lead from one to the next."""
        dice = self.dice
        string = dice.choice(strings)
        for before, slot in pairwise([None, *slots]):
            after_grace = before is not None and before.grace
            roll = dice.randrange(100)
            if slot.rest:
                continue
            if roll < 10 and not slot.grace and not after_grace:
                slot.rest = True
                continue
            sounds = before is not None and (before.notes or before.held) and not before.dead and not before.grace
            if roll < 20 and sounds and not slot.grace:
                slot.held = True
                continue
            if not self.chance(60):
                string = dice.choice(strings)
            chord = [string]
            if roll > 80 and largest > 1 and not slot.grace:
                chord = dice.sample(list(strings), min(dice.randint(2, largest), len(strings)))
            slot.dead = roll in {20, 21, 22} and not slot.grace
            slot.notes = {each: dice.choice((0, *range(self.base, self.base + 4))) for each in chord}

    def cell(self, slot: Slot, kind: str, root: int) -> str:
        if slot.rest:
            return "r"
        if slot.held:
            return "="
        if slot.dead:
            return "+".join(f"{string}:x" if kind == "frets" else f"x@{string}" for string in slot.notes)
        return "+".join(self._note(string, fret, kind, root) for string, fret in slot.notes.items())

    def _note(self, string: int, fret: int, kind: str, root: int) -> str:
        if kind == "frets":
            return f"{string}:{fret}"
        steps = self.fretting[fret - 1] if fret else 0
        quarter = self.fretting is QUARTERS and steps != int(steps)
        midi = self.opens[string - 1] + self.capo + (int(steps) if quarter else round(steps))
        pin = "" if kind == "free" else f"@{string}:{fret}"
        if kind == "notes":
            sign = "+50" if quarter else ""
            if quarter and self.chance(50):
                midi, sign = midi + 1, "-50"
            return f"{spell_plainly(midi, self.chance(50))}{sign}{pin}"
        octave, above = divmod(midi - root, 12)
        number = NUMBERS[above]
        if octave > 0:
            number = number[0] + str(int(number[1:]) + 7 * octave)
        return "_" * -octave + number + pin

    def _expect(self, section: int, voice: int, slots: list[Slot], at: Fraction, free: bool) -> None:
        for slot in slots:
            if slot.notes:
                places = tuple(sorted((string, None if slot.dead or slot.crossed else fret) for string, fret in slot.notes.items()))
                self.struck.append(Struck(section, voice, at, None if free else places))
            at += slot.length

    # the rows beside it

    def rows(self, bars: list[Bar], kind: str, upper: bool) -> Iterator[str]:
        dice = self.dice
        lines = self.bar_lines(len(bars)) if upper else ["", *["|"] * (len(bars) - 1), ""]
        if upper and self.chance(30):
            yield "chords " + " | ".join(" ".join(self.chord() if self.chance(35) else "." for _ in bar.slots) for bar in bars)
        rhythm = [part for bar, line in zip(bars, lines, strict=False) for part in (line, bar.rhythm)]
        yield " ".join(part for part in ("rhythm", *rhythm, lines[-1]) if part)
        row = "degrees" if kind == "free" else kind
        yield f"{row} " + " | ".join(" ".join(self.cell(slot, kind, bar.root) for slot in bar.slots) for bar in bars)
        cells = {
            "marks": [slot.marks for bar in bars for slot in bar.slots],
            "dynamics": self.dynamics([slot for bar in bars for slot in bar.slots]),
            "fingers": ["." if kind == "free" else self.fingers(slot) for bar in bars for slot in bar.slots],
            "picks": [self.picks(slot) for bar in bars for slot in bar.slots],
            "words": [dice.choice(LYRICS) if slot.notes and self.chance(40) else "." for bar in bars for slot in bar.slots],
        }
        for word, found in cells.items():
            if word == "marks" or self.chance(25):
                ordered = iter(found)
                yield f"{word} " + " | ".join(" ".join(next(ordered) for _ in bar.slots) for bar in bars)

    def bar_lines(self, count: int) -> list[str]:
        """The lines before each bar and after the last."""
        lines = ["", *["|"] * (count - 1), ""]
        if count >= 3 and self.chance(20):
            lines[0], lines[count - 2], lines[count - 1], lines[count] = "|:", "|[1", ":|[2", "||"
        elif count >= 4 and self.chance(20):
            lines[0], lines[1], lines[2], lines[3] = "|:", "|[1,2", ":|[3", "||"
        elif count >= 2 and self.chance(25):
            lines[0], lines[1], lines[count] = "|:", ":|:" if count > 2 else "||", ":|*3" if count > 2 else ""
            if count == 2:
                lines[1], lines[2] = "|", ":|"
        elif self.chance(20):
            lines[count] = "||"
        return lines

    def chord(self) -> str:
        dice = self.dice
        if self.chance(8):
            return "N.C."
        root = dice.choice(("C", "F#", "Bb", "G", "Ebb" if self.chance(2) else "Eb"))
        suffix = dice.choice(QUALITIES).forms[0]
        bass = "/" + dice.choice(("G", "Bb", "F#")) if self.chance(15) else ""
        shape = ""
        if self.chance(20):
            frets = [dice.choice(("x", "0", "1", "2", "3", "10")) for _ in self.opens]
            shape = "@" + (".".join(frets) if "10" in frets else "".join(frets))
        return f"{root}{suffix}{bass}{shape}"

    def dynamics(self, slots: list[Slot]) -> list[str]:
        cells: list[str] = []
        for slot in slots:
            swells = bool(cells) and cells[-1] in {"<", ">", "-"}
            if slot.grace or self.chance(50):
                cells.append("-" if swells and self.chance(70) else ".")
            elif self.chance(50):
                cells.append(self.dice.choice(DYNAMICS))
            else:
                cells.append(self.dice.choice(("<", ">")))
        return cells

    def fingers(self, slot: Slot) -> str:
        if not slot.notes or slot.dead or self.chance(40):
            return "."
        return "+".join("0" if fret == 0 else self.dice.choice("1234T") for fret in slot.notes.values())

    def picks(self, slot: Slot) -> str:
        if not slot.notes or self.chance(30):
            return "."
        if self.chance(50):
            return self.dice.choice("du")
        return "+".join(self.dice.choice("pima") for _ in slot.notes)


@st.composite
def studies(draw: st.DrawFn) -> Given:
    """A whole study, as a text, and what must sound of it.

    Its choices come from a seed: a draw for each would take longer than all the rest.
    """
    return Maker(Random(draw(st.integers(0, 2**40)))).study()
