"""Hypothesis strategies of whole studies, as documents.

``studies()`` makes documents that are right in every way: bars add up, degrees exist, notes lie on the neck. ``tests/syntax/documents.py``
has the wilder ones, of which only the writing must be right.
"""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

Document = dict[str, Any]

METERS = {"4/4": 32, "3/4": 24, "2/4": 16, "6/8": 24, "12/8": 48, "5/4": 40, "7/8": 28, "2+2+3/8": 28, "9/8": 36}
"""Meters with their length in thirty-seconds."""

LENGTHS = {"w": 32, "h.": 24, "h": 16, "q.": 12, "q": 8, "e.": 6, "e": 4, "s": 2, "q+e": 12, "e+s": 6}
TUPLETS = {"3(e e e)": (8, 3), "3(q q q)": (16, 3), "3(q e)": (8, 2), "5:4(s s s s s)": (8, 5), "3(e s s e)": (8, 4)}
"""Tuplets with their length in thirty-seconds and their number of notes."""

SCALES: tuple[tuple[Document, tuple[int, ...]], ...] = (
    ({"name": "major"}, (1, 2, 3, 4, 5, 6, 7)),
    ({"name": "lydian"}, (1, 2, 3, 4, 5, 6, 7)),
    ({"name": "dorian"}, (1, 2, 3, 4, 5, 6, 7)),
    ({"name": "harmonic minor"}, (1, 2, 3, 4, 5, 6, 7)),
    ({"name": "minor pentatonic"}, (1, 3, 4, 5, 7)),
    ({"name": "major pentatonic"}, (1, 2, 3, 5, 6)),
    ({"steps": ["W", "W", "H", "W", "W", "W", "H"]}, (1, 2, 3, 4, 5, 6, 7)),
    ({"name": "Kiln", "degrees": ["1", "2", "b3", "#4", "5", "6", "b7"]}, (1, 2, 3, 4, 5, 6, 7)),
)
"""Scales with the numbers of the degrees they have."""

ROOTS = ("E2", "F2", "F#2", "G2", "Ab2", "A2", "Bb2", "B2", "C3", "D3")
WORDS = st.text("abcdefghijklmnop ÄéС", min_size=1, max_size=12).map(lambda text: " ".join(text.split()) or "a")


def _scale_degrees(numbers: tuple[int, ...]) -> tuple[int, ...]:
    return (*numbers, *(number + 7 for number in numbers if number <= 3))


@st.composite
def rhythm_bars(draw: st.DrawFn, length: int, plain: bool = False) -> tuple[str, int]:
    """A bar of rhythm that lasts ``length`` thirty-seconds, and its number of columns."""
    cells: list[str] = []
    columns = 0
    while length:
        fits = [value for value, size in LENGTHS.items() if size <= length]
        tuplets = [] if plain else [value for value, (size, _) in TUPLETS.items() if size <= length]
        value = draw(st.sampled_from(fits * 3 + tuplets) if fits else st.sampled_from(("s",)))
        if value in TUPLETS:
            size, count = TUPLETS[value]
        else:
            size, count = LENGTHS[value], 1
            repeats = length // size
            if repeats > 1 and not plain and draw(st.integers(0, 5)) == 0:
                count = draw(st.integers(2, min(repeats, 6)))
                value, size = f"{value}*{count}", size * count
        if not plain and draw(st.integers(0, 15)) == 0:
            cells.append(draw(st.sampled_from(("g", "gs", "g!"))))
            columns += 1
        cells.append(value)
        columns += count
        length -= size
    return " ".join(cells), columns


def _grace_columns(bar: str) -> set[int]:
    """Columns of a bar of rhythm that are grace notes."""
    found: set[int] = set()
    column = 0
    for cell in bar.replace("(", " ( ").replace(")", " ) ").split():
        if cell in "()" or cell[0].isdigit():
            continue
        value, _, count = cell.partition("*")
        if value.startswith("g"):
            found.add(column)
        column += int(count or 1)
    return found


@st.composite
def sounding_bars(
    draw: st.DrawFn, kind: str, numbers: tuple[int, ...], rhythm: str, columns: int, strings: tuple[int, int] = (1, 6)
) -> str:
    """A bar of degrees, frets or notes for a bar of rhythm. Every fret stands behind its string, one of ``strings`` from first to last."""
    graces = _grace_columns(rhythm)
    degrees = st.sampled_from(_scale_degrees(numbers)).map(str)
    if kind == "frets":
        last = strings[1]
        notes = st.tuples(st.integers(*strings), st.integers(0, 9)).map(lambda place: f"{place[0]}:{place[1]}")
        chords = st.integers(0, 7).map(lambda fret: f"{last}:{fret}+{last - 1}:{fret + 2}+{last - 2}:{fret + 2}")
        dead = st.sampled_from((f"{last}:x", f"{last - 1}:x", f"{last - 1}:x+{last - 2}:x"))
    elif kind == "notes":
        notes = st.sampled_from(("E2", "G2", "Ab2", "A2", "C3", "C#3", "D3", "Eb3", "G3", "B3", "C4", "E4", "F#4"))
        chords = st.sampled_from(("E2+B2", "A2+E3+A3", "C3+G3", "D3+A3+D4"))
        dead = st.sampled_from(("x@6", "x@4"))
    else:
        notes = degrees
        chords = st.sampled_from(("1+8", "1+5") if 5 in numbers else ("1+8",))
        dead = st.sampled_from(("x@6", "x@4"))
    cells: list[str] = []
    for column in range(columns):
        choice = draw(st.integers(0, 19))
        sounding = cells and cells[-1] != "r" and "x" not in cells[-1] and not {column, column - 1} & graces
        if column in graces or choice < 13:
            cells.append(draw(notes))
        elif choice < 15:
            cells.append(draw(chords))
        elif choice == 15:
            cells.append(draw(dead))
        elif choice < 18 or not sounding:
            cells.append("r")
        else:
            cells.append("=")
    return " ".join(cells)


