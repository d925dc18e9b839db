"""Advice: findings that do not keep a study from being exported."""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics.core import Code, Severity

PLAINER_ROOT: Final = Code(
    id="A501",
    severity=Severity.ADVICE,
    title="a plainer root sounds the same",
    explanation=(
        "Every note of a scale is spelled with the letter of its degree, so some roots need double sharps or "
        "flats, or a key signature that does not exist. G# lydian needs a C## and an F##; Ab lydian sounds the "
        "same with three flats. The scale is written as you asked for it; change its root if the page should be "
        "easier to read."
    ),
    wrong='scale G#2 lydian\n\nriff "Louvre window"\n  rhythm   q q q q\n  degrees  1 2 3 4\n',
    right='scale Ab2 lydian\n\nriff "Louvre window"\n  rhythm   q q q q\n  degrees  1 2 3 4\n',
)

ONE_FINGER_TWICE: Final = Code(
    id="A502",
    severity=Severity.ADVICE,
    title="one finger at two frets",
    explanation=(
        "A row of fingers gives one finger two frets of the same chord. A finger can lie across several strings (a barre), "
        "but only at one fret. Give the second note another finger."
    ),
    wrong='riff "Bench vice"\n  rhythm   w\n  frets    5:3+4:5+3:5\n  fingers  1+1+3\n',
    right='riff "Bench vice"\n  rhythm   w\n  frets    5:3+4:5+3:5\n  fingers  1+3+3\n',
)

NOT_IN_FORMAT: Final = Code(
    id="A550",
    severity=Severity.ADVICE,
    title="a format cannot show this",
    explanation=(
        "A study can say more than some formats can hold. What is left out of a file, or written in it in another "
        "way, is told for each format; the other exports are not concerned."
    ),
    wrong='riff "Bench vice"\n  rhythm   h    h\n  frets    5:3  5\n  marks    tr5  .\n',
    right='riff "Bench vice"\n  rhythm   h    h\n  frets    5:3  5\n  marks    tr2  .\n',
)


def _riff(rows: str, header: str = "") -> str:
    return header + 'riff "Bench vice"\n' + "".join(f"  {row}\n" for row in rows.split("\n"))


_A: Final = Severity.ADVICE

OPEN_VIBRATO: Final = Code(
    id="A510",
    severity=_A,
    title="vibrato on an open string",
    explanation=(
        "Vibrato is made by the finger that holds the note. On an open string there is none: only the vibrato bar, or pressing "
        "the string behind the nut, can rock its pitch. If neither is meant, fret the same note on the next lower string."
    ),
    wrong=_riff("rhythm   h h\nfrets    2:0 3\nmarks    v ."),
    right=_riff("rhythm   h h\nfrets    3:4 2:3\nmarks    v ."),
)

SLIDE_AT_NUT: Final = Code(
    id="A511",
    severity=_A,
    title="a slide from or to an open string",
    explanation=(
        "A slide carries a finger from fret to fret. An open string has no finger to start with, and none is left when the slide "
        "runs off the end of the fretboard: what is heard is a hammer-on, or a slide away and then a pull-off or a new stroke. "
        "Write which of them is meant: `h` or `in/` on the way up, `p` or `out\\` on the way down."
    ),
    wrong=_riff("rhythm   h h\nfrets    4:5 0\nmarks    sl ."),
    right=_riff("rhythm   h h\nfrets    4:5 0\nmarks    p ."),
)

TOUCHED_PAST_NECK: Final = Code(
    id="A512",
    severity=_A,
    title="an artificial harmonic past the last fret",
    explanation=(
        "An artificial harmonic is touched some frets above the note that is held: twelve, if you do not say otherwise. Past the last "
        "fret the place can only be guessed. It can be played, with practice; a nearer node (`ah7`, `ah5`) or a thinner string is surer."
    ),
    wrong=_riff("rhythm   h h\nfrets    2:15 12\nmarks    ah12 ."),
    right=_riff("rhythm   h h\nfrets    2:12 12\nmarks    ah12 ."),
)

