"""Rows of a riff: repeats, rhythms begun again, voices, pins, marks."""

from __future__ import annotations

from tests.compile.plain import bars_of, codes, hung_on, marks_of, pitches_of, riff, score_of, study


def test_repeat_counts_groups_and_bars_again() -> None:
    rows = {"rhythm": ["e*8"], "degrees": ["(1 3 5)*2 8*2", "%"]}
    assert pitches_of(study(blocks=[riff(rows)])) == ["C3", "E3", "G3", "C3", "E3", "G3", "C4", "C4"] * 2


def test_a_bar_again_takes_its_marks_along_unless_others_are_written() -> None:
    rows = {"rhythm": ["h h"], "degrees": ["1 2", "%", "%"], "marks": ["pm .", "", ". v"]}
    assert marks_of(study(blocks=[riff(rows)])) == ["pm.single", "", "pm.single", "", "", "v.single"]


def test_a_bar_of_frets_again_begins_on_the_string_it_began_on() -> None:
    rows = {"rhythm": ["h h"], "frets": ["5:3 4:2", "0 3:0", "%"]}
    assert pitches_of(study(blocks=[riff(rows)])) == ["C3", "E3", "D3", "G3", "D3", "G3"]


def test_a_rhythm_is_begun_again_and_taken_over_by_the_next_system() -> None:
    rows = {"rhythm": ["h h", "w"], "degrees": ["1 2", "3", "4 5"]}
    assert bars_of(study(blocks=[riff(rows, {"degrees": ["1 2", "1"]})])) == ["h h", "w", "h h", "h h", "w"]


def test_degrees_have_the_flavour_of_their_scale() -> None:
    # The raised fourth of Lydian and the minor third of the minor pentatonic: any theory handbook.
    rows = {"rhythm": ["q q q q"], "degrees": ["3 4 n4 b3"]}
    assert pitches_of(study(scale={"root": "Bb2", "name": "lydian"}, blocks=[riff(rows)])) == ["D3", "E3", "Eb3", "Db3"]
    rows = {"rhythm": ["q q q q"], "degrees": ["1 3 8 10"]}
    assert pitches_of(study(scale={"root": "A2", "name": "minor pentatonic"}, blocks=[riff(rows)])) == ["A2", "C3", "A3", "C4"]


def test_chords_are_ordered_from_string_one_and_keep_their_fingers() -> None:
    rows = {"rhythm": ["w"], "frets": ["6:3+5:2+4:0+3:0+2:0+1:3"], "fingers": ["2+1+0+0+0+3"]}
    (section,) = score_of(study(blocks=[riff(rows)])).sections
    notes = section.bars[0].voices[0][0].notes
    assert [note.string for note in notes] == [1, 2, 3, 4, 5, 6]
    assert [note.finger for note in notes] == ["3", None, None, None, "1", "2"]
    # The open G major chord: G2 B2 D3 G3 B3 G4 (any chord book).
    assert [str(note.pitch) for note in reversed(notes)] == ["G2", "B2", "D3", "G3", "B3", "G4"]


def test_two_voices_never_share_a_string_at_once() -> None:
    rows = {
        "rhythm": ["q q q q"],
        "degrees": ["8 9 10 9"],
        "voice2": {"rhythm": ["w"], "degrees": ["5"]},
    }
    (section,) = score_of(study(blocks=[riff(rows)])).sections
    upper, lower = section.bars[0].voices
    assert lower[0].notes[0].string not in {event.notes[0].string for event in upper}


def test_marks_extend_lead_and_join() -> None:
    rows = {"rhythm": ["q q q q"], "frets": ["6:0 6:3 6:5 6:3"], "marks": ["pm -+h -+ac ."]}
    assert marks_of(study(blocks=[riff(rows)])) == ["pm.start", "h.start pm.inside", "h.stop ac.single pm.stop", ""]


def test_a_palm_mute_on_every_note_is_one_extent() -> None:
    rows = {"rhythm": ["q q q q"], "frets": ["6:0 0 0 0"], "marks": ["pm*4"]}
    assert marks_of(study(blocks=[riff(rows)])) == ["pm.start", "pm.inside", "pm.inside", "pm.stop"]


