"""Fingerings as method books and a published edition print them, against the search's for the classical player.

All are given as facts and from memory; no edition was at hand. Where a book and the search differ it is said here how much and why.
"""

from __future__ import annotations

from typing import Final

import pytest

from tabforge.pipeline import study_from

# The first position of the guitar, open strings and a finger to each fret: so the methods for guitar of F. Carulli (op. 27 and after) and
# of M. Carcassi (op. 59) begin their scales; both are in the public domain. "String:fret=finger".
C_MAJOR_FIRST: Final = "5:3=3 4:0 4:2=2 4:3=3 3:0 3:2=2 2:0 2:1=1 2:3=3 1:0 1:1=1 1:3=3"
G_MAJOR_FIRST: Final = "6:3=3 5:0 5:2=2 5:3=3 4:0 4:2=2 4:4=4 3:0 3:2=2 2:0 2:1=1 2:3=3 1:0 1:2=2 1:3=3"

# The two octaves of C major in A. Segovia, "Diatonic Major and Minor Scales" (Columbia Music, 1953): one shift, on the third string.
C_MAJOR_TWO_OCTAVES: Final = "5:3=2 5:5=4 4:2=1 4:3=2 4:5=4 3:2=1 3:4=3 3:5=1 3:7=3 2:5=1 2:6=2 2:8=4 1:5=1 1:7=3 1:8=4"


def played(scale: str, row: str, cells: list[str]) -> list[str]:
    """Cells of eighth notes as the classical player takes them."""
    bars = [[*cells[start : start + 8]] for start in range(0, len(cells), 8)]
    bars[-1] += ["r"] * (8 - len(bars[-1]))
    rows = f"  rhythm e*8\n  {row} " + " | ".join(" ".join(bar) for bar in bars)
    outcome = study_from("scale.riff", f'scale {scale}\ntempo 96\nplayer classical\nfingering show\nriff "Scale"\n{rows}\n'.encode())
    assert outcome.score is not None
    notes = [note for bar in outcome.score.sections[0].bars for event in bar.voices[0] for note in event.notes]
    return [f"{note.string}:{note.fret}" + (f"={note.finger}" if note.fret else "") for note in notes]


@pytest.mark.parametrize(("scale", "notes", "printed"), [
    ("C3 major", "C3 D3 E3 F3 G3 A3 B3 C4 D4 E4 F4 G4", C_MAJOR_FIRST),
    ("G2 major", "G2 A2 B2 C3 D3 E3 F#3 G3 A3 B3 C4 D4 E4 F#4 G4", G_MAJOR_FIRST),
])
def test_scales_of_the_first_position_are_those_of_method_books(scale: str, notes: str, printed: str) -> None:
    assert played(scale, "notes", notes.split()) == printed.split()


def test_on_the_edition_s_frets_every_finger_is_the_edition_s() -> None:
    frets = [place.split("=")[0] for place in C_MAJOR_TWO_OCTAVES.split()]
    assert played("C3 major", "frets", frets) == C_MAJOR_TWO_OCTAVES.split()


def test_left_to_itself_the_search_takes_two_octaves_without_the_shift() -> None:
    """The edition teaches the shift; the search, which nobody asks for one, stays in a position. Four of fifteen places are the same."""
    found = played("C3 major", "notes", [f"{step}{octave}" for octave in (3, 4) for step in "CDEFGAB"] + ["C5"])
    frets = [int(place.split(":")[1].split("=")[0]) for place in found]
    assert max(frets) - min(frets) <= 3
    printed = [place.split("=")[0] for place in C_MAJOR_TWO_OCTAVES.split()]
    assert sum(place.split("=")[0] == there for place, there in zip(found, printed, strict=True)) == 4
