"""Playing techniques as topics, from their table."""

from __future__ import annotations

from typing import Final

from tabforge.cli.topics import Entry, Topic
from tabforge.model.techniques import AMOUNT_TEXT, TECHNIQUES, Amount, Technique, parse_mark

_AMOUNTS: Final = {
    Amount.WHOLE_STEPS: "# counts whole steps: 1/4, 1/2, 3/4, 1, 5/4, 3/2, 7/4 or 2",
    Amount.FRETS: "# counts frets above the fretted note, 1 to 24",
    Amount.STROKES: "# counts strokes through the stem, 1 to 3",
}


def _entries() -> list[Entry]:
    return [Entry(each.form, f"{each.name}: {each.meaning}") for each in TECHNIQUES]


def _named(words: str) -> Technique | None:
    for each in TECHNIQUES:
        if words in (each.form, each.name) or words.casefold() == each.name:
            return each
    mark = parse_mark(words)
    return mark.technique if mark else None


def _page(words: str) -> str | None:
    technique = _named(words)
    if technique is None:
        return None
    lines = [f"{technique.form}  {technique.name} (a mark)", "", f"  {technique.meaning[0].upper()}{technique.meaning[1:]}."]
    if AMOUNT_TEXT[technique.amount]:
        usual = f"; {technique.default} if it is left out" if technique.default is not None else ""
        lines.append(f"  {_AMOUNTS[technique.amount]}{usual}.")
    if technique.leads:
        lines.append("  It leads to the next note on the same string.")
    if technique.extends:
        lines.append("  A - under the following notes carries it on.")
    example = technique.form.replace("#", str(technique.default or 1))
    whole = "the whole chord" if technique.scope == "event" else f"each note of a chord; {example}@2 is for the one on string 2"
    lines += [f"  It is for {whole}.", f"  ASCII tab shows it as {technique.sign}"]
    return "\n".join(lines)


TOPICS: Final = (Topic(name="marks", about="playing techniques, as a row of marks writes them", entries=_entries, explain=_page),)
