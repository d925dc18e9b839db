"""The seven-note scales that come as families: a parent and its modes, in order.

Degrees and names are those of general use in teaching harmony and improvisation (common practice, no single source; written from
memory and proved by turning each parent round). Where the trade has several names for one mode, all are listed.
"""

from __future__ import annotations

from typing import Final

from tabforge.theory.scale_kind import ScaleKind, family, kind

MAJOR_MODES: Final[tuple[ScaleKind, ...]] = tuple(family("major", (
    kind("major", "1 2 3 4 5 6 7", "ionian",
         "The plain major scale: everything else is named against it.",
         "ionian"),
    kind("dorian", "1 2 b3 4 5 6 b7", "dorian",
         "Minor with a bright sixth; the usual choice over a minor seventh chord."),
    kind("phrygian", "1 b2 b3 4 5 b6 b7", "phrygian",
         "Minor with a half step above the root: dark and Spanish."),
    kind("lydian", "1 2 3 #4 5 6 7", "lydian",
         "Major with a raised fourth: bright and floating, for major seventh chords."),
    kind("mixolydian", "1 2 3 4 5 6 b7", "mixolydian",
         "Major with a flat seventh: the sound of a dominant chord and of much rock.",
         "dominant"),
    kind("natural minor", "1 2 b3 4 5 b6 b7", "aeolian",
         "The plain minor scale, relative of the major a minor third above.",
         "minor", "aeolian", "pure minor"),
    kind("locrian", "1 b2 b3 4 b5 b6 b7", "locrian",
         "The mode on the leading note: its flat fifth fits half-diminished chords."),
)))

HARMONIC_MINOR_MODES: Final[tuple[ScaleKind, ...]] = tuple(family("harmonic minor", (
    kind("harmonic minor", "1 2 b3 4 5 b6 7", "aeolian",
         "Minor with a leading note: three half steps lie between b6 and 7.",
         "aeolian natural 7"),
    kind("locrian natural 6", "1 b2 b3 4 b5 6 b7", "locrian",
         "Locrian with a plain sixth, for the half-diminished chord on ii of a minor key.",
         "locrian #6"),
    kind("ionian #5", "1 2 3 4 #5 6 7", "ionian",
         "Major with a raised fifth, for an augmented major seventh chord.",
         "ionian augmented", "augmented major", "major #5"),
    kind("dorian #4", "1 2 b3 #4 5 6 b7", "dorian",
         "Dorian with a raised fourth, for the iv chord of a minor key.",
         "dorian #11", "ukrainian dorian", "romanian minor", "romanian"),
    kind("phrygian dominant", "1 b2 3 4 5 b6 b7", "phrygian",
         "Phrygian with a major third: the V chord of a minor key, and flamenco.",
         "phrygian major", "spanish phrygian", "mixolydian b2 b6", "mixolydian b9 b13", "freygish",
         "phrygian #3", "phrygian natural 3"),
    kind("lydian #2", "1 #2 3 #4 5 6 7", "lydian",
         "Lydian with a raised second, on the flat sixth of a minor key.",
         "lydian #9"),
    kind("superlocrian bb7", "1 b2 b3 b4 b5 b6 bb7", "locrian",
         "The mode on the leading note of a minor key, for diminished sevenths.",
         "super locrian bb7", "ultralocrian", "ultra locrian", "altered diminished", "altered bb7"),
)))

MELODIC_MINOR_MODES: Final[tuple[ScaleKind, ...]] = tuple(family("melodic minor", (
    kind("melodic minor", "1 2 b3 4 5 6 7", "aeolian",
         "The ascending melodic minor: major with a flat third, the same down as up.",
         "jazz minor", "melodic minor ascending", "ascending melodic minor", "ionian b3",
         "dorian natural 7"),
    kind("dorian b2", "1 b2 b3 4 5 6 b7", "dorian",
         "Dorian with a flat second, for suspended chords with a flat ninth.",
         "phrygian natural 6", "phrygian #6", "dorian b9"),
    kind("lydian augmented", "1 2 3 #4 #5 6 7", "lydian",
         "Lydian with a raised fifth, for major sevenths with a sharp fifth.",
         "lydian #5"),
    kind("lydian dominant", "1 2 3 #4 5 6 b7", "lydian",
         "Lydian with a flat seventh, for dominants that do not fall a fifth.",
         "lydian b7", "mixolydian #4", "mixolydian #11", "acoustic", "overtone"),
    kind("mixolydian b6", "1 2 3 4 5 b6 b7", "mixolydian",
         "Major below and minor above: a dominant that leads to a minor chord.",
         "mixolydian b13", "melodic major", "aeolian dominant", "aeolian major", "hindu"),
    kind("locrian natural 2", "1 2 b3 4 b5 b6 b7", "locrian",
         "Locrian with a plain second, the usual choice over a half-diminished chord.",
         "locrian #2", "aeolian b5", "half diminished", "locrian natural 9"),
    kind("altered", "1 b2 b3 b4 b5 b6 b7", "locrian",
         "Every degree but the root lowered: tension over a dominant about to resolve.",
         "superlocrian", "super locrian", "altered dominant", "diminished whole tone", "locrian b4"),
)))

