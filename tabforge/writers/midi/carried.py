"""What a MIDI file carries of each playing technique; the handbook's table and its test start here.

``shows`` are pieces of a listing of the file: a line for each note with its key, its velocity, its length in quarter notes and where the
wheel goes, in cents.
"""

from __future__ import annotations

from typing import Final

from tabforge.writers.carriage import Carriage, approximated, full, needless

_STAFF: Final = "how a staff is to be read; what is heard is the same"
_HAND: Final = "where the hand lies; what is heard is the same"

CARRIED: Final[dict[str, Carriage]] = {
    "hammer-on": approximated("the note it leads to is softer", "velocity 64"),
    "pull-off": approximated("the note it leads to is softer", "velocity 60"),
    "legato slide": full("the pitch moves to the next note, which is softer", "velocity 60", "wheel 0 to"),
    "shift slide": full("the pitch moves to the next note", "wheel 0 to"),
    "slide in from below": full("the pitch comes up from three frets below", "wheel -300"),
    "slide in from above": full("the pitch comes down from three frets above", "wheel 300"),
    "slide out upward": full("the pitch moves up as the note ends", "wheel 0 to 2"),
    "slide out downward": full("the pitch moves down as the note ends", "wheel 0 to -2"),
    "bend": full("the pitch rises by its amount and stays", "wheel 0 to 200", "wheel 0 to 100"),
    "bend and release": full("the pitch rises by its amount and comes back", "wheel 0 to 200 to 0"),
    "pre-bend": full("the pitch is up before the stroke", "wheel 200"),
    "pre-bend and release": full("the pitch is up before the stroke and comes down", "wheel 200 to 0"),
    "vibrato": full("the pitch rocks", "wheel 0 to 30 to 0"),
    "wide vibrato": full("the pitch rocks widely", "wheel 0 to 80 to 0"),
    "palm mute": approximated("shorter and softer", "velocity 72"),
    "let ring": full("sounds until its string is struck again or the harmony changes", "quarters 4"),
    "dead note": approximated("a very short, softer note at the pitch of its place", "velocity 64"),
    "ghost note": full("half as loud", "velocity 40"),
    "natural harmonic": approximated("the pitch that sounds, softer", "velocity 72"),
    "artificial harmonic": approximated("the pitch that sounds, softer", "velocity 72"),
    "pinch harmonic": approximated("an octave above the stopped string, louder", "velocity 88"),
    "tapped harmonic": approximated("the pitch that sounds, softer", "velocity 68"),
    "tap": approximated("a little softer", "velocity 72"),
    "left-hand tap": approximated("softer", "velocity 64"),
    "trill": full("the two notes by turns, the later ones softer", "velocity 60"),
    "tremolo picking": full("the note again and again, as often as its strokes say", "velocity 80"),
    "staccato": full("half as long", "quarters 1/2"),
    "tenuto": full("its full length, a little louder", "velocity 86"),
    "accent": full("louder", "velocity 94"),
    "strong accent": full("much louder and a little shorter", "velocity 104"),
    "fermata": full("the tempo is half as fast while it lasts", "tempo 32"),
    "arpeggio upward": full("the notes one after another from the lowest", "spread up"),
    "arpeggio downward": full("the notes one after another from the highest", "spread down"),
    "brush upward": full("the notes quickly one after another from the lowest", "spread up"),
    "brush downward": full("the notes quickly one after another from the highest", "spread down"),
    "rake": approximated("very short, softer notes on the strings before it", "velocity 56"),
    "volume swell": full("expression rises from silence", "127 to 0 to 3"),
    "vibrato bar dip": full("the pitch dips by a whole step and comes back", "wheel 0 to -200 to 0"),
    "string scrape": approximated("the note slides down an octave", "to -1"),
    "barre": needless(_HAND),
    "half barre": needless(_HAND),
    "octave higher": needless(_STAFF),
    "octave lower": needless(_STAFF),
    "two octaves higher": needless(_STAFF),
}
