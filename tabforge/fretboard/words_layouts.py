"""What is said of layouts that do not lie on the neck, one function for each kind of trouble."""

from __future__ import annotations

from tabforge.fretboard.shapes import SHAPES
from tabforge.fretboard.words import Said, Words


def strings(words: Words) -> Said:
    """A layout from a string to a lower one."""
    first, last = words.trouble.string, words.trouble.limit
    return (
        f"a layout goes from a lower string to a higher one, and string {last} is lower than string {first}",
        "",
        f"from string {last} to string {first}",
        "to play the line falling, say path down",
    )


def reentrant(words: Words) -> Said:
    """A layout over a string that is tuned lower than the one before."""
    string = words.trouble.string or 1
    return (
        f"string {string} ({words.name(words.trouble.there)}) is not tuned higher than string {string + 1} "
        f"({words.wanted}), so the line cannot rise from one to the other",
        "",
        f"a layout from string {string} on, or one that ends on string {string + 1}",
        "layout position, open or free use such strings as they lie",
    )


def start(words: Words) -> Said:
    """A layout with nothing to start on."""
    trouble = words.trouble
    if trouble.fret is not None:
        last = trouble.limit
        return (
            f"there is nothing at fret {trouble.fret} to start on: the neck ends at fret {last}{words.capo}",
            "",
            f"a fret from 0 to {last}",
            words.start(),
        )
    return f"string {trouble.string} does not have {words.wanted} to start on", "", None, words.start()


def low(words: Words) -> Said:
    """A layout whose next string begins too high."""
    string = words.trouble.string
    return (
        f"the line cannot go on to string {string}: its open note {words.name(words.trouble.limit)}{words.capo} is "
        f"above the next one, {words.wanted}",
        "",
        "more notes on each string, or a higher start",
        words.start(),
    )


def high(words: Words) -> Said:
    """A layout that goes past the last fret."""
    trouble = words.trouble
    return (
        f"on string {trouble.string} this layout needs {words.wanted} at fret {trouble.fret}, and the neck ends at "
        f"fret {trouble.limit}{words.capo}",
        "",
        "fewer notes on each string, or a lower start",
        words.start(),
    )


def unfretted(words: Words) -> Said:
    """A layout of notes that the neck has no frets for."""
    missing = ", ".join(words.name(midi) for midi in words.trouble.missing)
    where = f"string {words.trouble.string} has" if words.trouble.string else "this neck has"
    return (
        f"{where} no fret for {missing}{words.capo}",
        "leaves out notes",
        None,
        "choose a scale or tones that the frets give, another string, or another tuning",
    )


def hole(words: Words) -> Said:
    """A layout that leaves notes out."""
    missing = ", ".join(words.name(midi) for midi in words.trouble.missing)
    return (
        f"a hand here does not reach {missing}: the strings lie too far apart",
        "leaves out notes",
        None,
        "begin above the gap (from), or leave the places open (layout free)",
    )


def begin(words: Words) -> Said:
    """A layout without the note to begin on."""
    trouble = words.trouble
    return (
        f"this layout does not have {words.wanted}, in any octave, to begin on",
        f"goes from {words.name(trouble.there)} to {words.name(trouble.limit)}",
        f"a degree from {words.name(trouble.there)} to {words.name(trouble.limit)}",
        None,
    )


def end(words: Words) -> Said:
    """A layout that ends too soon."""
    trouble = words.trouble
    return (
        f"this layout does not go as far as {words.wanted}",
        f"goes from {words.name(trouble.there)} to {words.name(trouble.limit)}",
        f"an end from {words.name(trouble.there)} to {words.name(trouble.limit)}",
        "without to and octaves the run has all that the layout holds",
    )


def empty(words: Words) -> Said:
    """A layout without notes."""
    return "none of these tones lies within this layout", "no notes", None, "choose more tones, or another layout"


def shape(words: Words) -> Said:
    """A shape that a tuning does not have."""
    wanted, *others = words.trouble.named
    strings = [str(string) for string, _, _ in SHAPES[wanted]]
    near = words.trouble.nearest_fret
    lies = "layout open has a root on an open string" if near == 0 else f"layout position {near} has the lowest root under the first finger"
    return (
        f"this tuning has no shape {wanted}: an open {wanted} chord has its roots on strings {_listed(strings, 'and')}, and these strings "
        "do not have them there",
        "",
        f"shape {_listed(others, 'or')}" if others else "a tuning whose strings lie as those of a guitar do",
        None if near is None else lies,
    )


def _listed(names: list[str], word: str) -> str:
    return f" {word} ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def shape_place(words: Words) -> Said:
    """A shape for which the neck is too short."""
    trouble = words.trouble
    above = f" at or above fret {trouble.fret}" if trouble.fret else ""
    return (
        f"the neck has no whole shape {trouble.named[0]} of this scale{above}: it ends at fret {trouble.limit}{words.capo}",
        "",
        "another shape" if trouble.nearest_fret is None else f"a fret up to {trouble.nearest_fret}",
        words.start(),
    )
