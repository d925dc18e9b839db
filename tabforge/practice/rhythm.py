"""What to listen for in a block's rhythm: tuplets, swing, meters, tempo and loudness that change."""

from __future__ import annotations

from collections.abc import Iterator

from tabforge.explaining.layout import listed
from tabforge.model.events import Event
from tabforge.model.meter import TEMPO_CHANGES
from tabforge.model.score import Section
from tabforge.practice.model import Listening


def rhythm_points(section: Section, divisions: int) -> Iterator[Listening]:
    """What a section's rhythm asks of the ear; nothing where it is plain."""
    yield from _meters(section)
    if section.swing is not None:
        swing = section.swing
        yield Listening(
            "swing",
            f"pairs of {swing.value.spoken}s long and short, {swing.first} to {swing.second}, and every pair alike.",
        )
    yield from _tuplets(section)
    yield from _between(section, divisions)
    yield from _changing(section)


def _events(section: Section) -> Iterator[Event]:
    for bar in section.bars:
        for voice in bar.voices:
            yield from voice


def _meters(section: Section) -> Iterator[Listening]:
    meters = list(dict.fromkeys(bar.meter for bar in section.bars if not bar.partial)) or [section.bars[0].meter]
    if len(meters) > 1:
        yield Listening("meter", f"{listed(map(str, meters))}: count aloud through every change, and feel the first beat of each bar.")
    elif len(set(meters[0].pulses)) > 1:
        groups = "+".join(map(str, meters[0].pulses))
        yield Listening("meter", f"{meters[0]} in {groups}: the beats are not of one length; clap them first, then play.")


def _tuplets(section: Section) -> Iterator[Listening]:
    ratios = {(each.actual, each.normal) for event in _events(section) for each in event.written.tuplets}
    if ratios:
        plain = any(event.notes and not event.written.tuplets for event in _events(section))
        beside = ", and plain notes beside them keep the same beat" if plain else ""
        even = f"all of one length, the next beat exactly on the click{beside}."
        if ratios == {(3, 2)}:
            yield Listening("triplets", even)
        else:
            yield Listening("tuplets", f"{listed(f'{actual} in the time of {normal}' for actual, normal in sorted(ratios))}: {even}")


def _between(section: Section, divisions: int) -> Iterator[Listening]:
    """Notes struck between beats that sound on over the next one. The last sound of all may: a line ends where it ends."""
    last = next((event for bar in section.bars[::-1] for event in bar.voices[0][::-1] if _struck(event)), None)
    for bar in section.bars:
        starts, at = set[int](), 0
        for pulse in bar.meter.pulses:
            starts.add(at)
            at += pulse * divisions * 4 // bar.meter.unit
        early = at - bar.ticks if bar.partial and bar is section.bars[0] else 0
        for voice in bar.voices:
            for event in voice:
                begins = event.onset + early
                held = any(note.tied_out for note in event.notes) or any(begins < start < begins + event.ticks for start in starts)
                if held and begins not in starts and not event.written.tuplets and event is not last and _struck(event):
                    yield Listening("off the beat", "notes struck between beats that sound on over the next: tap the beat, and rush none.")
                    return


def _struck(event: Event) -> bool:
    return bool(event.notes) and not all(note.tied_in for note in event.notes)


def _changing(section: Section) -> Iterator[Listening]:
    said = [TEMPO_CHANGES[bar.tempo_change] for bar in section.bars if bar.tempo_change]
    new = any(bar.tempo is not None for bar in section.bars[1:])
    if said or new:
        words = listed(dict.fromkeys(said)) if said else "a new tempo on the way"
        yield Listening("tempo", f"{words}: learn the notes at one tempo first, without the metronome where the tempo gives way.")
    loud = [event.attached for event in _events(section) if event.attached.dynamic or event.attached.hairpins]
    if loud:
        yield Listening("loudness", "the dynamics: play the softest place so that it still carries, and let the others grow from it.")
