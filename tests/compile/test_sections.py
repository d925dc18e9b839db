"""Bars, bar lines, pickups, endings, keys."""

from __future__ import annotations

from tabforge.model.score import PLAIN_LINE
from tests.compile.plain import bars_of, codes, pitches_of, riff, score_of, study


def lines_of(document: dict) -> list[tuple]:
    (section,) = score_of(document).sections
    return [(bar.left.repeat, bar.left.endings, bar.right.repeat, bar.right.endings, bar.right.style) for bar in section.bars]


def test_repeat_with_two_endings() -> None:
    rows = {"rhythm": ["w"], "degrees": ["1", "2", "3", "4"], "barlines": {"0": "|:", "2": "|[1", "3": ":|[2"}}
    assert lines_of(study(blocks=[riff(rows)])) == [
        ("forward", (), None, (), "regular"),
        (None, (), None, (), "regular"),
        (None, (1,), "backward", (1,), "regular"),
        (None, (2,), None, (2,), "final"),
    ]


def test_a_repeat_played_three_times() -> None:
    rows = {"rhythm": ["w"], "degrees": ["1", "2"], "barlines": {"0": "|:", "2": ":|*3"}}
    (section,) = score_of(study(blocks=[riff(rows)])).sections
    assert section.bars[1].right.times == 3


def test_endings_out_of_order_are_reported() -> None:
    rows = {"rhythm": ["w"], "degrees": ["1", "2", "3"], "barlines": {"0": "|:", "1": "|[2", "2": ":|[3"}}
    assert codes(study(blocks=[riff(rows)])) == ["M336"]


def test_a_pickup_and_the_short_last_bar() -> None:
    rows = {"rhythm": ["e", "q*4", "h q e"], "degrees": ["5", "1 2 3 4", "1 2 3"]}
    document = study(blocks=[riff(rows, pickup="e")])
    (section,) = score_of(document).sections
    assert [(bar.ticks, bar.partial) for bar in section.bars] == [(240, True), (1920, False), (1680, True)]
    assert section.bars[0].voices[0][0].onset == 0
    assert codes(study(blocks=[riff(rows)])) == ["M302", "M302"]


def test_a_bar_that_a_repeat_cuts_in_two() -> None:
    rows = {"rhythm": ["h.", "q", "w"], "degrees": ["1", "2", "3"], "barlines": {"1": ":|"}}
    assert bars_of(study(blocks=[riff(rows)])) == ["h.", "q", "w"]


def test_no_bar_of_nothing_but_grace_notes_is_a_part_of_the_next() -> None:
    rows = {"rhythm": ["g", "w"], "degrees": ["1", "2"], "barlines": {"1": ":|"}}
    assert codes(study(blocks=[riff(rows)])) == ["M302"]


def test_meters_change_and_stay() -> None:
    rows = {"meter": ["3/4", ".", "2/4"], "rhythm": ["h.", "h.", "h"], "degrees": ["1", "2", "3"]}
    (section,) = score_of(study(blocks=[riff(rows)])).sections
    assert [str(bar.meter) for bar in section.bars] == ["3/4", "3/4", "2/4"]


def test_keys_move_degrees_notes_frets_and_chords() -> None:
    systems = [
        {"rhythm": ["w"], "degrees": ["3"]},
        {"rhythm": ["w"], "notes": ["E3"]},
        {"rhythm": ["w"], "frets": ["5:7"]},
        {"chords": ["C/E"], "rhythm": ["w"], "degrees": ["1"]},
    ]
    document = study(keys=["Eb", "A2"], blocks=[riff(*systems)])
    assert pitches_of(document) == ["E3", "E3", "E3", "C3", "G3", "G3", "G3", "Eb3", "C#3", "C#3", "C#3", "A2"]
    sections = score_of(document).sections
    assert [section.title for section in sections] == ["Sample in C major", "Sample in Eb major", "Sample in A major"]
    chords = [section.bars[3].voices[0][0].attached.chord for section in sections]
    assert [chord.text for chord in chords if chord] == ["C/E", "Eb/G", "A/C#"]


def test_all_twelve_keys_by_fourths() -> None:
    # The circle of fourths: any theory handbook.
    document = study(keys="fourths", blocks=[riff({"rhythm": ["w"], "degrees": ["1"]})])
    roots = [section.scale.root.pitch_class for section in score_of(document).sections if section.scale]
    assert " ".join(str(root) for root in roots) == "C F Bb Eb Ab Db Gb B E A D G"


