"""list, explain, schema, reference: everything that has a name can be listed, and everything listed can be explained."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import jsonschema
import pytest
from typer.testing import Result

from tabforge.cli.exits import MEANINGS, Exits, worst
from tabforge.cli.topics import TOPICS, pages, topic
from tabforge.diagnostics.catalogue import CODES

Run = Callable[..., Result]
ROOT = Path(__file__).parents[2]


def test_list_without_a_topic_names_the_topics(tabforge: Run) -> None:
    shown = tabforge("list").stdout
    assert [line.split()[0] for line in shown.splitlines()] == list(TOPICS)


@pytest.mark.parametrize("name", TOPICS)
def test_everything_listed_is_explained_and_by_its_own_topic(tabforge: Run, name: str) -> None:
    entries = topic(name).entries()
    assert entries
    assert tabforge("list", name).stdout.count("\n") == len(entries)
    for entry in entries:
        page = topic(name).explain(entry.name)
        assert page, entry.name
        assert page in "\n\n".join(pages(entry.name))
        assert not page.endswith("\n")


@pytest.mark.parametrize(
    ("words", "notes"),
    # Spelling of scales: any handbook of theory; the key signatures are those of the circle of fifths.
    [
        ("Bb lydian", "Bb C D E F G A"),
        ("F# major", "F# G# A# B C# D# E#"),
        ("A harmonic minor", "A B C D E F G#"),
        ("G# lydian", "G# A# B# C## D# E# F##"),
        ("D steps W H W W W H W", "D E F G A B C"),
        ("E degrees 1 b2 3 4 5 b6 b7", "E F G# A B C D"),
        ("G semitones 0 2 4 7 9", "G A B D E"),
        ("Bb2 LYDIAN mode", "Bb C D E F G A"),
        ("dorian", "C D Eb F G A Bb"),
    ],
)
def test_a_scale_is_spelled_on_its_root(tabforge: Run, words: str, notes: str) -> None:
    result = tabforge("explain", *words.split())
    assert result.exit_code == 0
    assert f"  Notes          {notes}\n" in result.stdout


def test_a_clumsy_root_names_the_plainer_one(tabforge: Run) -> None:
    assert "Ab lydian sounds the same" in tabforge("explain", "G#", "lydian").stdout
    assert "sounds the same" not in tabforge("explain", "Ab", "lydian").stdout


def test_a_word_with_several_meanings_has_all_its_pages(tabforge: Run) -> None:
    shown = tabforge("explain", "rhythm").stdout
    assert "(a line of a run)" in shown
    assert "(a row of a riff or a chord block)" in shown


def test_the_first_word_of_layouts_names_them_all(tabforge: Run) -> None:
    shown = tabforge("explain", "shape").stdout
    assert shown.startswith("shape  (a layout of a run)\n")
    assert all(f"\n  shape {root} " in shown for root in "CAGED")  # the five open chords whose shapes move: common practice
    assert "per string" not in shown


def test_a_layout_and_the_template_of_its_name_are_both_shown(tabforge: Run) -> None:
    shown = tabforge("explain", "fragment").stdout
    assert shown.startswith("fragment  (a layout of a run)\n")
    assert "\nfragment  (a template for tabforge new)\n" in shown


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ("q.", "Quarter notes it lasts: 3/2."),  # a dot adds half: common practice
        ("drop D", "guitar  D2 A2 D3 G3 B3 E4"),
        ("ukulele low g", "ukulele  G3 C4 E4 A4"),
        ("b1/2", "bend (a mark)"),
        ("palm mute", "pm  palm mute (a mark)"),
        ("a501", "A501"),
        ("5 per string from string 7", "per string"),
        ("shape G", "an open G chord, on strings 6, 3 and 1"),
        ("diagonal from string 5", "an octave to every two strings"),
        ("fragment 2 per string from string 6", "repeated through the octaves"),
        ("MUSICXML", "Its files end in .musicxml"),
    ],
)
def test_words_are_found_as_they_are_written(tabforge: Run, words: str, part: str) -> None:
    assert part in tabforge("explain", *words.split()).stdout


@pytest.mark.parametrize(
    ("arguments", "hint"),
    [
        (("explain", "lydain"), "Did you mean lydian?"),
        (("explain", "qqqqqqq"), "tabforge list"),
        (("list", "scale"), "Did you mean scales?"),
        (("list", "xyzzy"), "There are: scales, "),
        (("schema", "studdy"), "There are: "),
        (("reference", "../README"), "There are: book, ci, language, techniques."),
        (("bild",), "Did you mean 'build'?"),
        (("build", "--too", "x"), "--to"),
        (("check", "--report", "xml", "x"), "sarif"),
        (("build",), "PATHS"),
    ],
)
def test_what_is_not_there_is_a_mistake_of_the_command_line(tabforge: Run, arguments: tuple[str, ...], hint: str) -> None:
    result = tabforge(*arguments)
    assert result.exit_code == Exits.USAGE
    assert result.stdout == ""
    assert hint in result.stderr


def test_every_code_has_a_page_with_its_mend(tabforge: Run) -> None:
    for code in CODES.values():
        shown = tabforge("explain", code.id).stdout
        assert code.title in shown
        assert ("  Mended:\n" in shown) is bool(code.right)


def test_schemas_are_printed_as_they_stand(tabforge: Run) -> None:
    for path in (ROOT / "schemas").glob("*.schema.json"):
        shown = tabforge("schema", path.name.removesuffix(".schema.json")).stdout
        assert shown == path.read_text(encoding="utf-8")
        jsonschema.Draft202012Validator.check_schema(json.loads(shown))
    assert tabforge("schema").stdout == tabforge("schema", "study").stdout


def test_the_reference_is_the_handbook_s(tabforge: Run) -> None:
    for path in (ROOT / "tabforge" / "handbook").glob("*.md"):
        assert tabforge("reference", path.stem).stdout == path.read_text(encoding="utf-8")
    assert tabforge("reference").stdout == tabforge("reference", "language").stdout


def test_the_help_tells_every_exit_code(tabforge: Run) -> None:
    for arguments in (("--help",), ("build", "--help"), ("explain", "--help")):
        shown = tabforge(*arguments).stdout
        for code, meaning in MEANINGS.items():
            assert f"{int(code):>3}  {meaning}" in shown
    assert set(MEANINGS) == set(Exits)


def test_the_worst_of_several_things_is_told() -> None:
    assert worst() == Exits.FINE
    assert worst(Exits.DIFFERS, Exits.FINE) == Exits.DIFFERS
    assert worst(Exits.DIFFERS, Exits.ERRORS) == Exits.ERRORS
    assert worst(Exits.FILES, Exits.ERRORS, Exits.DIFFERS) == Exits.FILES


def test_without_arguments_the_help_is_shown(tabforge: Run) -> None:
    assert "Commands:" in tabforge().output
