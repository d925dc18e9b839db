"""What is said of notes and chords that do not lie on the neck, one function for each kind of trouble."""

from __future__ import annotations

from tabforge.fretboard.words import Said, Words, missing_fret


def below(words: Words) -> Said:
    """A pitch below the lowest string."""
    neck = words.neck
    return (
        f"{words.wanted} is below the lowest open string, {words.name(neck.lowest)}{words.capo}",
        "too low",
        f"a pitch from {words.name(neck.lowest)} to {words.name(neck.highest)}",
        words.nearest(),
    )


def above(words: Words) -> Said:
    """A pitch above the last fret."""
    neck = words.neck
    return (
        f"{words.wanted} is above the last fret of every string: the neck ends at {words.name(neck.highest)}{words.capo}",
        "too high",
        f"a pitch from {words.name(neck.lowest)} to {words.name(neck.highest)}",
        words.nearest(),
    )


def nowhere(words: Words) -> Said:
    """A pitch in a gap between strings."""
    return (
        f"{words.wanted} lies between the last fret of one string and the next string{words.capo}",
        "no string has it",
        None,
        words.nearest(),
    )


def unfretted(words: Words) -> Said:
    """A pitch between two frets that are more than a half step apart."""
    return (
        f"no fret of this neck gives {words.wanted}{words.capo}",
        "between two frets",
        None,
        words.nearest(),
    )


def no_string(words: Words) -> Said:
    """A string that does not exist."""
    string, count = words.trouble.string, words.trouble.limit
    return f"there is no string {string}: this tuning has {count} strings", "", f"a string from 1 to {count}", words.nearest()


def no_fret(words: Words) -> Said:
    """A fret that does not exist."""
    headline, expected = missing_fret(words.neck, words.trouble.string or 1, words.trouble.fret or 0)
    return headline, "", expected, words.nearest()


def not_on_string(words: Words) -> Said:
    """A pinned string without the pitch."""
    string = words.trouble.string or 1
    low, high = words.neck.midi_at(string, 0), words.neck.midi_at(string, words.neck.last)
    inside = low < (words.trouble.midi or 0) < high
    why = "it lies between two frets" if inside else f"it goes from {words.name(low)} to {words.name(high)}"
    return (
        f"string {string} does not have {words.wanted}: {why}{words.capo}",
        f"not on string {string}",
        None,
        words.nearest(),
    )


def other_pitch(words: Words) -> Said:
    """A pinned place with another pitch."""
    trouble = words.trouble
    where = f"string {trouble.string}, " if trouble.string else ""
    is_what = f"is {words.name(trouble.there)}, not {words.wanted}" if trouble.there else f"has no {words.wanted}"
    return f"{where}fret {trouble.fret} {is_what}", "another note", None, words.nearest()


def too_many(words: Words) -> Said:
    """A chord of too many notes."""
    count = words.trouble.limit
    return f"there are more notes in {words.among} than the instrument's {count} strings", f"{count} notes at most", None, None


def same_string(words: Words) -> Said:
    """A string asked for twice."""
    string = words.trouble.string
    return (
        f"two notes of {words.among} are asked for on string {string}, which can sound only one",
        f"string {string} twice",
        "each note on a string of its own",
        words.nearest(),
    )


def no_strings_left(words: Words) -> Said:
    """Notes that need the same string."""
    return (
        f"the notes of {words.among} cannot each have a string of their own",
        "two notes need the same string",
        None,
        words.nearest(),
    )


def out_of_reach(words: Words) -> Said:
    """A chord no hand reaches."""
    return (
        f"no hand reaches all notes of {words.among} at once",
        "out of reach",
        None,
        words.nearest() or "pin every note (6:1+1:12) to have it written all the same",
    )


def held(words: Words) -> Said:
    """A note that is cut short."""
    string = words.trouble.string
    return (
        f"{words.wanted} cannot ring on: the hand or string {string} is needed for this note",
        f"ends {words.wanted} on string {string}",
        None,
        "shorten the held note, or pin the notes to strings that leave it free",
    )