MARKS = (".", ".", ".", "st", "ac", "tn", "v", "pm", "gh", "ac+st")
CHORDS = ("Am7", "C/E", "Bbmaj7", "G7", "F#m", "N.C.")


SIDES = {
    "picks": (".", "d", "u"),
    "words": (".", "bay", "lan-", '"by the bay"'),
    "chords": (".", ".", ".", *CHORDS),
    "dynamics": (".", ".", ".", "p", "mf", "f"),
}


def side_bars(word: str, columns: int) -> st.SearchStrategy[str]:
    """A bar of one of the rows of SIDES."""
    return st.lists(st.sampled_from(SIDES[word]), min_size=columns, max_size=columns).map(" ".join)


@st.composite
def systems(draw: st.DrawFn, length: int, numbers: tuple[int, ...], first: int | None = None) -> Document:
    """One system of bars of ``length`` thirty-seconds; ``first`` is the length of a pickup."""
    count = draw(st.integers(1, 4))
    lengths = [length] * count
    if first is not None:
        lengths.insert(0, first)
    bars = [draw(rhythm_bars(each)) for each in lengths]
    kind = draw(st.sampled_from(("degrees", "degrees", "frets", "notes", "voices")))
    if kind == "voices":
        return draw(two_voices(bars, lengths, numbers))
    sounds = [draw(sounding_bars(kind, numbers, rhythm, columns)) for rhythm, columns in bars]
    system: Document = {"rhythm": [rhythm for rhythm, _ in bars], kind: sounds}
    if draw(st.booleans()):
        system["marks"] = [draw(marks_for(each)) for each in sounds]
    for word in SIDES:
        if draw(st.integers(0, 3)) == 0:
            system[word] = [draw(side_bars(word, columns)) for _, columns in bars]
            if word == "picks":
                system[word] = [_only_on_notes(marks, each) for marks, each in zip(system[word], sounds, strict=True)]
    for bar in range(1, len(lengths)):
        if lengths[bar] == lengths[bar - 1] and draw(st.integers(0, 7)) == 0:
            for word, row in system.items():
                row[bar] = "%" if word in ("rhythm", kind) else ""
    if first is None and count >= 2 and draw(st.integers(0, 3)) == 0:
        system["barlines"] = {"0": "|:", str(count): draw(st.sampled_from((":|", ":|*3")))}
    elif draw(st.integers(0, 4)) == 0:
        system["barlines"] = {str(len(lengths)): "||"}
    return system


@st.composite
def two_voices(draw: st.DrawFn, bars: list[tuple[str, int]], lengths: list[int], numbers: tuple[int, ...]) -> Document:
    """One system of two voices, each on three strings of its own. ``bars``: the upper rhythm with its columns; ``lengths``: theirs."""
    lower = [draw(rhythm_bars(each, plain=True)) for each in lengths]
    upper = [draw(sounding_bars("frets", numbers, rhythm, columns, (1, 3))) for rhythm, columns in bars]
    below = [draw(sounding_bars("frets", numbers, rhythm, columns, (4, 6))) for rhythm, columns in lower]
    return {
        "rhythm": [rhythm for rhythm, _ in bars],
        "frets": upper,
        "voice2": {"rhythm": [rhythm for rhythm, _ in lower], "frets": below},
    }


def _only_on_notes(marks: str, sounds: str) -> str:
    pairs = zip(marks.split(), sounds.split(), strict=True)
    return " ".join("." if sound in ("r", "=") else mark for mark, sound in pairs)


def marks_for(sounds: str) -> st.SearchStrategy[str]:
    """Marks that stand under notes only, never under a rest, a hold or a dead note."""

    def keep(marks: list[str]) -> str:
        pairs = zip(marks, sounds.split(), strict=True)
        return " ".join("." if sound in ("r", "=") or "x" in sound else mark for mark, sound in pairs)

    count = len(sounds.split())
    return st.lists(st.sampled_from(MARKS), min_size=count, max_size=count).map(keep)


