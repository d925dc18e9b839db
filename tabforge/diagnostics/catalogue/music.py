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


def _chords(lines: str, header: str = "scale G2 major") -> str:
    return header + '\n\nchords "Slack water"\n' + "".join(f"  {line}\n" for line in lines.split("\n"))


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
    explanation="A chord symbol is a root, a quality and perhaps a bass after a slash: `Bbmaj7`, `F#m7b5`, `C/E`. No chord is `N.C.`. A roman numeral is counted in the scale in "
    "force: `ii7`, `V7`, `vii°`, large for a major third and small for a minor one; with an accidental (`bVII`) against the major scale.",
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
    wrong=_json('"rhythm": ["w"], "degrees": ["1", "2"], "marks": [".", ".", "ac"]'),
    right=_json('"rhythm": ["w"], "degrees": ["1", "2"], "marks": [".", "ac"]'),
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
    explanation="A harmonic speaks where the string is touched at a half, a third, a quarter, a fifth or a sixth of its length: over fret 12 (a half), "
    "7 and 19 (a third), 5 and 24 (a quarter), 4, 9 and 16 (a fifth) and 3 (a sixth); of a fretted string so many frets above the fretted one. "
    "Elsewhere the touch only deadens it.",
    wrong=_riff("rhythm   w\nfrets    6:6\nmarks    nh"), right=_riff("rhythm   w\nfrets    6:7\nmarks    nh"),
)
OPEN_BEND: Final = Code(
    id="M350", severity=_E, title="a bend on an open string",
    explanation="A bend pushes the string to the side with the finger that holds it down. An open string has no finger on it, and neither has one that is only touched "
    "for a natural harmonic. Fret the note on the next lower string, where a finger holds it. To press the string behind the nut say so in `words`; the vibrato bar is `dip`. "
    "Under a chord a mark is for all its notes: `b1@3` bends string 3 alone.",
    wrong=_riff("rhythm   h h\nfrets    2:0 2:3\nmarks    b1 ."), right=_riff("rhythm   h h\nfrets    3:4 2:3\nmarks    b1 ."),
)
HAMMER_DOWN: Final = Code(
    id="M351", severity=_E, title="a hammer-on that does not go up",
    explanation="A hammer-on brings a finger down on a higher fret of a string that sounds, so the next note is higher. To a lower note on the same string it is a pull-off, `p`; "
    "the same note again has to be struck, or tapped with the fretting hand (`lt`).",
    wrong=_riff("rhythm   h h\nfrets    3:7 5\nmarks    h ."), right=_riff("rhythm   h h\nfrets    3:7 5\nmarks    p ."),
)
PULL_UP: Final = Code(
    id="M352", severity=_E, title="a pull-off that does not go down",
    explanation="A pull-off takes a finger off the string and lets a lower fret, or the open string, sound. To a higher note on the same string it is a hammer-on, `h`.",
    wrong=_riff("rhythm   h h\nfrets    3:5 7\nmarks    p ."), right=_riff("rhythm   h h\nfrets    3:5 7\nmarks    h ."),
)
PULL_OPEN: Final = Code(
    id="M353", severity=_E, title="a pull-off from an open string",
    explanation="A pull-off needs a finger to pull: the first of its two notes is fretted, the second is lower. From an open string one hammers on to a fretted note, `h`.",
    wrong=_riff("rhythm   h h\nfrets    4:0 2\nmarks    p ."), right=_riff("rhythm   h h\nfrets    4:2 0\nmarks    p ."),
)
SLIDE_STAYS: Final = Code(
    id="M354", severity=_E, title="a slide that stays at its fret",
    explanation="A slide moves the finger along the string, so its two notes lie at different frets. To let a note go on write `=`; to slide into one note from nowhere in "
    "particular write `in/` or `in\\`.",
    wrong=_riff("rhythm   h h\nfrets    4:5 5\nmarks    sl ."), right=_riff("rhythm   h h\nfrets    4:5 7\nmarks    sl ."),
)
OPEN_SLIDE: Final = Code(
    id="M355", severity=_E, title="a slide into or out of an open string",
    explanation="A slide in or out is made by the finger that holds the note, along the fretboard. An open string has no finger on it. Fret the same note on the next lower string.",
    wrong=_riff("rhythm   h h\nfrets    2:0 3\nmarks    in/ ."), right=_riff("rhythm   h h\nfrets    3:4 2:3\nmarks    in/ ."),
)
OPEN_TAP: Final = Code(
    id="M356", severity=_E, title="a tap on an open string",
    explanation="A tap sounds a note by bringing a finger down hard behind a fret. A note at fret 0 has no fret to tap. The open string that is heard when a tapping finger leaves "
    "it is a pull-off: write `t+p` on the tapped note. To tap an open string over a node is a tapped harmonic, `th12`.",
    wrong=_riff("rhythm   h h\nfrets    1:12 0\nmarks    . t"), right=_riff("rhythm   h h\nfrets    1:12 0\nmarks    t+p ."),
)
PAST_NECK: Final = Code(
    id="M357", severity=_E, title="a trill or a tap past the last fret",
    explanation="A trill alternates with a note some frets higher, and a tapped harmonic is tapped some frets higher: that fret must be on the neck. With a capo fewer frets are left. "
    "Play the note on a thinner string, where it lies lower.",
    wrong=_riff("rhythm   h h\nfrets    2:24 20\nmarks    tr2 ."), right=_riff("rhythm   h h\nfrets    1:17 15\nmarks    tr2 ."),
)
TWO_BENDS: Final = Code(
    id="M358", severity=_E, title="two bends on one note",
    explanation="One finger pushes one string by one amount. Choose the bend that is meant; one that goes up and comes back is `b1r`, one that is there before the stroke is `pb1`. "
    "In a chord `b1@2+b1/2@3` bends each string its own way.",
    wrong=_riff("rhythm   h h\nfrets    3:7 5\nmarks    b1+pb1/2 ."), right=_riff("rhythm   h h\nfrets    3:7 5\nmarks    b1r ."),
)
TWO_HARMONICS: Final = Code(
    id="M359", severity=_E, title="two kinds of harmonic on one note",
    explanation="A natural harmonic touches the open string, an artificial or a tapped one a string that is held down, a pinch harmonic is made by the picking thumb. One note is made "
    "in one of these ways.",
    wrong=_riff("rhythm   h h\nfrets    3:12 5\nmarks    nh+ph ."), right=_riff("rhythm   h h\nfrets    3:12 5\nmarks    nh ."),
)
DEAD_WITH_PITCH: Final = Code(
    id="M360", severity=_E, title="a dead note that is to have a pitch",
    explanation="A dead note is a stroke on muffled strings: a click without a pitch. There is nothing to bend, to rock, to trill or to ring as a harmonic. Write the fret if the note "
    "is to sound, or leave the mark away.",
    wrong=_riff("rhythm   h h\nfrets    3:5 x\nmarks    . v"), right=_riff("rhythm   h h\nfrets    3:5 x\nmarks    v ."),
)
STRING_TWICE: Final = Code(
    id="M361", severity=_E, title="two voices on one string",
    explanation="Both voices belong to one instrument, and a string sounds one note at a time. A dead note lies on the string it names, or on that of the note before it: give it another.",
    wrong=_riff("rhythm   h h\nnotes    E3@4 x\nvoice 2\nrhythm   h h\nnotes    r F3@4"),
    right=_riff("rhythm   h h\nnotes    E3@4 x@3\nvoice 2\nrhythm   h h\nnotes    r F3@4"),
)
SIGN_MISSING: Final = Code(
    id="M362", severity=_E, title="a jump to a sign that is not there",
    explanation="`ds` goes back to a `segno`. `al Fine` (`dcfine`, `dsfine`) stops at a `fine`, and `al Coda` (`dccoda`, `dscoda`) leaves at a `tocoda` for the `coda`. The segno, the fine and "
    "the tocoda are passed on the way to the jump, so they stand before it; the coda follows it.",
    wrong=_riff("signs    . | ds\nrhythm   w\ndegrees  1 | 2"), right=_riff("signs    segno | ds\nrhythm   w\ndegrees  1 | 2"),
)
FINGER_ZERO: Final = Code(
    id="M363", severity=_E, title="finger 0 on a fretted note",
    explanation="In a row of fingers `0` stands for an open string. A fretted note is held by `1` to `4` or the thumb `T`; `.` leaves its finger open.",
    wrong=_riff("rhythm   h h\nfrets    3:2 0\nfingers  0 0"), right=_riff("rhythm   h h\nfrets    3:2 0\nfingers  2 0"),
)
NO_SUCH_ADVICE: Final = Code(
    id="M364", severity=_E, title="a code that cannot be allowed",
    explanation="`allow A543` in the header or in a block says that a piece of advice is known and not wanted there. Only advice can be allowed: an error keeps "
    "a study from being exported, whatever is said of it. `tabforge list codes` tells which are advice.",
    wrong=_riff("rhythm   w\ndegrees  1", "scale C3 major\nallow A999"), right=_riff("rhythm   w\ndegrees  1", "scale C3 major\nallow A543"),
)
UNEVEN_SHARES: Final = Code(
    id="M371", severity=_E, title="chords or strokes that do not share their bar evenly",
    explanation="The cells of a progression share their bar: two chords in 4/4 have two beats each, four have one each. Three have none that could be written without a triplet. "
    "Write as many cells as there are beats, with `.` where the chord before goes on: `I . IV V`. Strokes without a row of `rhythm` share their bar in the same way.",
    wrong=_chords("progression  I IV V | I"), right=_chords("progression  I . IV V | I"),
)
NEVER_STRUCK: Final = Code(
    id="M372", severity=_E, title="a chord that is never struck",
    explanation="A chord sounds with the first stroke in its share of the bar. Where the strum or the picking has none there, it would never be heard. Give the rhythm a stroke at that "
    "place (a strum may have several bars, joined by `|`), or write `.` for the chord, so that the one before goes on.",
    wrong=_chords("progression  G C\nrhythm       h. q\nstrum        d ."), right=_chords("progression  G C\nrhythm       h h\nstrum        d d"),
)
NOT_IN_GRIP: Final = Code(
    id="M373", severity=_E, title="a string that the grip does not have",
    explanation="`p@5` plucks string 5, whatever the grip. Here the grip leaves that string out. Pluck one that sounds, give this bar a picking of its own, or write `p` alone: the "
    "thumb finds the lowest string of every grip, `a` the highest, `m` and `i` those below it.",
    wrong=_chords("progression  D@xx0232\nrhythm       q*4\npicking      p@6 i m a"), right=_chords("progression  D@xx0232\nrhythm       q*4\npicking      p@4 i m a"),
)
TOO_FINE: Final = Code(
    id="M381", severity=_E, title="a duration too fine to be struck again and again",
    explanation="A drone or a vamp that is struck `every` so often needs a duration that fills bars in plain values: a thirty-second, or a sum of them. What is left of a bar after "
    "dotted thirty-seconds could not be written.",
    wrong=_riff("rhythm   w\ndegrees  1", "scale C3 major\ndrone 1 every t."), right=_riff("rhythm   w\ndegrees  1", "scale C3 major\ndrone 1 every s."),
)
NO_ADVICE: Final = Code(
    id="M382", severity=_E, title="a scale that advises no vamp",
    explanation="`vamp advised` plays the chord on the scale's root and one to three others that keep its colour. A few scales hold no chord on their root. "
    "Give the vamp chords of your own, or let a drone sound: `drone 1`.",
    wrong=_riff("rhythm   w\ndegrees  1", "scale C3 semitones 0 1\nvamp advised"), right=_riff("rhythm   w\ndegrees  1", "scale C3 semitones 0 1\ndrone 1"),
)
