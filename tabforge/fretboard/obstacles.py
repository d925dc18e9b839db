"""Why an event cannot be played, and what is nearest to it that can."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tabforge.fretboard.cost import USUAL, Weights
from tabforge.fretboard.holds import holds
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.reach import farthest
from tabforge.fretboard.readings import LET_GO, Event, Grip, Wanted, options
from tabforge.fretboard.trouble import Kind, Trouble


def obstacle(index: int, event: Event, neck: Neck, suggest: bool = True, weights: Weights = USUAL) -> Trouble:
    """What keeps an event that no hand can play from being played: the first note that is trouble by itself, else the chord as a whole.

    Held notes are not looked at: they can be let go. ``suggest``: look for a chord that could be played instead, which takes long.
    """
    numbers = [number for number, note in enumerate(event) if not note.held] or list(range(len(event)))
    struck = tuple(event[number] for number in numbers)
    for number, note in zip(numbers, struck, strict=True):
        trouble = _alone(note, neck)
        if trouble is not None:
            return replace(trouble, index=index, note=number, midi=note.midi, string=note.string, fret=note.fret)
    if len(struck) > len(neck.tuning):
        return Trouble(kind=Kind.TOO_MANY, index=index, limit=len(neck.tuning))
    nearest = _instead(struck, neck, weights) if suggest else ()
    seen: set[int] = set()
    for number, note in zip(numbers, struck, strict=True):
        if note.string in seen:
            return Trouble(
                kind=Kind.SAME_STRING, index=index, note=number, midi=note.midi, string=note.string, nearest=nearest
            )
        if note.string is not None:
            seen.add(note.string)
    kind = Kind.OUT_OF_REACH if _strings_suffice(struck, neck) else Kind.NO_STRINGS_LEFT
    return Trouble(kind=kind, index=index, nearest=nearest)


def _alone(note: Wanted, neck: Neck) -> Trouble | None:
    """What keeps a single note from being played, or None."""
    lies = neck.places(note.midi, note.cents)
    if note.string is not None and not 1 <= note.string <= len(neck.tuning):
        return Trouble(kind=Kind.NO_STRING, limit=len(neck.tuning), nearest=_first(lies))
    if note.fret is not None and not neck.has(note.string or 1, note.fret):
        kind = Kind.NO_FRET if note.fret > neck.last else Kind.SHORT_STRING
        return Trouble(kind=kind, limit=neck.last, nearest=_first(lies))
    if options(note, neck):
        return None
    if not lies:
        between = Kind.UNFRETTED if neck.fretting or note.cents else Kind.NOWHERE
        kind = Kind.BELOW if note.midi < neck.lowest else Kind.ABOVE if note.midi > neck.highest else between
        limit = neck.highest if kind is Kind.ABOVE else neck.lowest
        return Trouble(kind=kind, limit=limit, nearest=_octaves(note.midi, neck))
    if note.string is None:
        return Trouble(kind=Kind.OTHER_PITCH, nearest=_first(lies))
    own = options(Wanted(note.midi, note.string, cents=note.cents), neck)
    near = own or sorted(lies, key=lambda place: abs(place[0] - (note.string or 0)))
    if note.fret is None:
        return Trouble(kind=Kind.NOT_ON_STRING, limit=neck.midi_at(note.string, 0), nearest=_first(near))
    return Trouble(kind=Kind.OTHER_PITCH, there=neck.midi_at(note.string, note.fret), nearest=_first(near))


def _first(places: tuple[Place, ...] | list[Place]) -> tuple[Place, ...]:
    return tuple(places[:1])


def _octaves(midi: int, neck: Neck) -> tuple[Place, ...]:
    """The first place of the nearest octave of a pitch that the neck has; where it has none, of the nearest pitch."""
    for step in (12, 1):
        for way in range(step, 128, step):
            for other in (midi + way, midi - way):
                if neck.places(other):
                    return neck.places(other)[:1]
    return ()


def _strings_suffice(event: Event, neck: Neck) -> bool:
    """Whether each note can have a string of its own, whatever the hand (bipartite matching by augmenting paths, Kuhn's method)."""
    wants = [{string for string, _ in options(note, neck)} for note in event]
    owner: dict[int, int] = {}

    def seat(number: int, tried: set[int]) -> bool:
        for string in sorted(wants[number] - tried):
            tried.add(string)
            if string not in owner or seat(owner[string], tried):
                owner[string] = number
                return True
        return False

    return all(seat(number, set()) for number in range(len(event)))


def _instead(event: Event, neck: Neck, weights: Weights) -> Grip:
    """A grip that can be played instead, note for note: one note on another string or in another octave; empty if that does not help."""
    reach = farthest(neck, weights.hand)
    for other in _variants(event):
        found = [(hold.cost, hold.grip) for hold in holds(other, neck, reach, weights) if LET_GO not in hold.grip]
        if found:
            return min(found)[1]
    return ()


def _variants(event: Event) -> Iterator[Event]:
    """The chord with one pin loosened, then with one note moved by an octave or two, then with all pins loosened."""
    for number, note in enumerate(event):
        if note.string is not None:
            yield (*event[:number], Wanted(note.midi, cents=note.cents), *event[number + 1 :])
    for number, note in enumerate(event):
        for octave in (12, -12, 24, -24):
            yield (*event[:number], Wanted(note.midi + octave, cents=note.cents), *event[number + 1 :])
    yield tuple(Wanted(note.midi, cents=note.cents) for note in event)