DAMPED_AND_RINGING: Final = Code(
    id="A513",
    severity=_A,
    title="damped and ringing at once",
    explanation=(
        "`lr` lets a note ring on; a palm mute damps it and a staccato ends it early. Under one note they contradict each other. In a chord "
        "each can be for a string of its own: `pm@6+lr@2`."
    ),
    wrong=_riff("rhythm   h h\nfrets    6:3 4:5\nmarks    pm+lr ."),
    right=_riff("rhythm   h h\nfrets    6:3 4:5\nmarks    lr ."),
)

CONTRARY_MARKS: Final = Code(
    id="A514",
    severity=_A,
    title="marks that contradict each other",
    explanation=(
        "Two marks under the same note ask for things that one hand does not do at once, or one of them says what the other says already. "
        "Keep the one that is meant; under a chord `@` and a string give a mark to one note."
    ),
    wrong=_riff("rhythm   h h\nfrets    3:5 7\nmarks    v+wv ."),
    right=_riff("rhythm   h h\nfrets    3:5 7\nmarks    wv ."),
)

RING_CUT: Final = Code(
    id="A515",
    severity=_A,
    title="let ring on one string alone",
    explanation=(
        "A note rings on until its string is struck again. Where let ring is written over notes that follow one another on one string, "
        "each of them ends the one before, so nothing can ring on. Put the notes on different strings; if they are to be held for "
        "their full length, that is tenuto, `tn`."
    ),
    wrong=_riff("rhythm   q q h\nfrets    3:5 7 5\nmarks    lr - ."),
    right=_riff("rhythm   q q h\nfrets    4:5 3:4 2:5\nmarks    lr - ."),
)

DEAD_AND_GHOST: Final = Code(
    id="A516",
    severity=_A,
    title="a dead note that is a ghost note too",
    explanation=(
        "A dead note is muffled and has no pitch; a ghost note has its pitch, but is hardly heard. A note is one or the other. A soft muffled "
        "stroke is a dead note with a soft dynamic."
    ),
    wrong=_riff("rhythm   h h\nfrets    3:5 x\nmarks    . gh"),
    right=_riff("rhythm   h h\nfrets    3:5 x"),
)

GRACE_TOO_SHORT: Final = Code(
    id="A517",
    severity=_A,
    title="a grace note that is to last",
    explanation=(
        "A grace note takes hardly any time. It cannot be repeated by tremolo picking or held by a fermata. Such a "
        "mark belongs to the note that follows it."
    ),
    wrong=_riff("rhythm   g w\nfrets    3:5 7\nmarks    fm ."),
    right=_riff("rhythm   g w\nfrets    3:5 7\nmarks    . fm"),
)

FINGER_ON_OPEN: Final = Code(
    id="A518",
    severity=_A,
    title="a finger on an open string",
    explanation=(
        "The row of fingers names the finger that holds a note. An open string is held by none: write `0`, or `.`. If a finger is meant, "
        "the fret is missing."
    ),
    wrong=_riff("rhythm   h h\nfrets    4:0 2\nfingers  1 2"),
    right=_riff("rhythm   h h\nfrets    4:0 2\nfingers  0 2"),
)

FINGERS_CROSSED: Final = Code(
    id="A519",
    severity=_A,
    title="fingers that cross",
    explanation=(
        "In a chord the fingers lie along the neck in their order: the first nearest the nut, the fourth nearest the bridge. A finger "
        "that lies at a higher fret than one after it would have to cross over it. At one fret any order is good. The thumb is free."
    ),
    wrong=_riff("rhythm   w\nfrets    5:3+4:2\nfingers  1+3"),
    right=_riff("rhythm   w\nfrets    5:3+4:2\nfingers  3+2"),
)

BARRE_UNUSED: Final = Code(
    id="A520",
    severity=_A,
    title="a barre that the notes contradict",
    explanation=(
        "A barre lays the first finger over the strings at a fret. The other fingers come down at that fret or above it: a note "
        "behind the barre cannot be reached, and an open string under it cannot sound. A half barre (`hb`) covers some of the strings and "
        "leaves others open."
    ),
    wrong=_riff("rhythm   w\nfrets    5:3+4:5+3:5\nmarks    ba5"),
    right=_riff("rhythm   w\nfrets    5:3+4:5+3:5\nmarks    ba3"),
)

