"""A scale explained in a player's words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from tabforge.explaining import facts
from tabforge.explaining.layout import entries, kept, listed, table, wrapped

_MOST_NAMES: Final = 8
_MOST_TRITONES: Final = 3
_SEVEN: Final = 7
_BRACKETS: Final = (
    "In parentheses: the intervals of stacked notes that, as they are spelled, make no usual chord; before them the chord they sound "
    "like, if there is one."
)


def _signature(fifths: int) -> str:
    if fifths == 0:
        return "none"
    kind = "sharp" if fifths > 0 else "flat"
    return f"{abs(fifths)} {kind}{'s' if abs(fifths) > 1 else ''}"


def _tones(tones: Sequence[facts.Tone]) -> str:
    return listed(f"{each['degree']} ({each['note']})" for each in tones)


def _colour(scale: facts.ScaleFacts) -> str:
    if scale["characteristic"]:
        return f"{_tones(scale['characteristic'])}: what sets it apart from {scale['against']}"
    if scale["telling"]:
        return f"{_tones(scale['telling'])}: what tells it from its nearest neighbours among the modes"
    return f"no note that {scale['against']} has not"


def _pull(tritone: facts.Tritone) -> str:
    pulls = [
        f"{note['note']} pulls to {listed((goal['note'] for goal in goals), 'or')}"
        for note, goals in zip(tritone["notes"], tritone["goals"], strict=True)
        if goals
    ]
    low, high = (note["note"] for note in tritone["notes"])
    return f"{low} and {high}" + (f": {listed(pulls)}" if pulls else "")


def _tritones(scale: facts.ScaleFacts) -> list[tuple[str, str]]:
    rows: list[tuple[str, str]] = []
    for tritone in scale["tritones"] if len(scale["tritones"]) <= _MOST_TRITONES else []:
        home = f", home of {scale['parent']}" if tritone["away"] else ""
        rows.append(("Tritone" if not rows else "", _pull(tritone) + home))
    return rows


def _modes(scale: facts.ScaleFacts) -> str:
    named = [f"{mode['root']} {mode['name']}" for mode in scale["modes"][1:] if mode["name"]]
    if len(scale["notes"]) > _SEVEN + 2 or not named:
        return ""
    parent = scale["parent"]
    said = [f"{name} (the parent)" if name == parent else name for name in named]
    return ", ".join(map(kept, said))


def _cell(stack: facts.Stack | None) -> str:
    if stack is None:
        return ""
    if stack["name"]:
        return stack["name"]
    intervals = f"({' '.join(stack['intervals'])})"
    return f"{stack['sounds_like']} {intervals}" if stack["sounds_like"] else intervals


def _chords(scale: facts.ScaleFacts) -> list[str]:
    if not scale["chords"]:
        return []
    seven = len(scale["notes"]) == _SEVEN  # elsewhere stacks of five are nobody's chords
    rows = [("Degree", "Numeral", "Triad", "Seventh", "Ninth", "Also")]
    for each in scale["chords"]:
        numeral = each["triad"]["numeral"] if each["triad"] else None
        rows.append(
            (each["degree"], numeral or "", _cell(each["triad"]), _cell(each["seventh"]), _cell(each["ninth"] if seven else None),
             " ".join(each["others"]))
        )  # fmt: skip
    lines = ["", *table(rows)]
    if any(stack and not stack["name"] for each in scale["chords"] for stack in (each["triad"], each["seventh"], each["ninth"])):
        lines += ["", *wrapped(_BRACKETS, "  ", "  ")]
    return lines


def _pairs(chords: Sequence[facts.Said]) -> str:
    """Chords by numeral and name, those of one degree together: ``vii (Am, Am7)``."""
    roots: dict[str, list[facts.Said]] = {}
    for each in chords:
        roots.setdefault(each["chord"][: 2 if each["chord"][1:2] in ("b", "#") else 1], []).append(each)
    return ", ".join(kept(f"{said[0]['numeral']} ({', '.join(each['chord'] for each in said)})") for said in roots.values())


def _advice(scale: facts.ScaleFacts) -> list[str]:
    parent, home = scale["parent"], _pairs(scale["home"])
    if scale["home_pulls"]:
        home += f"; but it pulls to {parent} itself, so that a drone on {scale['notes'][0]} holds it better"
    leave = [f"{_pairs(scale['parent_home'])}, the home of {parent}"] if scale["parent_home"] else []
    leave += [f"{_pairs(scale['pull'])}, which {'pulls' if len(scale['pull']) == 1 else 'pull'} there"] if scale["pull"] else []
    vamp = scale["vamp"]
    return entries(
        (
            ("Stay on", home),
            ("Colour with", _pairs(scale["colour"])),
            ("Leads home", _pairs(scale["leading"])),
            ("Leave alone" if scale["characteristic"] else "Leans away", "; ".join(leave)),
            ("Vamp", f"{' '.join(each['numeral'] for each in vamp)}: {' '.join(each['chord'] for each in vamp)}" if vamp else ""),
        ),
    )


def scale_text(scale: facts.ScaleFacts) -> str:
    """The page on a scale, without a line break at its end."""
    lines = [f"{scale['name']}  (a scale)", ""]
    if scale["about"]:
        lines += [f"  {scale['about']}", ""]
    lines += entries(
        (
            ("Notes", " ".join(scale["notes"])),
            ("Degrees", " ".join(scale["degrees"])),
            ("Steps", " ".join(scale["steps"])),
            ("Key signature", _signature(scale["fifths"])),
            ("Colour", _colour(scale)),
            ("Same notes", _modes(scale)),
            *_tritones(scale),
        )
    )
    lines += _chords(scale)
    advice = _advice(scale)
    lines += ["", *advice] if advice else []
    if scale["other_names"]:
        lines += ["", *wrapped(f"Also called {', '.join(map(kept, scale['other_names']))}.", "  ", "  ")]
    if scale["plainer"]:
        lines += ["", f"  {scale['plainer']} sounds the same and is easier to read: {' '.join(scale['plainer_notes'])}."]
    return "\n".join(lines)
