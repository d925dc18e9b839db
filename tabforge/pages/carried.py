"""What engraved pages show of each playing technique; the handbook's table and its test start here."""

from __future__ import annotations

from typing import Final

from tabforge.writers.carriage import Carriage, approximated, full

CARRIED: Final[dict[str, Carriage]] = {
    "hammer-on": full("an arc with H over TAB, a slur on the staff", 'class="mark hammer-on"', ">H</text>"),
    "pull-off": full("an arc with P over TAB, a slur on the staff", 'class="mark pull-off"', ">P</text>"),
    "legato slide": full("a line between the numbers under an arc", 'class="mark legato-slide"'),
    "shift slide": full("a line between the numbers", 'class="mark shift-slide"'),
    "slide in from below": full("a rising line into the number", 'class="mark slide-in-from-below"'),
    "slide in from above": full("a falling line into the number", 'class="mark slide-in-from-above"'),
    "slide out upward": full("a rising line out of the number", 'class="mark slide-out-upward"'),
    "slide out downward": full("a falling line out of the number", 'class="mark slide-out-downward"'),
    "bend": full("an arrow up to its amount, dashes while it is held", 'class="mark bend"', ">full</text>", ">\u00bd</text>"),
    "bend and release": full("an arrow up to its amount and an arrow down", 'class="mark bend-and-release"', ">full</text>"),
    "pre-bend": full("an upright arrow to its amount, dashes while it is held", 'class="mark pre-bend"', ">full</text>"),
    "pre-bend and release": full("an upright arrow to its amount and an arrow down", 'class="mark pre-bend-and-release"', ">full</text>"),
    "vibrato": full("a wavy line over TAB", 'class="mark vibrato"'),
    "wide vibrato": full("a high wavy line over TAB", 'class="mark wide-vibrato"'),
    "palm mute": full("P.M. with dashes over TAB", 'class="mark palm-mute"', ">P.M.</text>", "stroke-dasharray"),
    "let ring": full("let ring with dashes over TAB", 'class="mark let-ring"', ">let ring</text>", "stroke-dasharray"),
    "dead note": full("a cross on its string and on the staff", 'class="tab dead"', 'href="#E0A9"'),
    "ghost note": full("its number and its head in parentheses", 'class="tab bracketed"'),
    "natural harmonic": full("the number in angle brackets, N.H. over TAB", 'class="tab harmonic"', ">N.H.</text>"),
    "artificial harmonic": full("the number in angle brackets, A.H. with the touched fret over TAB", 'class="tab harmonic"', ">A.H. ("),
    "pinch harmonic": full("the number in angle brackets, P.H. over TAB", 'class="tab harmonic"', ">P.H.</text>"),
    "tapped harmonic": full("the number in angle brackets, T.H. with the tapped fret over TAB", 'class="tab harmonic"', ">T.H. ("),
    "tap": full("T over TAB", 'class="mark tap"', ">T</text>"),
    "left-hand tap": full("LT over TAB", 'class="mark left-hand-tap"', ">LT</text>"),
    "trill": full("tr with the fret and a wavy line over TAB, a trill on the staff", 'class="mark trill"', ">tr (", 'href="#E566"'),
    "tremolo picking": full("strokes through the stem on the staff", 'href="#E22'),
    "staccato": full("a dot on the staff", 'href="#E4A'),
    "tenuto": full("a line on the staff", 'href="#E4A'),
    "accent": full("an accent on the staff", 'href="#E4A'),
    "strong accent": full("a strong accent on the staff", 'href="#E4A'),
    "fermata": full("a fermata on the staff", 'href="#E4C'),
    "arpeggio upward": full("a wavy arrow beside the chord, on TAB and on the staff", 'class="mark arpeggio-upward"'),
    "arpeggio downward": full("a wavy arrow beside the chord, on TAB and on the staff", 'class="mark arpeggio-downward"'),
    "brush upward": full("an arrow beside the chord on TAB", 'class="mark brush-upward"'),
    "brush downward": full("an arrow beside the chord on TAB", 'class="mark brush-downward"'),
    "rake": approximated("the word rake over TAB", ">rake</text>"),
    "volume swell": approximated("the word swell over TAB, with dashes over several in a row", ">swell</text>"),
    "vibrato bar dip": approximated("the word dip over TAB", ">dip</text>"),
    "string scrape": approximated("the word scrape over TAB", ">scrape</text>"),
    "barre": full("B with the fret in Roman numerals and dashes over TAB", 'class="mark barre"', ">B V</text>", ">B III</text>"),
    "half barre": full("\u00bdB with the fret in Roman numerals and dashes over TAB", 'class="mark half-barre"', ">\u00bdB II</text>"),
    "octave higher": full("an octave line on the staff", 'href="#E51'),
    "octave lower": full("an octave line on the staff", 'href="#E51'),
    "two octaves higher": full("an octave line on the staff", 'href="#E51'),
}
