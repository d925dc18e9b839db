"""The canonical layout."""

from __future__ import annotations

from tabforge.syntax.printer import print_study
from tests.syntax.reading import document


def formatted(text: str) -> str:
    once = print_study(document(text))  # type: ignore[arg-type]  # a study is a document
    assert print_study(document(once)) == once  # type: ignore[arg-type]
    assert document(once) == document(text)
    return once


def test_the_header_in_order_and_in_one_column() -> None:
    text = 'keys F   A\ntempo  "Slow"  q=60.50\nscale Bb2   "Kiln"  steps W W H\ntitle Bay\nswing e 3:2\ntuning E2  A2 D3\nsubtitle Two\n'
    assert formatted(text) == (
        "title     Bay\nsubtitle  Two\ntuning    E2 A2 D3\n"
        'scale     Bb2 "Kiln" steps W W H\ntempo     "Slow" q=60.5\nswing     e 3:2\nkeys      F A\n'
    )


def test_a_run() -> None:
    text = 'run "Climb"\n path up down\n octaves 2\n layout 3 per string from string 6 fret 5 to string 2\n'
    text += " rhythm 3( e e e )\n order 1   3\n"
    assert formatted(text) == (
        'run "Climb"\n  layout   3 per string from string 6 to string 2 fret 5\n  path     up, down\n  order    1 3\n'
        "  octaves  2\n  rhythm   3(e e e)\n"
    )


def test_rows_stand_in_order_with_columns_and_bar_lines_under_one_another() -> None:
    text = (
        'riff "A"\n marks pm - . | h .  | st ||\n degrees 10 1+3+5 = |: 4 5 | r ||\n rhythm 3(e e e) h. | h. q | w\n'
        ' words lan- "by the" bay\n chords Bbmaj7 | C/E\n'
    )
    assert formatted(text) == (
        'riff "A"\n'
        "  chords   Bbmaj7                 |  C/E\n"
        "  rhythm   3(e    e        e)  h. |: h.  q | w  ||\n"
        "  degrees  10     1+3+5    =      |: 4   5 | r  ||\n"
        "  marks    pm     -        .      |: h   . | st ||\n"
        '  words    lan-   "by the" bay\n'
    )


def test_a_repeated_cell_or_group_takes_as_many_columns_as_it_has_notes() -> None:
    text = 'riff "A"\n rhythm q*2 e e e*4\n degrees (1 3)*2 5 6 _7 8\n marks pm -*3 . h st+ac .\n'
    assert formatted(text) == (
        'riff "A"\n'
        "  rhythm   q*2 e e e*4\n"  # columns 0 and 1, 2, 3, 4 to 7
        "  degrees  (1 3)*2 5 6 _7    8\n"  # columns 0 to 3, 4, 5, 6, 7
        "  marks    pm -*3  . h st+ac .\n"  # columns 0, 1 to 3, 4, 5, 6, 7
    )


def test_special_bar_lines_stand_in_every_row_that_goes_to_the_end() -> None:
    text = 'riff "A"\n rhythm q\n degrees |: 1 |[1 2 :|*3 3 ||\n marks h | st | v\n picks | | d\n'
    assert formatted(text) == (
        'riff "A"\n'
        "  rhythm   |  q\n"
        "  degrees  |: 1 |[1 2  :|*3 3 ||\n"
        "  marks    |: h |[1 st :|*3 v ||\n"
        "  picks    |    |   d\n"
    )


def test_texts_that_would_open_a_block_are_indented() -> None:
    assert formatted('  text "A"\n  text\n text b\n') == '  text     "A"\n  text\ntext     b\n'


def test_systems_and_voices() -> None:
    text = 'riff\n degrees 8 | 9 10\n voice 2\n degrees 1 | 5\n degrees 1\n\n\n degrees 2\n'
    assert formatted(text) == (
        "riff\n  degrees  8 | 9 10\n  voice 2\n  degrees  1 | 5\n\n  degrees  1\n\n  degrees  2\n"
    )


def test_a_row_of_one_meter_keeps_its_bar_line() -> None:
    assert formatted("riff\n meter 3/4 |\n degrees 1\n") == "riff\n  meter    3/4 |\n  degrees  1\n"
