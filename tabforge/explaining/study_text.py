"""What is played in a study, in a player's words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Final

from tabforge.explaining import facts
from tabforge.explaining.layout import counted, entries, kept, listed

_MOST_CHORDS: Final = 24

Called = Callable[[int], str]
"""What a bar of a block, counted from 1, is called."""


def _heard(tones: list[facts.Heard], called: Called) -> str:
    said = []
    for tone in tones:
        name = f"{tone['degree']} ({tone['note']})"
        if tone["bar"] is None:
            said.append(f"{name} is not heard")
        else:
            beat = f"beat {tone['beat']}"
            said.append(f"{name} {counted(tone['times'])}, first in bar {called(tone['bar'])} on {kept(beat)}")
    return "; ".join(said)


def _outside(tones: list[facts.Heard], called: Called) -> str:
    said = ((tone, called(tone["bar"])) for tone in tones if tone["bar"] is not None)
    return ", ".join(kept(f"{tone['note']} ({tone['degree']}) {counted(tone['times'])}, bar {bar}") for tone, bar in said)


def _chords(chords: list[facts.BlockChord]) -> str:
    said = [kept(f"{each['chord']} ({each['numeral']})" if each["numeral"] else each["chord"]) for each in chords[:_MOST_CHORDS]]
    more = len(chords) - len(said)
    return "  ".join(said) + (f" and {more} more" if more else "")


def _doing(chords: list[facts.BlockChord], role: str) -> str:
    return listed(dict.fromkeys(each["chord"] for each in chords if each["role"] == role))


def _neck(block: facts.BlockFacts) -> str:
    frets, strings = block["frets"], block["strings"]
    if not strings:
        return ""
    low, high = frets or (0, 0)
    fretted = f"fret {low}" if low == high else f"frets {low} to {high}"
    said = "open strings only" if not frets else fretted + (" and open strings" if block["open_strings"] else "")
    one = strings[0] == strings[-1]
    return f"{said}, on string {strings[0]}" if one else f"{said}, on strings {strings[-1]} to {strings[0]}"


def _stretch(stretch: facts.Stretch, alone: bool, called: Called) -> Iterator[tuple[str, str]]:
    where = "" if alone else f" (bars {called(stretch['first_bar'])} to {called(stretch['last_bar'])})"
    yield "Scale", f"{stretch['scale']}{where}: {' '.join(stretch['notes'])}" if stretch["scale"] else f"none is said{where}"
    yield "Colour", _heard(stretch["characteristic"], called)
    yield "Outside it", _outside(stretch["outside"], called)
    yield "Chords", _chords(stretch["chords"])
    leaning = _doing(stretch["chords"], "pull") if stretch["characteristic"] else ""  # a minor key may go to its relative
    yield "Leaning away", f"{leaning}, toward {stretch['parent']}" if leaning else ""


def _block(block: facts.BlockFacts, called: Called) -> list[str]:
    bars, notes = block["bars"], block["notes"]
    head = f"{block['name']}  ({bars} bar{'s' * (bars > 1)}, {notes} note{'s' * (notes != 1)})"
    alone = len(block["stretches"]) == 1
    lowest, highest = block["lowest"], block["highest"]
    rows = [row for stretch in block["stretches"] for row in _stretch(stretch, alone, called)]
    rows += [
        ("Range", f"{lowest} to {highest}" if lowest != highest else lowest or ""),
        ("On the neck", _neck(block)),
        ("Techniques", ", ".join(kept(f"{each['name']} {counted(each['times'])}") for each in block["techniques"])),
        ("Under it", listed(f"a {kind}" for kind in block["second_parts"])),
    ]
    return [f"  {head}", *entries(rows, indent=4, width=12)]


def _names(numbers: Sequence[str]) -> Called:
    return lambda bar: numbers[bar - 1]


def study_text(study: facts.StudyFacts, printed: Sequence[Sequence[str]] = ()) -> str:
    """The page on a study, without a line break at its end.

    Bars are counted within each block, unless ``printed`` has, for each block of the facts, what is printed over its bars.
    """
    lines = [f"{study['title'] or 'A study without a title'}  (a study for {study['instrument']}, {' '.join(study['tuning'])})"]
    if len(study["keys"]) > 1:
        lines += ["", f"  Roots: {' '.join(study['keys'])}"]
    for index, block in enumerate(study["blocks"]):
        lines += ["", *_block(block, _names(printed[index]) if printed else str)]
    if not study["blocks"]:
        lines += ["", "  Nothing is played in it."]
    return "\n".join(lines)
