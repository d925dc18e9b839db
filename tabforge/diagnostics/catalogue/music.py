"""Codes for rhythm, bars, pitches and marks."""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics.core import Code, Severity

_E: Final = Severity.ERROR
_A: Final = Severity.ADVICE


def _riff(rows: str, header: str = "scale C3 major") -> str:
    return header + '\n\nriff "Sample"\n' + "".join(f"  {row}\n" for row in rows.split("\n"))


def _json(system: str) -> str:
    """A riff of one system as a JSON document: for what the parser of the riff language notices before the compiler can."""
    return '{"study": 1, "scale": {"root": "C3", "name": "major"}, "blocks": [{"kind": "riff", "systems": [{' + system + "}]}]}"


def _run(lines: str, header: str = "scale G2 major") -> str:
    return header + '\n\nrun "Sample"\n' + "".join(f"  {line}\n" for line in lines.split("\n"))


BAR_TOO_LONG: Final = Code(
    id="M301", severity=_E, title="bar too long",
    explanation="The durations of this bar add up to more than its meter holds. Shorten a note, move one into the next bar, or change the meter. "
    "A pickup bar is declared with `pickup`.",
    wrong=_riff("rhythm   q q q q e\ndegrees  1 2 3 4 5"), right=_riff("rhythm   q q q e e\ndegrees  1 2 3 4 5"),
)
BAR_TOO_SHORT: Final = Code(
    id="M302", severity=_E, title="bar too short",
    explanation="The durations of this bar add up to less than its meter holds. Add a rest `r` or lengthen a note. A first bar that is meant to be "
    "incomplete is declared with `pickup`; a bar that a repeat sign cuts in two may be short if both parts together are a whole bar.",
    wrong=_riff("rhythm   q q q e\ndegrees  1 2 3 4"), right=_riff("rhythm   q q q q\ndegrees  1 2 3 4"),
)
COLUMNS_DIFFER: Final = Code(
    id="M303", severity=_E, title="rows with different numbers of columns",
    explanation="Column n of every row belongs to note n, so every row of a bar has the same number of cells. Rests, holds and grace notes are columns too. "
    "In rows of marks, fingers, picks and words write `.` where there is nothing, or leave the whole bar empty.",
    wrong=_riff("rhythm   q q q q\ndegrees  1 2 3"), right=_riff("rhythm   q q q q\ndegrees  1 2 3 r"),
)
UNKNOWN_SCALE: Final = Code(
    id="M304", severity=_E, title="unknown scale",
    explanation="No scale of this name is known. `tabforge list scales` shows them all; your own is given by steps, semitones or degrees.",
    wrong=_riff("rhythm   w\ndegrees  1", "scale C3 lydain"), right=_riff("rhythm   w\ndegrees  1", "scale C3 lydian"),
)
BAD_SCALE: Final = Code(
    id="M305", severity=_E, title="a scale of one's own that does not work out",
    explanation="The steps of a scale add up to an octave (twelve half steps); its degrees go upward from 1.",
    wrong=_riff("rhythm   w\ndegrees  1", "scale C3 steps W W H W W W"), right=_riff("rhythm   w\ndegrees  1", "scale C3 steps W W H W W W H"),
)
NO_SCALE: Final = Code(
    id="M306", severity=_E, title="degrees without a scale",
    explanation="A degree is a degree of something: say `scale` in the header or in the block, or write the riff as `frets` or `notes`.",
    wrong=_riff("rhythm   w\ndegrees  1", "title Without a scale"), right=_riff("rhythm   w\ndegrees  1", "scale C3 major"),
)
NO_SUCH_DEGREE: Final = Code(
    id="M307", severity=_E, title="a degree that the scale does not have",
    explanation="A bare number is that degree of the scale in its own flavour. A pentatonic has no second or sixth of its own, for example. For a note outside the scale name its "
    "interval against the major scale: `b2`, `#4`, `n6`.",
    wrong=_riff("rhythm   h h\ndegrees  1 2", "scale A2 minor pentatonic"), right=_riff("rhythm   h h\ndegrees  1 3", "scale A2 minor pentatonic"),
)
TWO_SUCH_DEGREES: Final = Code(
    id="M308", severity=_E, title="a degree that the scale has twice",
    explanation="The scale has two altered forms of this number and no plain one, so a bare number does not say which. Write the accidental.",
    wrong=_riff("rhythm   h h\ndegrees  1 2", "scale C3 degrees 1 b2 #2 3 5 b7"),
    right=_riff("rhythm   h h\ndegrees  1 #2", "scale C3 degrees 1 b2 #2 3 5 b7"),
)
NOTHING_TO_HOLD: Final = Code(
    id="M309", severity=_E, title="nothing to hold",
    explanation="`=` holds what sounded before through its slot. Here nothing has sounded yet in this voice of the block.",
    wrong=_riff("rhythm   h h\ndegrees  = 1"), right=_riff("rhythm   h h\ndegrees  1 ="),
)
NO_BAR_BEFORE: Final = Code(
    id="M310", severity=_E, title="no bar before this one",
    explanation="`%` repeats the bar before it in the same row. The first bar of a block has none.",
    wrong=_riff("rhythm   h h\ndegrees  % | 1 2"), right=_riff("rhythm   h h\ndegrees  1 2 | %"),
)
NO_STRING_YET: Final = Code(
    id="M311", severity=_E, title="a fret or a dead note without a string",
    explanation="A bare fret stays on the string of the note before it, and so does a bare dead note. Name the string: `6:3`, `6:x`, or in rows of degrees and notes `x@6`.",
    wrong=_riff("rhythm   h h\nfrets    3 5"), right=_riff("rhythm   h h\nfrets    6:3 5"),
)
UNKNOWN_CHORD: Final = Code(
    id="M312", severity=_E, title="unknown chord symbol",
    explanation="A chord symbol is a root, a quality and perhaps a bass after a slash: `Bbmaj7`, `F#m7b5`, `C/E`. No chord is `N.C.`.",
    wrong=_riff("chords   Cmajj7\nrhythm   w\ndegrees  1"), right=_riff("chords   Cmaj7\nrhythm   w\ndegrees  1"),
)
NOTHING_TO_CARRY: Final = Code(
    id="M313", severity=_E, title="nothing to carry on",
    explanation="`-` in the marks carries on a palm mute, let ring, vibrato or held bend of the note before. Here the note before has none of these.",
    wrong=_riff("rhythm   h h\ndegrees  1 2\nmarks    h -"), right=_riff("rhythm   h h\ndegrees  1 2\nmarks    pm -"),
)
LEADS_NOWHERE: Final = Code(
    id="M314", severity=_E, title="a mark that leads nowhere",
    explanation="A hammer-on, pull-off or slide leads from its note to the next note on the same string. Here no note follows, or a rest does. "
    "A slide away from a note into nothing is `out\\` or `out/`.",
    wrong=_riff("rhythm   h h\ndegrees  1 2\nmarks    . h"), right=_riff("rhythm   h h\ndegrees  1 2\nmarks    h ."),
)
LEADS_ACROSS: Final = Code(
    id="M315", severity=_E, title="a mark that leads to another string",
    explanation="A hammer-on, pull-off or slide stays on its string. Pin both notes to one string, or drop the mark.",
    wrong=_riff("rhythm   h h\nfrets    5:3 4:5\nmarks    h ."), right=_riff("rhythm   h h\nfrets    5:3 5\nmarks    h ."),
)
MARK_MISSES: Final = Code(
    id="M316", severity=_E, title="a mark on a string that is not played",
    explanation="`b1@2` puts a mark on the note that lies on string 2. No note of this column does.",
    wrong=_riff("rhythm   w\nfrets    6:3\nmarks    v@5"), right=_riff("rhythm   w\nfrets    6:3\nmarks    v@6"),
)
MARK_ON_REST: Final = Code(
    id="M317", severity=_E, title="a mark on a rest",
    explanation="A technique needs a note. A palm mute or let ring may be carried on (`-`) over a rest, but nothing begins on one.",
    wrong=_riff("rhythm   h h\ndegrees  1 r\nmarks    . v"), right=_riff("rhythm   h h\ndegrees  1 r\nmarks    v ."),
)
TUPLET_NOT_FILLED: Final = Code(
    id="M318", severity=_E, title="a tuplet that is not filled",
    explanation="A tuplet n:m holds as much as n equal notes: a triplet of eighths three eighths, or a quarter and an eighth.",
    wrong=_riff("rhythm   3(e e) q h\ndegrees  1 2 3 4"), right=_riff("rhythm   3(e e e) q h\ndegrees  1 2 3 4 5"),
)
TUPLET_TOO_MUCH: Final = Code(
    id="M319", severity=_E, title="a tuplet beyond the limits",
    explanation="A tuplet's numbers go up to 32, and tuplets are nested three deep at most.",
    wrong=_json('"rhythm": ["33:32(t*33)"], "degrees": ["1*33"]'), right=_json('"rhythm": ["t*32"], "degrees": ["1*32"]'),
)
UNBALANCED: Final = Code(
    id="M320", severity=_E, title="parentheses that do not match",
    explanation="Every group that is opened with `(` is closed with `)` in the same bar.",
    wrong=_json('"rhythm": ["h (q q"], "degrees": ["1 2 3"]'),
    right=_json('"rhythm": ["h (q q)"], "degrees": ["1 2 3"]'),
)
UNKNOWN_INSTRUMENT: Final = Code(
    id="M321", severity=_E, title="unknown instrument",
    explanation="No instrument of this name is known. `tabforge list instruments` shows them all.",
    wrong=_riff("rhythm   w\ndegrees  1", "instrument gitar\nscale C3 major"), right=_riff("rhythm   w\ndegrees  1", "instrument guitar\nscale C3 major"),
)
UNKNOWN_TUNING: Final = Code(
    id="M322", severity=_E, title="unknown tuning",
    explanation="The instrument has no tuning of this name. `tabforge list tunings` shows them all; any tuning can be given by its pitches from the lowest string to the highest.",
    wrong=_riff("rhythm   w\ndegrees  1", "tuning drop E\nscale C3 major"), right=_riff("rhythm   w\ndegrees  1", "tuning drop D\nscale C3 major"),
)
NO_RHYTHM: Final = Code(
    id="M323", severity=_E, title="no rhythm",
    explanation="The first system of a riff, and of its second voice, needs a row of rhythm; later ones take it over.",
    wrong=_riff("degrees  1 2 3 4"), right=_riff("rhythm   q\ndegrees  1 2 3 4".replace("q", "q q q q")),
)
NOTHING_SOUNDS: Final = Code(
    id="M324", severity=_E, title="a system without a row that sounds",
    explanation="A system has one row of degrees, frets or notes. Rows of one system stand together without an empty line between them.",
    wrong='{"study": 1, "blocks": [{"kind": "riff", "systems": [{"rhythm": ["w"]}]}]}',
    right='{"study": 1, "blocks": [{"kind": "riff", "systems": [{"rhythm": ["w"], "frets": ["6:0"]}]}]}',
)
TWO_SOUND: Final = Code(
    id="M325", severity=_E, title="two rows that sound",
    explanation="A system says what sounds in one way: degrees, frets or notes. A second voice has a row of its own after `voice 2`.",
    wrong='{"study": 1, "blocks": [{"kind": "riff", "systems": [{"rhythm": ["w"], "frets": ["6:0"], "notes": ["E2"]}]}]}',
    right='{"study": 1, "blocks": [{"kind": "riff", "systems": [{"rhythm": ["w"], "notes": ["E2"]}]}]}',
)
BARS_DIFFER: Final = Code(
    id="M326", severity=_E, title="rows with different numbers of bars",
    explanation="The rows of a system have the same bars. A row of rhythm may be shorter and is begun again; other rows may stop early, but none may be longer than the row that sounds.",
    wrong=_json('"rhythm": ["w"], "degrees": ["1", "2"], "marks": [".", ".", "v"]'),
    right=_json('"rhythm": ["w"], "degrees": ["1", "2"], "marks": [".", "v"]'),
)
VOICES_DIFFER: Final = Code(
    id="M327", severity=_E, title="voices with different numbers of bars",
    explanation="The second voice fills the same bars as the first: as many bars in each system, with rests where it is silent.",
    wrong=_json('"rhythm": ["w"], "degrees": ["8", "9"], "voice2": {"rhythm": ["w"], "degrees": ["1"]}'),
    right=_json('"rhythm": ["w"], "degrees": ["8", "9"], "voice2": {"rhythm": ["w"], "degrees": ["1", "r"]}'),
)
PICKUP_TOO_LONG: Final = Code(
    id="M328", severity=_E, title="a pickup as long as a bar",
    explanation="A pickup is shorter than a bar of the meter.",
    wrong=_riff("pickup   w\nrhythm   w\ndegrees  1"), right=_riff("pickup   h\nrhythm   h | w\ndegrees  1 | 2"),
)
PIN_IS_OTHER: Final = Code(
    id="M329", severity=_E, title="a pinned fret that gives another note",
    explanation="A degree or note pinned to a string and a fret must be the note that lies there.",
    wrong=_riff("rhythm   w\ndegrees  1@5:4"), right=_riff("rhythm   w\ndegrees  1@5:3"),
)
NO_SUCH_STRING: Final = Code(
    id="M330", severity=_E, title="a string the instrument does not have",
    explanation="Strings are counted from the highest, string 1, to the lowest of this tuning.",
    wrong=_riff("rhythm   w\nfrets    7:3"), right=_riff("rhythm   w\nfrets    6:3"),
)
BEYOND_NECK: Final = Code(
    id="M331", severity=_E, title="a fret beyond the neck",
    explanation="The instrument's neck ends before this fret. With a capo fewer frets are left.",
    wrong=_riff("rhythm   w\nfrets    6:30"), right=_riff("rhythm   w\nfrets    6:20"),
)
FINGERS_DIFFER: Final = Code(
    id="M332", severity=_E, title="fingers that do not match the chord",
    explanation="Under a chord write one finger for each note in the order of the notes, joined with +, or nothing at all.",
    wrong=_riff("rhythm   w\nfrets    6:3+5:5\nfingers  1+3+4"), right=_riff("rhythm   w\nfrets    6:3+5:5\nfingers  1+3"),
)
KEYS_NEED_SCALE: Final = Code(
    id="M333", severity=_E, title="keys without a scale",
    explanation="To write the study on other roots its own root must be known: say `scale` in the header.",
    wrong=_riff("rhythm   w\nfrets    6:3", "keys F"), right=_riff("rhythm   w\nfrets    6:3", "scale G2 major\nkeys F"),
)
CANNOT_MOVE: Final = Code(
    id="M334", severity=_E, title="a block that does not fit the neck in another key",
    explanation="Moved to this root, a note of the block falls below the lowest string, behind the nut, or past the last fret. Give the root an octave, leave this key out, or write the block in degrees.",
    wrong=_riff("rhythm   w\nfrets    6:0 | 6:22".replace("w\n", "w\n"), "scale E2 major\nkeys A"), right=_riff("rhythm   w\nfrets    6:0 | 6:5", "scale E2 major\nkeys A"),
)
TOO_MUCH: Final = Code(
    id="M335", severity=_E, title="more than the limits allow",
    explanation="When everything is written out a study may have 250,000 notes and rests, and its tuplets need a common division of the quarter note. Split the study.",
    wrong=_riff("rhythm   (((t)*999)*999)*9\ndegrees  1"), right=_riff("rhythm   w\ndegrees  1"),
)
BAD_ENDING: Final = Code(
    id="M336", severity=_E, title="endings that do not work out",
    explanation="A first ending closes with a repeat sign `:|` before the next ending begins; endings are numbered in order from 1.",
    wrong=_riff("rhythm   w\ndegrees  |: 1 |[2 2 :|[3 3"), right=_riff("rhythm   w\ndegrees  |: 1 |[1 2 :|[2 3"),
)
EMPTY_RUN: Final = Code(
    id="M337", severity=_E, title="a run without notes",
    explanation="The range, tones and sequence of this run leave no note: `from` lies above `to`, or the sequence is longer than the line.",
    wrong=_run("layout  string 1\nfrom    8\nto      1\nrhythm  q"), right=_run("layout  string 3\nfrom    1\nto      8\nrhythm  q", "scale G3 major"),
)
RUN_RHYTHM: Final = Code(
    id="M338", severity=_E, title="a rhythm that does not fit the run's bars",
    explanation="A run begins its rhythm again until the line ends. A tuplet cannot lie across a bar line, and a rhythm of grace notes alone never fills a bar.",
    wrong=_run("layout  3 per string from string 6\nrhythm  q 3(q q q)"), right=_run("layout  3 per string from string 6\nrhythm  h 3(q q q)"),
)
WORDS_ON_NOTHING: Final = Code(
    id="M339", severity=_E, title="a mark, finger or stroke on a held note",
    explanation="A hold goes on with what sounds already: it takes no finger and no stroke of its own.",
    wrong=_riff("rhythm   h h\ndegrees  1 =\npicks    d u"), right=_riff("rhythm   h h\ndegrees  1 =\npicks    d ."),
)
NO_HAIRPIN: Final = Code(
    id="M341", severity=_E, title="no hairpin to carry on",
    explanation="`-` in a row of dynamics carries a hairpin `<` or `>` on, up to the next dynamic. Here no hairpin is open.",
    wrong=_riff("rhythm    h h\ndegrees   1 2\ndynamics  mf -"), right=_riff("rhythm    q q q q\ndegrees   1 2 3 4\ndynamics  mf < - f"),
)
BAD_SHAPE: Final = Code(
    id="M342", severity=_E, title="a chord shape that does not fit the instrument",
    explanation="The shape behind a chord symbol has one sign for each string from the lowest to the highest: a fret, or x for a string that is not played: `C@x32010`. "
    "With two-digit frets the signs are parted by dots: `Am@5.7.7.5.5.5`.",
    wrong=_riff("chords   C@x3201\nrhythm   w\ndegrees  1"), right=_riff("chords   C@x32010\nrhythm   w\ndegrees  1"),
)
NO_NODE: Final = Code(
    id="M340", severity=_E, title="a harmonic at a fret with no node",
    explanation="A harmonic speaks where the string is touched at a half, a third, a quarter, a fifth or a sixth of its length: over the frets 12, 7, 5, 4 and 3 and their "
    "counterparts higher up.",
    wrong=_riff("rhythm   w\nfrets    6:6\nmarks    nh"), right=_riff("rhythm   w\nfrets    6:7\nmarks    nh"),
)