STROKE_AGAINST: Final = Code(
    id="A521",
    severity=_A,
    title="a stroke against the spread of its chord",
    explanation=(
        "A downstroke runs from the lowest string to the highest, so it spreads a chord upward in pitch: `ar/` and `br/` go with `d`. "
        "An upstroke runs the other way: `ar\\` and `br\\` go with `u`."
    ),
    wrong=_riff("rhythm   w\nfrets    5:3+4:2+3:0\nmarks    ar/\npicks    u"),
    right=_riff("rhythm   w\nfrets    5:3+4:2+3:0\nmarks    ar/\npicks    d"),
)

ONE_NOTE_SPREAD: Final = Code(
    id="A522",
    severity=_A,
    title="a single note that is to be spread",
    explanation="An arpeggio or brush stroke spreads the notes of a chord over a moment. A single note cannot be spread; a rake (`rk`) drags the pick over damped strings into one.",
    wrong=_riff("rhythm   w\nfrets    5:3\nmarks    ar/"),
    right=_riff("rhythm   w\nfrets    5:3+4:2\nmarks    ar/"),
)

HAIRPIN_AGAINST: Final = Code(
    id="A523",
    severity=_A,
    title="a hairpin that leads the other way",
    explanation=(
        "`<` grows louder and `>` softer, so the dynamic at its end should lie in that direction from the one at its beginning. Where a "
        "sudden change after the hairpin is meant, write what the hairpin reaches too: `mf < f p`."
    ),
    wrong=_riff("rhythm    q q q q\nfrets     3:5 7 5 4\ndynamics  mf < - p"),
    right=_riff("rhythm    q q q q\nfrets     3:5 7 5 4\ndynamics  mf > - p"),
)

SIGN_UNUSED: Final = Code(
    id="A524",
    severity=_A,
    title="a sign that nothing leads to",
    explanation=(
        "A `segno` waits for a D.S., a `coda` for a To Coda, a `fine` or `tocoda` for a D.C. or D.S. that brings the player past it once more. "
        "Here there is none, so the sign will be passed by."
    ),
    wrong=_riff("signs    segno | .\nrhythm   w\nfrets    3:5 | 7"),
    right=_riff("signs    segno | ds\nrhythm   w\nfrets    3:5 | 7"),
)

SHAPE_OUTSIDE: Final = Code(
    id="A525",
    severity=_A,
    title="a chord shape with a note outside its chord",
    explanation=(
        "The shape beside a chord symbol sounds a note that the chord does not have. Often one finger is on the wrong string, the shape is "
        "written from the wrong end (it begins with the lowest string), or the symbol wants an addition: `Cadd9`, `C/B`. Above a capo "
        "the symbol may name the sound or the shape."
    ),
    wrong=_riff("chords   C@x32011\nrhythm   w\nfrets    5:3"),
    right=_riff("chords   C@x32010\nrhythm   w\nfrets    5:3"),
)

STRUCK_WHILE_HELD: Final = Code(
    id="A526",
    severity=_A,
    title="a dead note on a string that is held",
    explanation=(
        "Two voices share the strings. A dead note muffles its string, so what the other voice holds there ends. Write the held note as long "
        "as it is heard, or put the dead note on another string: `x@6`. A bare `x` lies on the string of the note before it."
    ),
    wrong=_riff("rhythm   q q q q\nnotes    E3@4 r x r\nvoice 2\nrhythm   q h.\nnotes    r E3@4"),
    right=_riff("rhythm   q q q q\nnotes    E3@4 r x@6 r\nvoice 2\nrhythm   q h.\nnotes    r E3@4"),
)

STROKE_ON_SLUR: Final = Code(
    id="A527",
    severity=_A,
    title="a stroke on a note that is not struck",
    explanation=(
        "The fretting hand sounds the second note of a hammer-on, a pull-off or a legato slide, and a tap sounds by itself: the picking hand does "
        "not strike such a note. A slide whose second note is struck is a shift slide, `ss`."
    ),
    wrong=_riff("rhythm   h h\nfrets    3:5 7\nmarks    h .\npicks    d u"),
    right=_riff("rhythm   h h\nfrets    3:5 7\nmarks    h .\npicks    d ."),
)

