"""Codes for placing notes on the neck: N40x notes and chords, N42x layouts, N45x advice on the hand."""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics.core import Code, Severity


def _riff(rows: str, header: str = "") -> str:
    return f'{header}riff "Slack water"\n' + "".join(f"  {row}\n" for row in rows.split("\n"))


def _chords(lines: str) -> str:
    return 'chords "Slack water"\n' + "".join(f"  {line}\n" for line in lines.split("\n"))


def _run(lines: str, header: str = "scale    C3 major\n") -> str:
    return f'{header}run "Harbour wall"\n' + "".join(f"  {line}\n" for line in lines.split("\n"))


_UKULELE: Final = "instrument  soprano ukulele\ncapo        11\n"
_DULCIMER: Final = "instrument  mountain dulcimer\n"
_WIDE_APART: Final = "tuning   D2 D3 G3 B3 E4\nscale    C3 major\n"

TOO_LOW: Final = Code(
    id="N401",
    severity=Severity.ERROR,
    title="a note below the lowest string",
    explanation="The instrument, as it is tuned, has nothing as low as this. Write the note an octave higher, or tune a string down.",
    wrong=_riff("rhythm   h h\nnotes    E2 D2"),
    right=_riff("rhythm   h h\nnotes    E2 D3"),
)
TOO_HIGH: Final = Code(
    id="N402",
    severity=Severity.ERROR,
    title="a note above the last fret",
    explanation="The highest string ends below this note. Write the note an octave lower. A capo leaves the highest note as it is: "
    "it takes frets away from below.",
    wrong=_riff("rhythm   h h\nnotes    E4 G6"),
    right=_riff("rhythm   h h\nnotes    E4 G5"),
)
NOWHERE: Final = Code(
    id="N403",
    severity=Severity.ERROR,
    title="a note between two strings",
    explanation="Lower and higher notes lie on the neck, but this one is above the last fret of one string and below the next open string. "
    "That happens on a short neck, or where a capo leaves few frets.",
    wrong=_riff("rhythm   h h\nnotes    C5 D5", _UKULELE),
    right=_riff("rhythm   h h\nnotes    C5 E5", _UKULELE),
)
NOT_ON_STRING: Final = Code(
    id="N404",
    severity=Severity.ERROR,
    title="a string that does not have the note",
    explanation="The note was pinned to a string (`C4@3`), and it lies below that string's open note or past its last fret.",
    wrong=_riff("rhythm   w\nnotes    C3@4"),
    right=_riff("rhythm   w\nnotes    C3@5"),
)
TOO_MANY: Final = Code(
    id="N405",
    severity=Severity.ERROR,
    title="a chord with more notes than strings",
    explanation="Each string sounds one note at a time, so a chord has at most as many notes as the instrument has strings.",
    wrong=_riff("rhythm   w\nnotes    E2+B2+E3+G3+B3+E4+G4"),
    right=_riff("rhythm   w\nnotes    E2+B2+E3+G3+B3+E4"),
)
SAME_STRING: Final = Code(
    id="N406",
    severity=Severity.ERROR,
    title="two notes of a chord on one string",
    explanation="A string sounds one note at a time. Put one of the two notes on another string, or leave the pin away and the note "
    "is placed where it lies well.",
    wrong=_riff("rhythm   w\nfrets    3:5+3:9"),
    right=_riff("rhythm   w\nfrets    3:5+2:5"),
)
NO_STRINGS_LEFT: Final = Code(
    id="N407",
    severity=Severity.ERROR,
    title="notes of a chord that need the same string",
    explanation="Some notes have few places, the lowest ones only one. Where two of them share it, the chord cannot be played as it is spelled: "
    "put one of them into another octave.",
    wrong=_riff("rhythm   w\nnotes    E2+F2"),
    right=_riff("rhythm   w\nnotes    E2+F3"),
)
OUT_OF_REACH: Final = Code(
    id="N408",
    severity=Severity.ERROR,
    title="a chord that no hand reaches",
    explanation="Open strings are free, but all fretted notes must lie within about five frets and four fingers; neighbouring strings at one "
    "fret share a finger, and the first finger may lie across all strings at the lowest fret. Put a note into another octave. If every note "
    "is pinned to its string and fret, the chord is written as you pinned it.",
    wrong=_riff("rhythm   w\nnotes    F2+G5"),
    right=_riff("rhythm   w\nnotes    F2+G3"),
)
UNFRETTED: Final = Code(
    id="N409",
    severity=Severity.ERROR,
    title="a note that no fret gives",
    explanation="This neck does not have a fret for every half step, and the note lies between two frets of every string. Choose a note that "
    "the frets give, another tuning, or another `fretting`.",
    wrong=_riff("rhythm   h h\nnotes    D4 F4", _DULCIMER),
    right=_riff("rhythm   h h\nnotes    D4 F#4", _DULCIMER),
)
SHORT_STRING: Final = Code(
    id="N410",
    severity=Severity.ERROR,
    title="a fret before a short string begins",
    explanation="The fifth string of a banjo begins at the fifth fret of the neck. Its frets are counted along the neck, as players do: it is open "
    "at 0, and the first fret that it has is 6, a half step higher.",
    wrong=_riff("rhythm   h h\nfrets    5:0 5:2", "instrument  banjo\n"),
    right=_riff("rhythm   h h\nfrets    5:0 5:7", "instrument  banjo\n"),
)
BAD_FRETTING: Final = Code(
    id="N411",
    severity=Severity.ERROR,
    title="frets that do not rise",
    explanation="`fretting` has for every fret, from the first to the last, how many half steps it gives above the open string. Each is higher than "
    "the one before, and the first is at least 1.",
    wrong=_riff("rhythm   h h\nfrets    3:0 3:1", "fretting    2 4 5 5 9\n"),
    right=_riff("rhythm   h h\nfrets    3:0 3:1", "fretting    2 4 5 7 9\n"),
)
LAYOUT_STRINGS: Final = Code(
    id="N421",
    severity=Severity.ERROR,
    title="a layout from a higher string to a lower one",
    explanation="A layout is described from its lowest note up, so it goes from a string to a higher-sounding one: from string 6 to string 1 "
    "on a guitar. The direction it is played in is said by `path`.",
    wrong=_run("layout   3 per string from string 1 to string 6"),
    right=_run("layout   3 per string from string 6 to string 1"),
)
LAYOUT_REENTRANT: Final = Code(
    id="N422",
    severity=Severity.ERROR,
    title="a layout over strings that do not rise",
    explanation="So many notes on each string makes a rising line only where each string is tuned higher than the one before. On a "
    "re-entrant tuning, such as a ukulele's with its high fourth string, begin on the lowest string.",
    wrong=_run("layout   3 per string from string 4", "instrument  ukulele\nscale       C4 major\n"),
    right=_run("layout   3 per string from string 3", "instrument  ukulele\nscale       C4 major\n"),
)
LAYOUT_START: Final = Code(
    id="N423",
    severity=Severity.ERROR,
    title="a layout with nothing to start on",
    explanation="The fret that the layout starts from is past the end of the neck, or the string does not have the note to start on. "
    "With a capo fewer frets are left, and they are counted from it.",
    wrong=_run("layout   position 30"),
    right=_run("layout   position 5"),
)
LAYOUT_LOW: Final = Code(
    id="N424",
    severity=Severity.ERROR,
    title="a layout whose next string begins too high",
    explanation="With so few notes on each string the line has not risen far enough when it comes to the next string: the next note "
    "lies below that string's open note. Play more notes on each string, or start farther up the neck.",
    wrong=_run("layout   2 per string from string 6", "scale    E2 major\n"),
    right=_run("layout   3 per string from string 6 fret 12", "scale    E2 major\n"),
)
LAYOUT_HIGH: Final = Code(
    id="N425",
    severity=Severity.ERROR,
    title="a layout that goes past the last fret",
    explanation="The line climbs along the neck as it goes from string to string, and here it runs off the end. Start lower, play fewer "
    "notes on each string, or stop on an earlier string with `to string`.",
    wrong=_run("layout   3 per string from string 6 fret 20"),
    right=_run("layout   3 per string from string 6 fret 8"),
)
LAYOUT_HOLE: Final = Code(
    id="N426",
    severity=Severity.ERROR,
    title="a layout that leaves notes out",
    explanation="In one position a hand reaches about six frets. Where two strings are tuned more than that apart, notes between them "
    "are out of reach, and nothing is left out silently. Begin above the gap, or choose another layout.",
    wrong=_run("layout   position 5", _WIDE_APART),
    right=_run("layout   position 5\nfrom     5", _WIDE_APART),
)
LAYOUT_FROM: Final = Code(
    id="N427",
    severity=Severity.ERROR,
    title="a layout without the note to begin on",
    explanation="`from` begins the run on a note of the layout. This layout spans less than an octave and does not have that degree.",
    wrong=_run("layout   1 per string from string 6 to string 5 fret 8\nfrom     7"),
    right=_run("layout   1 per string from string 6 to string 5 fret 8\nfrom     2"),
)
LAYOUT_TO: Final = Code(
    id="N428",
    severity=Severity.ERROR,
    title="a layout that ends too soon",
    explanation="`to` or `octaves` asks for more notes than the layout holds. Leave them away to have all of it, or choose a layout that goes "
    "farther along the neck.",
    wrong=_run("layout   position 5\noctaves  4"),
    right=_run("layout   position 5\noctaves  1"),
)
LAYOUT_EMPTY: Final = Code(
    id="N429",
    severity=Severity.ERROR,
    title="a layout without notes",
    explanation="None of the tones asked for lies within the layout. Choose more tones with `tones`, or another place on the neck.",
    wrong=_run("layout   string 1\ntones    4", "instrument  soprano ukulele\ncapo        11\nscale       C4 major\n"),
    right=_run("layout   string 1\ntones    4", "instrument  soprano ukulele\nscale       C4 major\n"),
)
LAYOUT_UNFRETTED: Final = Code(
    id="N430",
    severity=Severity.ERROR,
    title="a layout of notes that have no fret",
    explanation="This neck does not have a fret for every half step, and the scale has notes that lie between its frets. Nothing is left out silently: "
    "choose a scale or `tones` that the frets give, another string or tuning, or another `fretting`.",
    wrong=_run("layout   string 1", _DULCIMER + "scale       D4 major\n"),
    right=_run("layout   string 1", _DULCIMER + "scale       D4 mixolydian\n"),
)
LAYOUT_SHAPE: Final = Code(
    id="N431",
    severity=Severity.ERROR,
    title="a shape that the tuning does not have",
    explanation="The five shapes C, A, G, E and D are the positions around the roots of those open chords, as a guitar in standard tuning has them, "
    "moved up the neck. Strings that are tuned otherwise have these roots elsewhere. Choose a shape that the tuning still has, or say where "
    "the hand lies: `layout position 5`.",
    wrong=_run("layout   shape E", "tuning   D2 A2 D3 G3 B3 E4\nscale    D3 major\n"),
    right=_run("layout   shape A", "tuning   D2 A2 D3 G3 B3 E4\nscale    D3 major\n"),
)
LAYOUT_SHAPE_PLACE: Final = Code(
    id="N432",
    severity=Severity.ERROR,
    title="a shape that the neck has no room for",
    explanation="A shape is taken in the lowest place in which the neck has it, or the lowest at or above the fret that is asked for. Past the last "
    "fret there is none; with a capo fewer frets are left.",
    wrong=_run("layout   shape E fret 20"),
    right=_run("layout   shape E fret 5"),
)
NO_VOICING: Final = Code(
    id="N441",
    severity=Severity.ERROR,
    title="a chord that cannot be had in the voicing asked for",
    explanation="A voicing says how chords are laid on the strings, and not every chord can be had in every one on every instrument: an open grip needs "
    "open strings that belong to the chord, a drop-2 voicing four notes, a triad three. Choose another `voicing` (`free` takes whatever lies best) or other "
    "strings for it, or give the chord its own grip: `Ebmaj7@xx1333`.",
    wrong=_chords("voicing      drop 2\nprogression  C | G"),
    right=_chords("voicing      drop 2\nprogression  Cmaj7 | G7"),
)
NO_DRONE: Final = Code(
    id="N442",
    severity=Severity.ERROR,
    title="a drone that cannot be held",
    explanation="The notes of a drone sound together, low on the same instrument, so each needs a string of its own and one hand holds them all. They are put as low as "
    "the instrument has them; `^` and `_` move a degree by octaves from there. Take fewer degrees, or others: the root, the fifth and the root above (`1+5+^1`) lie well.",
    wrong=_riff("rhythm   w\ndegrees  1", "scale    C3 major\ndrone    1+2+3+b2\n"),
    right=_riff("rhythm   w\ndegrees  1", "scale    C3 major\ndrone    1+5\n"),
)
WIDE_RUN: Final = Code(
    id="N450",
    severity=Severity.ADVICE,
    title="a wide stretch on one string",
    explanation="The notes that lie under the hand on one string are more than 115 mm apart, from the first finger to the fourth. Many hands "
    "cannot hold that without strain; frets are widest near the nut. Move the run up the neck, or let the hand shift. Warm up before "
    "you practise it, keep the thumb low behind the neck, and stop at pain, numbness or tingling: if it comes back, ask a teacher or a "
    "clinician. This is common practice among teachers, no medical advice.",
    wrong=_run("layout   3 per string from string 6 fret 1", "scale    F2 lydian\n"),
    right=_run("layout   3 per string from string 6 fret 8", "scale    F2 lydian\n"),
)
WIDE_GRIP: Final = Code(
    id="N451",
    severity=Severity.ADVICE,
    title="a wide grip",
    explanation="The fretted notes of this chord are more than 115 mm apart, from the lowest fret to the highest. Many hands cannot hold "
    "that without strain; frets are widest near the nut. Put a note on another string, move the chord up the neck, or leave a note out. Warm up "
    "before you practise it, and stop at pain, numbness or tingling: if it comes back, ask a teacher or a clinician. This is common practice "
    "among teachers, no medical advice.",
    wrong=_riff("rhythm   w\nfrets    5:1+3:6"),
    right=_riff("rhythm   w\nfrets    5:6+3:8"),
)
HELD_CUT: Final = Code(
    id="N452",
    severity=Severity.ADVICE,
    title="a held note that cannot ring on",
    explanation="Two voices share one hand. While a note of one voice should ring on, the other needs its string, or a place that the hand "
    "does not reach without letting go. The notes are written as they stand; shorten the held note, or pin the notes to other strings.",
    wrong=_riff("rhythm   h h\nnotes    E3 G5\nvoice 2\nrhythm   w\nnotes    F2"),
    right=_riff("rhythm   h h\nnotes    E3 G3\nvoice 2\nrhythm   w\nnotes    F2"),
)
SHIFT_TOO_FAST: Final = Code(
    id="N453",
    severity=Severity.ADVICE,
    title="a shift that the tempo leaves no time for",
    explanation="From one note to the next, in either voice, the hand would have to go farther along the neck than there is time for at this tempo: "
    "more than a metre a second. Put the notes nearer together, let an open string ring while the hand moves, or play it slower. Without a tempo nothing is "
    "said. The limit is common practice, no source.",
    wrong=_riff("rhythm   s s e q h\nfrets    6:1 1:15 1:15 1:15 1:15", "tempo    120\n"),
    right=_riff("rhythm   s s e q h\nfrets    6:1 1:1 1:1 1:15 1:15", "tempo    120\n"),
)
NO_FINGERS: Final = Code(
    id="N454",
    severity=Severity.ADVICE,
    title="a grip that no hand has the fingers for",
    explanation="Every note of this chord is pinned to its place, and all of them lie within reach, but not under four fingers and a thumb: a finger "
    "stops several strings only at one fret, and only the first one lies across more than neighbouring strings, where no open string is between. "
    "The chord is written as it stands; leave a note out, or put one on another string.",
    wrong=_riff("rhythm   w\nfrets    5:3+4:2+3:4+2:3+1:4"),
    right=_riff("rhythm   w\nfrets    5:3+4:2+3:4+2:3+1:0"),
)
