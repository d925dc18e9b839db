"""What ASCII tab carries of each playing technique; the handbook's table and its test start here."""

from __future__ import annotations

from typing import Final

from tabforge.writers.carriage import Carriage, approximated, full, needless

_STAFF: Final = "how a staff is to be read; frets are the same with and without it"

CARRIED: Final[dict[str, Carriage]] = {
    "hammer-on": full("h before the note it leads to", "h"),
    "pull-off": full("p before the note it leads to", "p"),
    "legato slide": full("/ or \\ before the note it leads to", "/", "\\"),
    "shift slide": approximated("/ or \\ like a legato slide; the legend tells them apart unless a study has both", "/", "\\"),
    "slide in from below": full("/ before the fret", "-/"),
    "slide in from above": full("\\ before the fret", "-\\"),
    "slide out upward": full("/ after the fret", "/-"),
    "slide out downward": full("\\ after the fret", "\\-"),
    "bend": full("b with its amount; b= where it is held through another stroke", "b(full)", "b(1/2)", "b="),
    "bend and release": full("b with its amount, then r", "b(full)r"),
    "pre-bend": full("pb with its amount", "pb(full)"),
    "pre-bend and release": full("pb with its amount, then r", "pb(full)r"),
    "vibrato": full("~ after the fret", "~"),
    "wide vibrato": full("~~ after the fret", "~~"),
    "palm mute": full("PM with its extent over the strings", "PM-"),
    "let ring": full("LR with its extent over the strings", "LR-"),
    "dead note": full("x for the fret", "-x-"),
    "ghost note": full("the fret in parentheses", "(3)"),
    "natural harmonic": full("the fret in angle brackets", "<12>"),
    "artificial harmonic": full("the fretted note, then the touched fret in brackets", "[15]"),
    "pinch harmonic": full("PH over the strings", "PH"),
    "tapped harmonic": full("TH over the strings, the tapped fret in brackets", "TH", "[14]"),
    "tap": full("T over the strings", "T"),
    "left-hand tap": full("LT over the strings", "LT"),
    "trill": full("tr with the other fret", "1tr2"),
    "tremolo picking": full("tp over the strings, with the number of strokes", "tp1", "tp2", "tp3"),
    "staccato": full(". over the strings", "."),
    "tenuto": full("_ over the strings", "_"),
    "accent": full("> over the strings", ">"),
    "strong accent": full("^ over the strings", "^"),
    "fermata": full("fm over the strings", "fm"),
    "arpeggio upward": full("ar/ over the strings", "ar/"),
    "arpeggio downward": full("ar\\ over the strings", "ar\\"),
    "brush upward": full("br/ over the strings", "br/"),
    "brush downward": full("br\\ over the strings", "br\\"),
    "rake": full("rk over the strings", "rk"),
    "volume swell": full("sw over the strings", "sw"),
    "vibrato bar dip": full("dip over the strings", "dip"),
    "string scrape": full("sc over the strings", "sc"),
    "barre": full("B with the fret in Roman numerals and its extent over the strings", "BV-", "BIII-"),
    "half barre": full("hB with the fret in Roman numerals and its extent over the strings", "hBII-"),
    "octave higher": needless(_STAFF),
    "octave lower": needless(_STAFF),
    "two octaves higher": needless(_STAFF),
}