REPEAT_OPEN: Final = Code(
    id="A528",
    severity=_A,
    title="a repeat that never comes back",
    explanation=(
        "`|:` opens a passage that is played again from there when a `:|` is met; a first ending is left for the second by the `:|` at its end. "
        "Without it the passage is played once, and the sign says nothing."
    ),
    wrong=_riff("rhythm   w\nfrets    |: 3:5 | 7 | 5"),
    right=_riff("rhythm   w\nfrets    |: 3:5 | 7 :| 5"),
)

# Harmony and the ear: whether what is named is what is heard. All of it is common practice.

_ALLOWED: Final = "If it is meant so, `allow {}` in the header or in the block keeps this quiet."


def _sluice(rows: str, scale: str) -> str:
    return f'scale {scale}\n\nriff "Sluice"\n' + "".join(f"  {row}\n" for row in rows.split("\n"))


OUTSIDE_SCALE: Final = Code(
    id="A540",
    severity=_A,
    title="a scale that many notes are not in",
    explanation=(
        "More than one note in three of this block is outside the scale that is named. A few chromatic notes are common; so many speak for another "
        "scale, or another root. `tabforge explain` with the study's file lists them. " + _ALLOWED.format("A540")
    ),
    wrong=_sluice("rhythm   q q q q | q q q q\ndegrees  1 b2 1 b3 | b3 b2 b3 1", "C3 major"),
    right=_sluice("rhythm   q q q q | q q q q\ndegrees  1 2 1 3 | 3 2 3 1", "C3 phrygian"),
)

UNRESOLVED: Final = Code(
    id="A541",
    severity=_A,
    title="a chromatic note that leads nowhere",
    explanation=(
        "A note outside the scale wants to go on by a step, as passing notes, neighbours and approach notes do. Here the next notes are "
        "neither a half nor a whole step away, nor is the next note on its string, and no chord symbol has it for one of its notes. "
        "Perhaps the accidental is wrong. " + _ALLOWED.format("A541")
    ),
    wrong=_sluice("rhythm   q q q q\ndegrees  1 2 b3 8", "C3 major"),
    right=_sluice("rhythm   q q q q\ndegrees  1 2 b3 3", "C3 major"),
)

COLOUR_UNHEARD: Final = Code(
    id="A542",
    severity=_A,
    title="a mode whose characteristic tone is never heard",
    explanation=(
        "What makes a mode is the note by which it differs from plain major or minor: the raised fourth of lydian, the sixth of dorian. Where it is "
        "never played, nobody hears the mode. A scale in the header is looked for in all blocks that take it. " + _ALLOWED.format("A542")
    ),
    wrong=_sluice("rhythm   q q q q | q q h\ndegrees  1 3 5 3 | 8 7 5\n\nrhythm   w\ndegrees  1", "F3 lydian"),
    right=_sluice("rhythm   q q q q | q q h\ndegrees  1 3 #4 3 | 8 7 5\n\nrhythm   w\ndegrees  1", "F3 lydian"),
)

ROOT_WEAK: Final = Code(
    id="A543",
    severity=_A,
    title="a root that never falls on a strong beat",
    explanation=(
        "The ear takes for home what it hears on strong beats: the first of a bar, and the third of four. In this block the root of its scale is on none of "
        "them, so another note may seem to be home. A drone or a vamp under the block says the root as well. " + _ALLOWED.format("A543")
    ),
    wrong=_sluice("rhythm   q q q q | q q q q\ndegrees  2 1 4 3 | 5 6 7 6", "C3 major"),
    right=_sluice("rhythm   q q q q | q q q q\ndegrees  1 2 4 3 | 5 6 7 6", "C3 major"),
)

PULLS_AWAY: Final = Code(
    id="A544",
    severity=_A,
    title="a progression that pulls to the parent key",
    explanation=(
        "A mode shares its notes with a parent scale. A chord that holds the parent's fourth and leading note, resolved to the parent's home, sounds as "
        "a cadence there: G7 to C in F lydian makes C major of it. Stay near the mode's own root; `tabforge explain F lydian` tells which "
        "chords keep its colour. " + _ALLOWED.format("A544")
    ),
    wrong=_sluice("chords   F . | G7 C\nrhythm   h h | h h\ndegrees  1 #4 | 2 5", "F3 lydian"),
    right=_sluice("chords   F . | G F\nrhythm   h h | h h\ndegrees  1 #4 | 2 1", "F3 lydian"),
)
