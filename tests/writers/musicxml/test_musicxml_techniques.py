"""Every playing technique is written, or declared as lost with its place.

Source of the elements: the W3C MusicXML 4.0 reference (what each element means is told in its description). Which staff carries what is
this project's choice, after what readers were seen to understand.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from lxml import etree

from tabforge.model.score import Score
from tabforge.model.techniques import BY_NAME, TECHNIQUES, Amount, Mark, Role, Technique, parse_mark, with_role
from tabforge.source import Span
from tabforge.writers.musicxml import write
from tabforge.writers.musicxml.techniques import HANDLERS, TAB_HAS_NOTHING
from tabforge.writers.options import STAVES, Staves, WriteOptions
from tests.proof.scores import Item, note, one_bar, rest
from tests.proof.xsd import problems
from tests.writers.musicxml.xml import notes, signs, tree, words

AMOUNTS = {Amount.NONE: ("",), Amount.WHOLE_STEPS: ("1/4", "1", "3/2"), Amount.FRETS: ("1", "2", "5"), Amount.STROKES: ("1", "3")}


def mark_of(technique: Technique, amount: str = "") -> Mark:
    found = parse_mark(technique.form.replace("#", amount))
    assert found is not None
    return found


def items_of(mark: Mark | None, technique: Technique) -> list[Item]:
    """Four quarters; the mark leads from the first note to the second, reaches over the first three, or is on the first alone."""
    plain = [note("q", "3:5 4:5"), note("q", "3:7 4:7"), note("q", "3:5 4:5"), note("q", "3:5")]
    if mark is None:
        return plain
    roles = [Role.START, Role.STOP] if technique.leads else [Role.START, Role.INSIDE, Role.STOP] if technique.extends else [Role.SINGLE]
    for index, role in enumerate(roles):
        given, item = with_role(mark, role), plain[index]
        if technique.scope == "event":
            plain[index] = replace(item, marks=(given,))
        else:
            plain[index] = replace(item, notes=tuple(replace(each, marks=(given,)) for each in item.notes))
    return plain


def score_of(mark: Mark | None, technique: Technique) -> Score:
    return one_bar(*items_of(mark, technique))


def test_the_table_has_every_technique_and_no_other() -> None:
    assert set(HANDLERS) == set(BY_NAME)


def test_a_technique_that_the_table_does_not_have_raises() -> None:
    unknown = Mark(technique=Technique(name="bow hair", form="bh", meaning="", sign="bh"))
    with pytest.raises(KeyError, match="bow hair"):
        write(score_of(unknown, unknown.technique))


@pytest.mark.parametrize("staves", STAVES)
@pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda technique: technique.name)
def test_every_technique_leaves_its_trace_or_is_declared_lost(technique: Technique, staves: Staves) -> None:
    options = WriteOptions(staves=staves)
    bare, _ = write(score_of(None, technique), options)
    seen: dict[bytes, str] = {}
    for amount in AMOUNTS[technique.amount]:
        mark = mark_of(technique, amount)
        document, losses = write(score_of(mark, technique), options)
        assert problems(document) == []
        assert document != bare or losses
        # Two amounts look alike only where the loss of the amount is declared.
        assert document not in seen or losses, f"{amount} is written as {seen.get(document)}"
        seen[document] = amount
        assert all(loss.span == Span(0, 1) and technique.name.split()[0] in loss.what and loss.how for loss in losses)


@pytest.mark.parametrize("staves", STAVES)
def test_no_two_techniques_are_written_alike(staves: Staves) -> None:
    written: dict[bytes, str] = {}
    for technique in TECHNIQUES:
        amount = AMOUNTS[technique.amount][0]
        document, losses = write(score_of(mark_of(technique, amount), technique), WriteOptions(staves=staves))
        assert document not in written or losses, f"{technique.name} is written as {written.get(document)}"
        written[document] = technique.name


@pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda technique: technique.name)
def test_what_tab_has_nothing_of_is_what_the_table_says(technique: Technique) -> None:
    def tab_notes(mark: Mark | None) -> list[bytes]:
        items = items_of(mark, technique)
        # A ghost note keeps the event off the quick way, which believes the table.
        ghost = mark_of(BY_NAME["ghost note"])
        first = replace(items[0], notes=tuple(replace(each, marks=(*each.marks, ghost)) for each in items[0].notes))
        document = tree(one_bar(first, *items[1:]))
        return [etree.tostring(each) for each in document.iter("note", "direction") if each.findtext("staff") == "2"]

    shows = tab_notes(mark_of(technique, AMOUNTS[technique.amount][-1])) != tab_notes(None)
    assert shows != (technique.name in TAB_HAS_NOTHING) or technique.name == "ghost note"


SIGNS: dict[str, tuple[set[str], set[str]]] = {
    "h": ({"slur"}, {"technical/hammer-on"}),
    "p": ({"slur"}, {"technical/pull-off"}),
    "sl": ({"slur", "slide"}, {"slur", "slide"}),
    "ss": ({"slide"}, {"slide"}),
    "in/": ({"articulations/scoop"}, {"articulations/scoop"}),
    "in\\": ({"articulations/plop"}, {"articulations/plop"}),
    "out/": ({"articulations/doit"}, {"articulations/doit"}),
    "out\\": ({"articulations/falloff"}, {"articulations/falloff"}),
    "b1": (set(), {"technical/bend"}),
    "v": ({"ornaments/wavy-line"}, {"ornaments/wavy-line"}),
    "nh": ({"technical/harmonic"}, {"technical/harmonic"}),
    "ah": ({"technical/harmonic"}, {"technical/harmonic"}),
    "t": (set(), {"technical/tap"}),
    "tr": ({"ornaments/trill-mark"}, set()),
    "tp": ({"ornaments/tremolo"}, set()),
    "st": ({"articulations/staccato"}, set()),
    "tn": ({"articulations/tenuto"}, set()),
    "ac": ({"articulations/accent"}, set()),
    "ma": ({"articulations/strong-accent"}, set()),
    "fm": ({"fermata"}, set()),
    "ar/": ({"arpeggiate"}, set()),
    "lr": ({"tied"}, set()),
    "br/": ({"technical/arrow"}, set()),
    "br\\": ({"technical/arrow"}, set()),
}


@pytest.mark.parametrize("form", SIGNS)
def test_each_staff_has_its_own_signs(form: str) -> None:
    mark = parse_mark(form)
    assert mark is not None
    document = tree(score_of(mark, mark.technique))
    for staff, wanted in ((1, SIGNS[form][0]), (2, SIGNS[form][1])):
        assert signs(notes(document, staff)[0]) - {"technical/string", "technical/fret"} == wanted


def test_a_lead_joins_note_to_note_on_its_string() -> None:
    document = tree(score_of(mark_of(BY_NAME["hammer-on"]), BY_NAME["hammer-on"]))
    found = [(each.get("type"), each.get("number"), each.text) for each in document.iter("hammer-on")]
    assert found == [("start", "1", "H"), ("start", "2", "H"), ("stop", "1", None), ("stop", "2", None)]


def test_a_chain_of_leads_never_ends_and_begins_one_number_on_a_note() -> None:
    chain = one_bar(note("q", "3:2", marks="h:start"), note("q", "3:4", marks="h:start h:stop"), note("h", "3:5", marks="h:stop"))
    document = tree(chain)
    assert [(each.get("type"), each.get("number")) for each in document.iter("slur")] == [
        ("start", "1"), ("stop", "1"), ("start", "2"), ("stop", "2"),
    ]  # fmt: skip


def test_bends_count_in_semitones_and_come_back() -> None:
    def bends(form: str) -> list[tuple[str, list[str]]]:
        document = tree(one_bar(note("w", "2:8", marks=form)))
        return [(each.findtext("bend-alter"), [child.tag for child in each][1:]) for each in document.iter("bend")]

    assert bends("b1/2") == [("1", [])]
    assert bends("b1/4") == [("0.5", [])]
    assert bends("b1r") == [("2", []), ("-2", ["release"])]
    assert bends("pb3/2") == [("3", ["pre-bend"])]
    assert bends("pb1r") == [("2", ["pre-bend"]), ("-2", ["release"])]


def test_a_bend_that_is_held_is_struck_bent_and_a_tie_goes_on_with_it() -> None:
    struck = tree(one_bar(note("h", "2:8", marks="b1:start"), note("h", "2:8", marks="b1:stop")))
    assert [[child.tag for child in each] for each in struck.iter("bend")] == [["bend-alter"], ["bend-alter", "pre-bend"]]
    tied = tree(one_bar(note("h", "2:8", marks="b1:start", tie="out"), note("h", "2:8", marks="b1:stop", tie="in")))
    assert len(list(tied.iter("bend"))) == 1


def test_palm_mutes_play_are_told_and_their_dashes_stop_after_the_last_note() -> None:
    muted = [note("q", "6:0", marks=f"pm:{role}") for role in ("start", "inside", "stop")]
    document = tree(one_bar(*muted, note("q", "6:0")))
    assert words(document) == ["P.M."]
    for staff in (1, 2):
        assert [each.findtext("play/mute") for each in notes(document, staff)] == ["palm", "palm", "palm", None]
    assert all(each[-1].tag == "play" for each in notes(document)[:3])
    tab = [each for each in document.iter("note", "direction") if each.findtext("staff") == "2"]
    order = [each.tag if each.tag == "note" else next(each.iter("dashes")).get("type") for each in tab]
    assert order == ["start", "note", "note", "note", "stop", "note"]
    alone = tree(one_bar(note("q", "6:0", marks="pm"), note("h.", "6:0")))
    assert words(alone) == ["P.M."]
    assert not list(alone.iter("dashes"))


def test_a_palm_mute_over_a_rest_ends_there() -> None:
    document = tree(one_bar(note("q", "6:0", marks="pm:start"), rest("q", marks="pm:stop"), note("h", "6:0")))
    assert [each.get("type") for each in document.iter("dashes")] == ["start", "stop"]


def test_let_ring_is_no_tie_and_gives_way_to_one() -> None:
    document = tree(one_bar(note("h", "3:0", marks="lr:start", tie="out"), note("h", "3:0", marks="lr:stop", tie="in")))
    assert [each.get("type") for each in notes(document)[0].iter("tied")] == ["start"]
    assert [each.get("type") for each in notes(document)[1].iter("tied")] == ["stop", "let-ring"]
    assert [each.get("type") for each in notes(document)[1].iter("tie")] == ["stop"]


def test_heads_of_dead_and_ghost_notes() -> None:
    document = tree(one_bar(note("q", "6:0", marks="x"), note("q", "6:0", marks="gh"), note("h", "6:0", marks="x gh")))
    for staff in (1, 2):
        heads = [each.find("notehead") for each in notes(document, staff)]
        assert [(head.text, head.get("parentheses")) for head in heads] == [("x", None), ("normal", "yes"), ("x", "yes")]


def test_harmonics_say_what_their_pitch_is_and_what_to_touch() -> None:
    others = [note("q", "3:2", marks=marks) for marks in ("ah", "th7", "ph")]
    document = tree(one_bar(note("q", "6:12", spell="E3", marks="nh"), *others))
    kinds = [[child.tag for child in each] for each in document.iter("harmonic")]
    sounding, base = "sounding-pitch", "base-pitch"
    assert kinds == [["natural", sounding], ["artificial", sounding], ["artificial", sounding], ["artificial", base]] * 2
    assert words(document) == ["N.H.", "A.H. (14)", "T.H. (9)", "P.H."]


@pytest.mark.parametrize(
    ("fretting", "frets", "step", "lost"),
    [
        ((2, 4, 5, 7, 9, 10, 12), 1, "whole", None),  # on a diatonic neck the next fret is a whole step up
        ((0.5, 1.0, 1.5, 2.0, 2.5), 2, "half", None),
        ((0.5, 1.0, 1.5, 2.0, 2.5), 1, "half", "trill of 1 fret, 0.5 half steps"),
        ((2, 4, 5, 7, 9, 10, 12), 2, "whole", "trill of 2 frets, 4 half steps"),
    ],
)
def test_a_trill_counts_frets_and_tells_half_steps(fretting: tuple[float, ...], frets: int, step: str, lost: str | None) -> None:
    made = one_bar(note("w", "1:0", marks=f"tr{frets}"))
    document, losses = write(replace(made, sections=(replace(made.sections[0], fretting=fretting),)))
    assert f'trill-step="{step}"'.encode() in document
    assert [loss.what for loss in losses] == ([lost] if lost else [])


def test_a_trill_wider_than_a_whole_step_is_declared() -> None:
    for amount, step, lost in ((1, "half", False), (2, "whole", False), (3, "whole", True)):
        document, losses = write(one_bar(note("w", "1:5", marks=f"tr{amount}")))
        assert f'trill-step="{step}"'.encode() in document
        assert bool(losses) == lost
        assert f"tr ({5 + amount})".encode() in document


def test_tremolo_has_its_strokes_and_keeps_off_the_tab() -> None:
    document = tree(one_bar(note("w", "1:5 2:5", marks="tp2")))
    assert [(each.text, each.get("type")) for each in document.iter("tremolo")] == [("2", "single")]


def test_marks_of_an_event_stand_once_on_a_chord() -> None:
    document = tree(one_bar(note("w", "1:5 2:5 3:5", marks="ac fm")))
    assert len(list(document.iter("accent"))) == len(list(document.iter("fermata"))) == 1
    assert len(list(tree(one_bar(note("w", "1:5 2:5 3:5", marks="ar/"))).iter("arpeggiate"))) == 3


def test_a_line_that_never_ends_is_reported_with_its_place() -> None:
    _, losses = write(one_bar(note("h", "3:5", marks="h:start"), note("h", "3:7")))
    assert [(loss.span, loss.what) for loss in losses] == [(Span(0, 1), "hammer-on")]
    _, losses = write(one_bar(note("h", "3:5"), note("h", "3:7", marks="h:stop")))
    assert [(loss.span, loss.what) for loss in losses] == [(Span(1, 2), "hammer-on")]


def test_more_lines_at_once_than_the_standard_has_numbers_are_reported() -> None:
    # number-level of the standard: 1 to 16. A chord of 17 strings shows it in one event.
    many = " ".join(f"{string}:5" for string in range(1, 7))
    first, second = note("h", many, marks="h:start"), note("h", many, marks="h:stop")
    seventeen = [replace(first.notes[0], string=string) for string in range(1, 18)]
    ends = [replace(second.notes[0], string=string) for string in range(1, 18)]
    _, losses = write(one_bar(replace(first, notes=tuple(seventeen)), replace(second, notes=tuple(ends))))
    assert {loss.what for loss in losses} == {"hammer-on"}


def test_amounts_are_written_exactly() -> None:
    for steps in ("1/4", "1/2", "3/4", "1", "5/4", "3/2", "7/4", "2"):
        document = tree(one_bar(note("w", "2:8", marks=f"b{steps}")))
        assert Fraction(document.find(".//bend-alter").text) == Fraction(steps) * 2