def test_a_root_that_does_not_fit_the_neck_is_tried_an_octave_away() -> None:
    document = study(scale={"root": "E2", "name": "major"}, keys=["Eb"], blocks=[riff({"rhythm": ["w"], "degrees": ["1"]})])
    assert pitches_of(document) == ["E2", "Eb3"]


def test_a_key_that_cannot_be_had_says_so() -> None:
    document = study(keys=["C1"], blocks=[riff({"rhythm": ["w"], "degrees": ["1"]})])
    assert "M334" in codes(document)


def test_a_run_is_walked_in_sequence_and_mirrored() -> None:
    block = {"kind": "run", "name": "Sample", "layout": {"kind": "free"}, "path": ["up", "down"], "order": [1, 3], "rhythm": "q"}
    expected = "C3 E3 D3 F3 E3 G3 F3 A3 G3 B3 A3 C4 C4 A3 B3 G3 A3 F3 G3 E3 F3 D3 E3 C3"
    assert " ".join(pitches_of(study(blocks=[block]))) == expected


def test_the_last_note_of_a_run_fills_its_bar() -> None:
    block = {"kind": "run", "name": "Sample", "layout": {"kind": "free"}, "path": ["up"], "to": "5", "rhythm": "q"}
    assert bars_of(study(blocks=[block])) == ["q q q q", "w"]
    assert bars_of(study(blocks=[{**block, "finish": "rest"}])) == ["q q q q", "q (q) (h)"]


def test_a_run_crosses_bar_lines_with_ties() -> None:
    block = {"kind": "run", "name": "Sample", "layout": {"kind": "free"}, "path": ["up"], "to": "4", "rhythm": "q."}
    assert bars_of(study(blocks=[block])) == ["q. e~ ~q q~", "~e q.~ ~h"]


def test_a_tempo_is_said_where_it_changes_and_not_again() -> None:
    rows = {"rhythm": ["w"], "degrees": ["1", "2"]}
    changing = {**rows, "tempo": [".", "120"]}
    blocks = [riff(rows), riff(rows), riff(changing), riff(rows)]
    sections = score_of(study(tempo={"bpm": 96}, blocks=blocks)).sections
    assert [[bar.tempo and bar.tempo.bpm for bar in section.bars] for section in sections] == [
        [96, None], [None, None], [None, 120], [96, None],
    ]  # fmt: skip


def test_after_a_change_of_tempo_the_next_section_says_its_own_again() -> None:
    rows = {"rhythm": ["w"], "degrees": ["1", "2"]}
    slower = {**rows, "tempo": [".", "rit"]}
    back = {**rows, "tempo": ["rit", "atempo"]}
    blocks = [riff(rows), riff(slower), riff(rows), riff(back), riff(rows)]
    sections = score_of(study(tempo={"bpm": 96}, blocks=blocks)).sections
    assert [section.bars[0].tempo is not None for section in sections] == [True, False, True, False, False]


def test_an_ordinary_bar_line_is_the_plain_one() -> None:
    """Writers put bars of rest between plain lines together."""
    rows = {"rhythm": ["w"], "degrees": ["1", "r", "r", "1"], "barlines": {"3": "||"}}
    (section,) = score_of(study(blocks=[riff(rows)])).sections
    assert [bar.right == PLAIN_LINE for bar in section.bars] == [True, True, False, False]


def test_a_passage_that_is_over_begins_its_endings_anew() -> None:
    signs = {"1": "|[1", "2": ":|[2", "3": ":|", "4": "|[1", "5": ":|[2"}
    rows = {"rhythm": ["w"], "degrees": ["1", "2", "3", "4", "5", "6"], "barlines": signs}
    assert [line[1] for line in lines_of(study(blocks=[riff(rows)]))] == [(), (1,), (2,), (), (1,), (2,)]


def test_a_repeat_goes_back_to_the_beginning_of_its_own_block() -> None:
    plain = riff({"rhythm": ["w"], "degrees": ["1", "2"]})
    closed = riff({"rhythm": ["w"], "degrees": ["1", "2"], "barlines": {"2": ":|"}})
    opened = riff({"rhythm": ["w"], "degrees": ["1", "2"], "barlines": {"1": "|:", "2": ":|"}})
    sections = score_of(study(blocks=[closed, plain, closed, opened])).sections
    assert [[bar.left.repeat for bar in section.bars] for section in sections] == [
        [None, None],  # readers go back to the beginning of the piece by themselves
        [None, None],
        ["forward", None],
        [None, "forward"],
    ]
