"""What each technique sounds like when it is clean (common practice, no source)."""

from __future__ import annotations

from typing import Final

SOUNDS: Final[dict[str, str]] = {
    "hammer-on": "the hammered note is as loud as the picked one and comes in time, not early",
    "pull-off": "the finger leaves the string a little sideways, so that the lower note speaks clearly and no other string does",
    "legato slide": "one unbroken tone, the finger pressing all the way, and the second note in time without a stroke",
    "shift slide": "the way is heard, the goal is struck, and both are in time",
    "slide in from below": "the slide is short and takes nothing from the beat: the note itself is there on time",
    "slide in from above": "the slide is short and takes nothing from the beat: the note itself is there on time",
    "slide out upward": "the note has its full length before it leaves, and fades on the way",
    "slide out downward": "the note has its full length before it leaves, and fades on the way",
    "bend": "the goal is exactly in tune: play the goal as a plain note first, then bend until the two are one",
    "bend and release": "in tune at the top, in tune again at the bottom, and both moves take their own time",
    "pre-bend": "the note is in tune the moment it is struck: the fingers learn the way before the ear can check it",
    "pre-bend and release": "in tune when it is struck and in tune when it has come back, the way between even and unhurried",
    "vibrato": "even waves at a steady speed around the note, begun when the note has settled",
    "wide vibrato": "wide waves, all of them alike, that come back to the note each time",
    "palm mute": "short, round and still a pitch: every muted note the same, neither choked nor ringing",
    "let ring": "the notes pile up into one sound: every finger stays down until its chord is over",
    "dead note": "a dry click without any pitch or overtone, in time like every other note",
    "ghost note": "just there: felt rather than heard, and well below its neighbours",
    "natural harmonic": "a clear bell: the finger touches right over the fret wire and leaves at once",
    "artificial harmonic": "a clear bell at the octave of the fretted note, which goes on sounding under it",
    "pinch harmonic": "one strong overtone, the same each time: keep the picking hand at one spot of the string",
    "tapped harmonic": "the tap is short, right over the fret wire, and the overtone rings on",
    "tap": "tapped notes are as loud as picked ones, and the strings beside them are silent",
    "left-hand tap": "the note speaks at once without a pick, as loud as the others",
    "trill": "both notes equally loud and even, from the first stroke to the last",
    "tremolo picking": "small strokes from a loose wrist, even in time and loudness, without hurry at the end",
    "staccato": "short notes with clean silence after them, the silence as exact as the notes",
    "tenuto": "each note is held until the next begins, without a gap",
    "accent": "only the accented notes stand out: the others stay level",
    "strong accent": "a strong, sudden stress, and the very next note is back at its level",
    "fermata": "the note is held and dies away by itself, and the pulse starts anew after it",
    "arpeggio upward": "the notes come one after the other at an even speed, the top one clear",
    "arpeggio downward": "the notes come one after the other at an even speed, the lowest one clear",
    "brush upward": "one quick sweep in which every string is heard",
    "brush downward": "one quick sweep in which every string is heard",
    "rake": "dry clicks that run into the note, which alone rings",
    "volume swell": "no stroke is heard: the note comes out of nothing and grows evenly",
    "vibrato bar dip": "down and back at once, and the note is in tune again",
    "string scrape": "one long, even noise that ends where the next note begins",
    "barre": "every string under the finger speaks: play them one by one, and use the weight of the arm rather than a squeeze",
    "half barre": "every string under the finger speaks, with no more pressure than it takes",
}
"""For each technique of ``model.techniques`` a sentence's end that says what to listen for."""

_WRITTEN: Final = "says where the notes are written, not how they sound"

UNHEARD: Final[dict[str, str]] = {"octave higher": _WRITTEN, "octave lower": _WRITTEN, "two octaves higher": _WRITTEN}
"""Techniques without one, and why."""
