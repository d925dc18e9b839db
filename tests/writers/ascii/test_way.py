"""Rehearsal marks, signs of the way, tempo changes, bars of rest, dynamics and barres: where they stand."""

from __future__ import annotations

from tabforge.model.events import DYNAMICS
from tabforge.model.score import SIGNS, BarLine
from tabforge.source import Span
from tabforge.writers.ascii import write
from tabforge.writers.ascii.marks import roman
from tabforge.writers.ascii.meanings import DYNAMICS_MEAN, WAY_MEANS
from tabforge.writers.options import WriteOptions
from tests.writers.ascii.build import bar, event, phrase, score, section, tempo
from tests.writers.ascii.test_layout import tab
from tests.writers.ascii.test_losses import losses

REST = bar("w r")


def test_the_way_is_told_over_its_bar_at_the_end_it_belongs_to() -> None:
    lines = tab(bar("w 1:1", rehearsal="B", signs=("segno", "dscoda")), bar("w 1:2", signs=("coda",), right=BarLine(style="final")))
    assert lines[0] == "  [B] (segno) D.S. al Coda (coda)"
    assert lines[2].index("|", 3) == lines[0].index(" (coda)")


def test_signs_and_a_repeat_count_do_not_meet() -> None:
    lines = tab(bar("w 1:1", signs=("fine",), right=BarLine(repeat="backward", times=3)), bar("w 1:2", rehearsal="C"))
    assert lines[0] == "              Fine [C]"
    assert lines[1] == "                x3"


def test_a_change_of_tempo_stands_after_the_tempo() -> None:
    lines = tab(bar("w 1:1", tempo=tempo(90)), bar("w 1:1", tempo=tempo(60), change="accel"), bar("w 1:1", tempo=tempo(60)))
    # After the change the old figure no longer holds, so it is told again.
    assert lines[0].split() == ["q=60", "accel.", "q=60"]


def test_long_rehearsal_marks_are_cut_and_reported() -> None:
    found = losses(bar("w 1:1", rehearsal="Bridge " * 20), width=50)
    assert [(loss.what, loss.span) for loss in found] == [("the end of a long rehearsal mark or sign", Span(500, 501))]
    assert losses(bar("w 1:1", rehearsal="B"), width=50) == ()


def test_a_bar_may_begin_a_line() -> None:
    plain = bar("w 1:1")
    lines = tab(plain, bar("w 1:2", new_line=True), plain, bar("w 1:3", new_line=True))
    assert [line.count("|") - 1 for line in lines if line.startswith("e|")] == [1, 2, 1]
    assert len([line for line in tab(bar("w 1:1", new_line=True), plain) if line.startswith("e|")]) == 1


def test_bars_of_rest_are_one_bar_with_their_number() -> None:
    lines = tab(bar("w 1:1"), REST, REST, bar("q r", "h r", "q r"), bar("w 1:2"))
    assert lines[3] == "G|--------------|-- 3 bars rest --|--------------|"
    assert lines[1] == "e|-1------------|-----------------|-2------------|"
    assert lines[0].split() == ["w", "w"]


def test_what_happens_at_a_bar_of_rest_parts_it_from_those_before() -> None:
    meets = {
        "a bar alone": [REST, bar("w 1:1")],
        "meter": [REST, bar("h. r", time="3/4")],
        "tempo": [REST, bar("w r", tempo=tempo(70))],
        "change": [REST, bar("w r", change="rit")],
        "rehearsal": [REST, bar("w r", rehearsal="D")],
        "line": [REST, bar("w r", new_line=True)],
        "segno": [REST, bar("w r", signs=("segno",))],
        "fine": [bar("w r", signs=("fine",)), REST],
        "repeat": [REST, bar("w r", left=BarLine(repeat="forward"))],
        "double line": [bar("w r", right=BarLine(style="double")), REST],
        "fermata": [REST, bar("w r fm")],
        "word": [REST, bar("w r w:count")],
        "dynamic": [REST, bar("w r d:p")],
        "second voice": [REST, bar("w r", below=["w 6:0"])],
        "pickup": [bar("q r", partial=True), REST],
    }
    for what, bars in meets.items():
        assert not any("bars rest" in line for line in tab(*bars)), what
    one = tab(bar("w r", signs=("segno",), rehearsal="A", tempo=tempo(50)), bar("w r", signs=("fine",), right=BarLine(style="final")))
    assert one[0] == "  [A] (segno)  Fine"
    assert any("2 bars rest" in line for line in one)


