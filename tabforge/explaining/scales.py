"""What there is to say about a scale: its notes, its chords, its colour."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from tabforge.explaining import facts
from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale
from tabforge.theory import harmony, traits
from tabforge.theory.chords import chord_tones
from tabforge.theory.colour import home_chord, vamp_chords
from tabforge.theory.harmony import EXTRAS, STACKS, TRIADS, contained, stacked
from tabforge.theory.keys import plainer_root
from tabforge.theory.labels import MAJOR_OFFSETS
from tabforge.theory.modes import modes_of
from tabforge.theory.roman import numeral_of
from tabforge.theory.scale_table import find_kind, kind_of_labels
from tabforge.theory.scale_text import steps_text, tones_text
from tabforge.theory.scales import on_root

MOST_CHORDS: Final = 9
"""Notes of a scale at most whose chords are worth listing: with more, everything is a chord of it."""


def title(scale: Scale) -> str:
    """The scale's name on its root."""
    return f"{scale.root.pitch_class} {scale.name}"


def tone(each: traits.Tone) -> facts.Tone:
    """A note with its degree."""
    return {"degree": each.degree, "note": str(each.note)}


def said(chords: Sequence[ChordSymbol], scale: Scale) -> list[facts.Said]:
    """Chords with their numerals."""
    return [{"numeral": numeral_of(chord, scale) or "", "chord": chord.text} for chord in chords]


def _stack(each: harmony.Stack, scale: Scale) -> facts.Stack:
    return {
        "name": each.chord.text if each.chord else None,
        "sounds_like": each.sounds.text if each.sounds else None,
        "numeral": each.numeral,
        "notes": list(map(str, each.tones)),
        "intervals": list(each.labels),
        "role": traits.role_of(scale, each.named) if each.named else None,
    }


def _degrees(scale: Scale) -> list[facts.Degree]:
    if len(scale.tones) > MOST_CHORDS:
        return []
    seven = len(scale.tones) == len(MAJOR_OFFSETS)
    columns = [stacked(scale, size) or (None,) * len(scale.tones) for size in STACKS.values()]
    found: list[facts.Degree] = []
    for at, (label, note) in enumerate(zip(scale.labels, scale.tones, strict=True)):
        triad, seventh, ninth = (_stack(column[at], scale) if column[at] else None for column in columns)  # type: ignore[arg-type]  # tested
        more = contained(scale, note, EXTRAS if seven else (*TRIADS, *EXTRAS, "5"))
        others = [chord.text for chord in more if set(chord_tones(chord)) <= set(scale.tones)]  # as it is spelled
        own = {each["name"] or each["sounds_like"] for each in (triad, seventh, ninth) if each}
        found.append(
            {
                "degree": label,
                "note": str(note),
                "triad": triad,
                "seventh": seventh,
                "ninth": ninth,
                "others": [name for name in others if name not in own],
            }
        )
    return found


def _roles(scale: Scale, role: traits.Role) -> list[facts.Said]:
    chords = [stack.named for stack in traits.with_role(scale, role) if stack.named]
    return said(chords, scale)


def scale_facts(scale: Scale) -> facts.ScaleFacts:
    """Everything about a scale, from its notes."""
    kind = find_kind(scale.name) or kind_of_labels(scale.labels)
    colour = traits.colour_of(scale)
    plainer = plainer_root(scale)
    again = on_root(scale, Pitch(plainer.step, plainer.alter, scale.root.octave)) if plainer else None
    seven = len(scale.tones) == len(MAJOR_OFFSETS)
    home = home_chord(scale)
    pull = traits.pulling(scale, colour.parent)
    stays = [home] if home else []
    if seven and home:
        stays += [stack.named for stack in stacked(scale, STACKS["sevenths"])[:1] if stack.named]
    return {
        "explains": "scale",
        "name": title(scale),
        "about": kind.about if kind else None,
        "notes": list(map(str, scale.tones)),
        "degrees": list(scale.labels),
        "steps": steps_text(scale.offsets).split(),
        "fifths": scale.fifths,
        "other_names": [name for name in kind.names if name != scale.name] if kind else [],
        "plainer": title(again) if again else None,
        "plainer_notes": tones_text(again).split() if again else [],
        "against": title(colour.against),
        "characteristic": [tone(each) for each in colour.tones],
        "telling": [tone(each) for each in colour.telling],
        "parent": str(colour.parent) if colour.parent else None,
        "modes": [{"degree": mode.degree, "root": str(mode.root), "name": mode.name} for mode in modes_of(scale)],
        "tritones": [
            {
                "notes": [tone(each) for each in pair.tones],
                "goals": [[tone(each) for each in goals] for goals in pair.goals],
                "away": pair.away,
            }
            for pair in colour.tritones
        ],
        "chords": _degrees(scale),
        "home": said(stays, scale),
        "home_pulls": bool(pull and home and pull <= traits.sound_of(scale, home)),
        "leading": _roles(scale, "lead") if seven else [],
        "colour": _roles(scale, "colour") if seven else [],
        "pull": _roles(scale, "pull") if seven else [],
        "parent_home": _roles(scale, "parent") if seven else [],
        "vamp": said(vamp_chords(scale), scale),
    }