def test_a_slide_from_a_held_note_leaves_its_last_piece() -> None:
    rows = {"rhythm": ["h h", "h h"], "frets": ["6:3 5", "= 7"], "marks": [". sl", ". ."]}
    assert marks_of(study(blocks=[riff(rows)])) == ["", "", "sl.start", "sl.stop"]


def test_a_hammer_on_keeps_both_notes_on_one_string() -> None:
    rows = {"rhythm": ["e*8"], "degrees": ["1 2 3 4 5 6 7 8"], "marks": ["h . h . h . h ."]}
    (section,) = score_of(study(blocks=[riff(rows)])).sections
    strings = [event.notes[0].string for event in section.bars[0].voices[0]]
    assert strings[0::2] == strings[1::2]


def test_natural_harmonics_sound_their_partial() -> None:
    # Partials of the low E string: octave, twelfth, double octave (harmonic series).
    rows = {"rhythm": ["q q h"], "frets": ["6:12 7 5"], "marks": ["nh nh nh"]}
    assert pitches_of(study(scale={"root": "E2", "name": "major"}, blocks=[riff(rows)])) == ["E3", "B3", "E4"]


def test_what_is_wrong_is_said() -> None:
    assert codes(study(blocks=[riff({"rhythm": ["q*4"], "degrees": ["1 2 3"]})])) == ["M303"]
    assert codes(study(blocks=[riff({"rhythm": ["q*5"], "degrees": ["1 2 3 4 5"]})])) == ["M301"]
    assert codes(study(blocks=[riff({"rhythm": ["q*3"], "degrees": ["1 2 3"]})])) == ["M302"]
    assert codes(study(blocks=[riff({"rhythm": ["w"], "degrees": ["1"], "marks": ["-"]})])) == ["M313"]


def test_limits_stop_a_study_that_explodes() -> None:
    rows = {"rhythm": ["((t*999)*999)*999"], "degrees": ["((1*999)*999)*999"]}
    assert set(codes(study(blocks=[riff(rows)]))) == {"M335"}
    many = [f"{a}:{b}(e*{a})" for a, b in ((7, 4), (11, 8), (13, 8), (17, 16), (19, 16), (23, 16), (29, 16), (31, 16))]
    rows = {"rhythm": many, "degrees": ["1*7"]}
    assert "M335" in codes(study(blocks=[riff(rows)]))


def test_a_barre_at_another_fret_is_another_barre() -> None:
    rows = {"rhythm": ["q q q q"], "frets": ["6:5 5:7 6:3 5:5"], "marks": ["ba5 - ba3 -"]}
    assert marks_of(study(blocks=[riff(rows)])) == ["ba#.start", "ba#.stop", "ba#.start", "ba#.stop"]
    rows["marks"] = ["ba5 ba5 -+ba3+ac -"]
    assert marks_of(study(blocks=[riff(rows)])) == ["ba#.start", "ba#.stop", "ba#.start ac.single", "ba#.stop"]


def test_what_hangs_on_a_rest_of_several_pieces_hangs_on_the_first() -> None:
    rows = {"rhythm": ["q. q. q"], "degrees": ["1 r 2"], "dynamics": [". p ."], "words": [". wait ."], "chords": [". G ."]}
    assert bars_of(study(blocks=[riff(rows)])) == ["q. (e) (q) q"]
    assert hung_on(study(blocks=[riff(rows)])) == ["", "p wait G", "", ""]


def test_a_hairpin_ends_with_the_last_piece_of_its_note() -> None:
    rows = {"rhythm": ["e h q."], "degrees": ["1 2 3"], "dynamics": ["p < ."]}
    assert bars_of(study(blocks=[riff(rows)])) == ["e q.~ ~e q."]
    assert hung_on(study(blocks=[riff(rows)])) == ["p", "c[", "]]", ""]
    rows["dynamics"] = ["< - f"]
    assert hung_on(study(blocks=[riff(rows)])) == ["c[", "", "", "f ]"]


def test_a_fermata_may_stand_on_a_rest() -> None:
    rows = {"rhythm": ["h h"], "degrees": ["1 r"], "marks": [". fm"]}
    assert marks_of(study(blocks=[riff(rows)])) == ["", "fm.single"]
    assert codes(study(blocks=[riff({**rows, "marks": [". fm+st"]})])) == ["M317"]