def test_an_ending_a_hairpin_and_an_extent_go_on_over_bars_of_rest() -> None:
    closing = bar("w 1:1 pm> y:| d:p", right=BarLine(repeat="backward", endings=(1,)))
    lines = tab(bar("w 1:1 pm< y:>", left=BarLine(endings=(1,))), REST, REST, closing)
    assert lines[0] == "  1.______________________________________________|"
    assert lines[1] == "   PM-------------------------------|"
    assert lines[-1] == "   >--------------------------------p"


def test_dynamics_stand_below_and_a_hairpin_reaches_from_one_to_the_next() -> None:
    lines = tab(bar("q 1:1 d:p y:<", "q 1:2", "q 1:3 d:ff y:|", "q 1:4 y:>"), bar("h 1:5 y:|<", "h 1:6 y:."))
    assert lines[-1] == "   p<--------ff   >------<---------------"
    assert lines[0].split() == ["q", "q", "q", "q", "h", "h"]


def test_with_two_voices_each_has_its_dynamics_on_its_side() -> None:
    lines = tab(bar("h 1:1 d:f", "h 1:3", below=["w 6:0 d:pp"]), bar("w 1:1 d:mf"))
    assert lines[0].split() == ["f", "mf"]
    assert lines[-1].split() == ["pp"]


def test_a_hairpin_goes_on_in_the_next_line_with_its_sign() -> None:
    lines = tab(bar("w 1:1 y:<"), bar("w 1:1"), bar("w 1:1", new_line=True), bar("w 1:1 y:."), bar("w 1:1 d:f"))
    swells = [line for line in lines if "<" in line]
    assert swells == ["   <---------------------------", " <-----------------------------  f"]


def test_the_end_of_a_hairpin_that_never_began_is_reported() -> None:
    assert [loss.what for loss in losses(bar("h 1:1", "h 1:2 y:|"))] == ["the end of a hairpin"]
    assert losses(bar("h 1:1 y:<", "h 1:2 y:|")) == ()


def test_a_short_hairpin_has_a_dash_and_no_likeness_to_an_accent() -> None:
    lines = tab(bar(*("s 1:1 y:<.", "s 1:2", "e 1:3"), "h. r"))
    assert lines[-1] == "   <-"
    assert lines[1].startswith("e|-1--2-3")


def test_barres_are_numbered_as_players_number_them() -> None:
    # Common practice: Roman numerals. The values are those of any table of Roman numerals (from memory).
    table = {1: "I", 2: "II", 3: "III", 4: "IV", 5: "V", 7: "VII", 9: "IX", 10: "X", 12: "XII", 14: "XIV", 19: "XIX", 24: "XXIV"}
    assert {number: roman(number) for number in table} == table


def test_a_barre_keeps_its_whole_number_however_short_it_is() -> None:
    lines = tab(bar("s 1:18 ba18<", "s 1:20 ba18>", "e 1:18 ba7", "h. r"))
    assert lines[0] == "   BXVIII|  BVII"
    carried = tab(bar("w 1:8 ba8<"), bar("q 1:8 ba8>", "h. r", new_line=True))
    assert [line for line in carried if line.startswith((" ", "-")) and "|" in line] == ["---|"]


def test_every_dynamic_and_sign_is_explained() -> None:
    assert [sign for _, sign, _ in DYNAMICS_MEAN] == list(DYNAMICS)
    assert {name for name, _, _ in WAY_MEANS} == {"rehearsal", *(f"sign {sign}" for sign in SIGNS)}
    events = [event(f"w 1:1 d:{dynamic}") for dynamic in DYNAMICS]
    bars = [bar(each, signs=(sign,)) for each, sign in zip(events, [*SIGNS, *SIGNS], strict=False)]
    text = write(score(section("", *bars)), WriteOptions())[0].decode()
    legend = [line.split("  ")[0] for line in text[text.index("Legend") :].split("\n")]
    assert {*DYNAMICS, *list(SIGNS.values())[2:], "(segno)", "(coda)"} <= set(legend)


def test_a_partial_capo_is_told_and_taken_off() -> None:
    one = section("One", *phrase("w 1:1"), partial_capo=(2, (5, 4, 3)))
    study = score(one, section("Two", *phrase("w 1:1"), partial_capo=(2, (5, 4, 3))), section("Three", *phrase("w 1:1")))
    text = write(study, WriteOptions())[0]
    capos = [line for line in text.decode().split("\n") if "apo" in line]
    assert capos == ["Partial capo: fret 2, on strings 5 4 3 alone", "Partial capo: none"]