@st.composite
def riffs(draw: st.DrawFn, meter: str, numbers: tuple[int, ...], pickup: bool = False) -> Document:
    """A riff of one to three systems in a meter, on a scale with these degree numbers."""
    block: Document = {"kind": "riff", "name": draw(WORDS), "systems": []}
    if draw(st.integers(0, 4)) == 0:
        meter = draw(st.sampled_from(list(METERS)))
        block["meter"] = meter
    length = METERS[meter]
    first = None
    if pickup:
        block["pickup"], first = "e", 4
    for _ in range(draw(st.integers(1, 3))):
        block["systems"].append(draw(systems(length, numbers, first)))
        first = None
    if draw(st.integers(0, 5)) == 0:
        block["text"] = draw(st.lists(WORDS, min_size=1, max_size=2))
    return block


@st.composite
def runs(draw: st.DrawFn, numbers: tuple[int, ...], length: int) -> Document:
    """A run that lies on a guitar of six strings, in bars of ``length`` thirty-seconds."""
    layout = draw(st.sampled_from(({"kind": "free"}, {"kind": "per string", "count": 3 if len(numbers) == 7 else 2, "from": 6}, None)))
    block: Document = {"kind": "run", "name": draw(WORDS), "path": draw(st.sampled_from((["up"], ["down"], ["up", "down"])))}
    if layout is not None:
        block["layout"] = layout
    if layout is None or layout["kind"] == "free":
        block["octaves"] = draw(st.integers(1, 2))
    if draw(st.booleans()):
        block["order"] = draw(st.sampled_from(([1, 3], [1, 2, 3], [1, 2, 3, 4], [1, 3, 2])))
    if draw(st.booleans()):
        tuplets = ("3(e e e)",) if length % TUPLETS["3(e e e)"][0] == 0 else ()  # no tuplet lies across a bar line
        block["rhythm"] = draw(st.sampled_from(("e", "s", "q e e", *tuplets)))
    return block


PROGRESSION = ("C", "Am7", "G7", "F#m", "Dm7", "C/E", "nIV", "nV7", "niim7", "bVII", "nI")
"""Chords that a guitar has, whatever the scale: names, and numerals against the major scale."""


@st.composite
def progressions(draw: st.DrawFn, length: int) -> Document:
    """A chord block of a guitar of six strings, in bars of ``length`` thirty-seconds: a chord a bar, struck at once."""
    block: Document = {"kind": "chords", "name": draw(WORDS), "systems": []}
    if draw(st.booleans()):
        block["voicing"] = draw(st.sampled_from(({"kind": "free"}, {"kind": "barre"}, {"kind": "triads", "strings": [3, 2, 1]})))
    if draw(st.booleans()):
        block["diagrams"] = draw(st.sampled_from(("show", "hide")))
    way = draw(st.sampled_from(("strum", "picking", "rhythm", None)))
    for _ in range(draw(st.integers(1, 2))):
        bars = [draw(st.sampled_from(PROGRESSION)) for _ in range(draw(st.integers(1, 4)))]
        system: Document = {"progression": bars}
        if way is None:
            bars.append(draw(st.sampled_from((".", "%"))))
        else:
            rhythms = [draw(rhythm_bars(length, plain=way != "rhythm")) for _ in range(draw(st.integers(1, len(bars))))]
            system["rhythm"] = [rhythm for rhythm, _ in rhythms]
        if way in ("strum", "picking"):
            cells = ("d", "u", "gd", "xu", "r", ".") if way == "strum" else ("p", "i", "m", "a", "p+a", "r", ".")
            system[way] = [" ".join([cells[0], *(draw(st.sampled_from(cells)) for _ in range(columns - 1))]) for _, columns in rhythms]
        block["systems"].append(system)
    return block


@st.composite
def studies(draw: st.DrawFn) -> Document:
    """A whole study that is right in every way, as a document."""
    scale, numbers = draw(st.sampled_from(SCALES))
    meter = draw(st.sampled_from(list(METERS)))
    study: Document = {"study": 1, "scale": {"root": draw(st.sampled_from(ROOTS)), **scale}, "meter": meter}
    if draw(st.booleans()):
        study["title"] = draw(WORDS)
    if draw(st.booleans()):
        study["tempo"] = draw(st.sampled_from(({"bpm": 96}, {"bpm": 60, "beat": "q."}, {"bpm": 72.5, "beat": "q", "words": "Slowly"})))
    if draw(st.integers(0, 3)) == 0:
        study["swing"] = draw(st.sampled_from(({"value": "e"}, {"value": "e", "ratio": [3, 2]})))
    blocks: list[Document] = []
    for _ in range(draw(st.integers(1, 3))):
        kind = draw(st.integers(0, 5))
        if kind == 0:
            blocks.append({"kind": "text", "name": draw(WORDS), "lines": draw(st.lists(WORDS, min_size=1, max_size=3))})
        elif kind == 1:
            blocks.append(draw(runs(numbers, METERS[meter])))
        elif kind == 3:
            blocks.append(draw(progressions(METERS[meter])))
        else:
            blocks.append(draw(riffs(meter, numbers, pickup=kind == 2)))
    study["blocks"] = blocks
    return study
