"""What MusicXML carries of each playing technique, with notation and TAB; the handbook's table and its test start here."""
# ruff: noqa: E501  # a table is read by its columns

from __future__ import annotations

from typing import Final

from tabforge.writers.carriage import Carriage, approximated, full

CARRIED: Final[dict[str, Carriage]] = {
    "hammer-on": full("a hammer-on with its letter on TAB, a slur on the staff", '<hammer-on type="start"', ">H</hammer-on>", '<slur type="start"'),
    "pull-off": full("a pull-off with its letter on TAB, a slur on the staff", '<pull-off type="start"', ">P</pull-off>", '<slur type="start"'),
    "legato slide": full("a slide with a slur", '<slide type="start"', '<slur type="start"'),
    "shift slide": full("a slide without a slur", '<slide type="start"'),
    "slide in from below": approximated("a scoop, which readers draw as a curve", "<scoop/>"),
    "slide in from above": approximated("a plop, which readers draw as a curve", "<plop/>"),
    "slide out upward": approximated("a doit, which readers draw as a curve", "<doit/>"),
    "slide out downward": approximated("a falloff, which readers draw as a curve", "<falloff/>"),
    "bend": full("a bend on TAB, in semitones", '<bend shape="curved"><bend-alter>'),
    "bend and release": full("a bend and a released bend on TAB", '<bend shape="curved"><bend-alter>', "<release/>"),
    "pre-bend": full("a bend before the stroke, on TAB", '<bend shape="curved"><bend-alter>', "<pre-bend/>"),
    "pre-bend and release": full("a bend before the stroke and a released bend, on TAB", "<pre-bend/>", "<release/>"),
    "vibrato": full("a wavy line", 'smufl="guitarVibratoStroke"'),
    "wide vibrato": full("a wavy line of the wide shape", 'smufl="guitarWideVibratoStroke"'),
    "palm mute": full("P.M. with dashes over TAB, and muted in the sound", ">P.M.</words>", "<dashes", "<mute>palm</mute>"),
    "let ring": full("ties to nowhere on the staff, let ring with dashes over TAB", '<tied type="let-ring"/>', ">let ring</words>", "<dashes"),
    "dead note": full("a cross for a head", "<notehead>x</notehead>"),
    "ghost note": full("a head in parentheses", 'parentheses="yes"'),
    "natural harmonic": full("a natural harmonic, and N.H. over TAB", "<harmonic><natural/>", ">N.H.</words>"),
    "artificial harmonic": full("an artificial harmonic, and A.H. with the touched fret over TAB", "<harmonic><artificial/>", ">A.H. ("),
    "pinch harmonic": approximated("an artificial harmonic, told apart by the words P.H.", "<harmonic><artificial/>", ">P.H.</words>"),
    "tapped harmonic": approximated("an artificial harmonic, told apart by the words T.H. with the tapped fret", "<harmonic><artificial/>", ">T.H. ("),
    "tap": full("a tap of the right hand, and T over TAB", '<tap hand="right"/>', ">T</words>"),
    "left-hand tap": full("a tap of the left hand, and LT over TAB", '<tap hand="left"/>', ">LT</words>"),
    "trill": approximated("a trill of a half or a whole step; the fret of a wider one in words over TAB", "<trill-mark", ">tr ("),
    "tremolo picking": full("strokes through the stem on the staff (words where TAB stands alone)", '<tremolo type="single">'),
    "staccato": full("a staccato dot on the staff", "<staccato/>"),
    "tenuto": full("a tenuto line on the staff", "<tenuto/>"),
    "accent": full("an accent on the staff", "<accent/>"),
    "strong accent": full("a strong accent on the staff", "<strong-accent"),
    "fermata": full("a fermata on the staff", "<fermata"),
    "arpeggio upward": full("an arpeggio line with its arrow on the staff", '<arpeggiate direction="up"/>'),
    "arpeggio downward": full("an arpeggio line with its arrow on the staff", '<arpeggiate direction="down"/>'),
    "brush upward": full("an arrow on the staff, the word brush with an arrow over TAB", "<arrow-direction>up</arrow-direction>", ">brush \u2191</words>"),
    "brush downward": full("an arrow on the staff, the word brush with an arrow over TAB", "<arrow-direction>down</arrow-direction>", ">brush \u2193</words>"),
    "rake": approximated("the word rake over TAB", ">rake</words>"),
    "volume swell": approximated("the word swell over TAB, with dashes over several in a row", ">swell</words>"),
    "vibrato bar dip": approximated("the word dip over TAB", ">dip</words>"),
    "string scrape": approximated("the word scrape over TAB", ">scrape</words>"),
    "barre": full("B with the fret in Roman numerals and dashes over the staff", ">B V</words>", ">B III</words>", "<dashes"),
    "half barre": full("\u00bdB with the fret in Roman numerals and dashes over the staff", ">\u00bdB II</words>", "<dashes"),
    "octave higher": full("an octave line on the staff (lost where TAB stands alone)", '<octave-shift type="down" size="8"'),
    "octave lower": full("an octave line on the staff (lost where TAB stands alone)", '<octave-shift type="up" size="8"'),
    "two octaves higher": full("an octave line on the staff (lost where TAB stands alone)", '<octave-shift type="down" size="15"'),
}