HARMONIC_MAJOR_MODES: Final[tuple[ScaleKind, ...]] = tuple(family("harmonic major", (
    kind("harmonic major", "1 2 3 4 5 b6 7", "ionian",
         "Major with a flat sixth.",
         "ionian b6", "major b6"),
    kind("dorian b5", "1 2 b3 4 b5 6 b7", "dorian",
         "Dorian with a flat fifth, for half-diminished chords.",
         "locrian natural 2 natural 6"),
    kind("phrygian b4", "1 b2 b3 b4 5 b6 b7", "phrygian",
         "Phrygian with a flat fourth, which sounds as a major third.",
         "altered dominant natural 5", "superphrygian", "altered natural 5"),
    kind("lydian b3", "1 2 b3 #4 5 6 7", "lydian",
         "Lydian with a minor third: melodic minor with a raised fourth.",
         "lydian minor", "lydian diminished", "melodic minor #4", "jazz minor #4"),
    kind("mixolydian b2", "1 b2 3 4 5 6 b7", "mixolydian",
         "Mixolydian with a flat second, for dominants with a flat ninth.",
         "mixolydian b9"),
    kind("lydian augmented #2", "1 #2 3 #4 #5 6 7", "lydian",
         "Lydian augmented with a raised second.",
         "lydian #2 #5"),
    kind("locrian bb7", "1 b2 b3 4 b5 b6 bb7", "locrian",
         "Locrian with a doubly flat seventh, for diminished sevenths."),
)))

DOUBLE_HARMONIC_MODES: Final[tuple[ScaleKind, ...]] = tuple(family("double harmonic", (
    kind("double harmonic", "1 b2 3 4 5 b6 7", "ionian",
         "Two equal halves, each with three half steps in the middle.",
         "double harmonic major", "byzantine", "arabic", "bhairav"),
    kind("lydian #2 #6", "1 #2 3 #4 5 #6 7", "lydian",
         "Lydian with raised second and sixth."),
    kind("ultraphrygian", "1 b2 b3 b4 5 b6 bb7", "phrygian",
         "Phrygian with a flat fourth and a doubly flat seventh.",
         "ultra phrygian", "phrygian b4 bb7"),
    kind("hungarian minor", "1 2 b3 #4 5 b6 7", "aeolian",
         "Harmonic minor with a raised fourth: two gaps of three half steps.",
         "double harmonic minor", "harmonic minor #4"),
    kind("oriental", "1 b2 3 4 b5 6 b7", "mixolydian",
         "A dominant scale with a flat second and a flat fifth.",
         "mixolydian b2 b5", "locrian natural 3 natural 6"),
    kind("ionian #2 #5", "1 #2 3 4 #5 6 7", "ionian",
         "Major with raised second and fifth.",
         "ionian augmented #2"),
    kind("locrian bb3 bb7", "1 b2 bb3 4 b5 b6 bb7", "locrian",
         "Locrian with doubly flat third and seventh."),
)))

NEAPOLITAN_MINOR_MODES: Final[tuple[ScaleKind, ...]] = tuple(family("neapolitan minor", (
    kind("neapolitan minor", "1 b2 b3 4 5 b6 7", "phrygian",
         "Harmonic minor with a flat second.",
         "phrygian natural 7", "harmonic minor b2"),
    kind("lydian #6", "1 2 3 #4 5 #6 7", "lydian",
         "Lydian with a raised sixth."),
    kind("mixolydian #5", "1 2 3 4 #5 6 b7", "mixolydian",
         "Mixolydian with a raised fifth, for augmented seventh chords.",
         "mixolydian augmented"),
    kind("aeolian #4", "1 2 b3 #4 5 b6 b7", "aeolian",
         "Natural minor with a raised fourth.",
         "natural minor #4", "hungarian folk minor"),
    kind("locrian natural 3", "1 b2 3 4 b5 b6 b7", "locrian",
         "Locrian with a major third, for dominants with a flat fifth.",
         "locrian dominant", "locrian #3", "phrygian dominant b5"),
    kind("ionian #2", "1 #2 3 4 5 6 7", "ionian",
         "Major with a raised second.",
         "major #2"),
    kind("ultralocrian bb3", "1 b2 bb3 b4 b5 b6 bb7", "locrian",
         "Everything lowered, third and seventh doubly.",
         "altered bb3 bb7"),
)))

NEAPOLITAN_MAJOR_MODES: Final[tuple[ScaleKind, ...]] = tuple(family("neapolitan major", (
    kind("neapolitan major", "1 b2 b3 4 5 6 7", "phrygian",
         "Melodic minor with a flat second.",
         "melodic minor b2", "phrygian natural 6 natural 7"),
    kind("leading whole tone", "1 2 3 #4 #5 #6 7", "lydian",
         "The whole-tone scale with a leading note.",
         "lydian augmented #6"),
    kind("lydian augmented dominant", "1 2 3 #4 #5 6 b7", "lydian",
         "Lydian dominant with a raised fifth.",
         "lydian dominant #5"),
    kind("lydian dominant b6", "1 2 3 #4 5 b6 b7", "lydian",
         "Lydian dominant with a flat sixth.",
         "lydian minor dominant"),
    kind("major locrian", "1 2 3 4 b5 b6 b7", "locrian",
         "Major below the fourth, locrian above it.",
         "locrian natural 2 natural 3"),
    kind("half diminished b4", "1 2 b3 b4 b5 b6 b7", "locrian",
         "The altered scale with a plain second.",
         "altered natural 2", "superlocrian natural 2"),
    kind("altered bb3", "1 b2 bb3 b4 b5 b6 b7", "locrian",
         "The altered scale with a doubly flat third.",
         "superlocrian bb3"),
)))

FAMILIES: Final[dict[str, tuple[ScaleKind, ...]]] = {
    modes[0].name: modes
    for modes in (
        MAJOR_MODES,
        MELODIC_MINOR_MODES,
        HARMONIC_MINOR_MODES,
        HARMONIC_MAJOR_MODES,
        DOUBLE_HARMONIC_MODES,
        NEAPOLITAN_MINOR_MODES,
        NEAPOLITAN_MAJOR_MODES,
    )
}
"""Parent → its seven modes, the parent first."""
