"""The document as a whole: options, text of the user's, order, numbered lines, the compressed form, the same bytes.

Sources: W3C MusicXML 4.0 (compressed files, ``number-level``); the XML 1.0 recommendation for characters; the ZIP format as Python's
zipfile reads it.
"""

from __future__ import annotations

import io
import subprocess
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lxml import etree

from tabforge.model.events import Attached, Word
from tabforge.model.harmony import ChordSymbol
from tabforge.model.meter import Tempo
from tabforge.model.pitch import PitchClass
from tabforge.model.score import Score
from tabforge.model.values import BY_LETTER
from tabforge.writers import WRITERS
from tabforge.writers.musicxml import mxl, write
from tabforge.writers.options import DEFAULTS, STAVES, Staves, WriteOptions
from tests.proof.readback import compare
from tests.proof.scores import BB_LYDIAN, bar, note, one_bar, rest, score, section, tuplet, voice
from tests.proof.strategies import scores
from tests.proof.xsd import problems
from tests.writers.musicxml.xml import lines, notes, tree, words

RICH = score(
    section(
        bar(
            voice(
                note("e", "6:1", marks="pm:start"), note("e", "6:1", marks="pm:stop"), note("e", "5:3", marks="h:start"),
                note("e", "5:5", marks="h:stop"), tuplet("3:2", "e", note("e", "4:3"), note("e", "4:4"), note("e", "4:5")),
                note("q", "1:0 2:1 3:0", tie="out"),
            ),
        ),
        bar(voice(note("h", "1:0 2:1 3:0", tie="in"), rest("q"), note("q", "1:3", marks="ac"))),
        title="Climb",
        scale=BB_LYDIAN,
    )
)  # fmt: skip


def test_each_layout_of_staves_has_its_parts_staves_and_clefs() -> None:
    def layout(staves: Staves) -> list[tuple[int, list[str]]]:
        document = tree(RICH, staves)
        return [(len(part.findall("measure")), [clef.findtext("sign") for clef in part.iter("clef")]) for part in document.iter("part")]

    assert layout("both") == [(2, ["G", "TAB"])]
    assert layout("parts") == [(2, ["G"]), (2, ["TAB"])]
    assert layout("tab") == [(2, ["TAB"])]
    assert layout("notation") == [(2, ["G"])]


def test_tab_alone_plays_and_has_beams_and_shown_tuplets() -> None:
    document = tree(RICH, "tab")
    found = notes(document, None)
    assert not [each for each in found if each.get("dynamics")]
    assert list(document.iter("beam"))
    assert [each.get("show-number") for each in document.iter("tuplet") if each.get("type") == "start"] == ["actual"]
    assert len(list(document.iter("accent"))) == 1
    assert document.find(".//staff-type") is None


def test_of_two_parts_the_first_alone_has_titles_and_the_second_is_silent() -> None:
    document = tree(RICH, "parts")
    first, second = document.iter("part")
    assert (len(list(first.iter("rehearsal"))), len(list(second.iter("rehearsal")))) == (1, 0)
    assert {each.get("dynamics") for each in second.iter("note") if each.find("rest") is None} == {"0"}
    assert [each.text for each in document.iter("part-name")] == ["Guitar", "Guitar (TAB)"]


def test_a_section_above_the_bars_is_said_in_every_layout() -> None:
    for staves in STAVES:
        assert [each.text for each in tree(RICH, staves).iter("rehearsal")] == ["Climb"]


NASTY = 'a & b < c > "d" \x00\x07\x1b \ud800 é 𝄞 ]]>'
HELD = 'a & b < c > "d" \ufffd\ufffd\ufffd \ufffd é 𝄞 ]]>'


@pytest.mark.parametrize(
    ("made", "found"),
    [
        (lambda text: score(section(bar(voice(note("w", "3:5")))), title=text), lambda tree: tree.findtext(".//work-title")),
        (lambda text: score(section(bar(voice(note("w", "3:5")))), subtitle=text), lambda tree: tree.findtext(".//movement-title")),
        (lambda text: score(section(bar(voice(note("w", "3:5")))), author=text), lambda tree: tree.findtext(".//creator")),
        (lambda text: score(section(bar(voice(note("w", "3:5"))), title=text)), lambda tree: tree.findtext(".//rehearsal")),
        (lambda text: score(section(bar(voice(note("w", "3:5"))), text=(text,))), lambda tree: tree.findtext(".//miscellaneous-field")),
        (lambda text: one_bar(note("w", "3:5", attached=Attached(word=Word(text=text)))), lambda tree: tree.findtext(".//lyric/text")),
        (
            lambda text: one_bar(
                note("w", "3:5", attached=Attached(chord=ChordSymbol(text=text, root=PitchClass("C"), kind="major", suffix=text)))
            ),
            lambda tree: tree.find(".//kind").get("text"),
        ),
        (
            lambda text: score(section(bar(voice(note("w", "3:5")), tempo=Tempo(bpm=60.0, beat=BY_LETTER["q"], words=text)))),
            lambda tree: words(tree)[0],
        ),
    ],
)
def test_text_of_the_user_comes_through_whole(made: Callable[[str], Score], found: Callable[[Any], str]) -> None:
    given = made(NASTY)
    assert problems(write(given)[0]) == []
    assert found(tree(given)) == HELD


@given(scores(), st.sampled_from(STAVES))
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
def test_numbered_lines_begin_before_they_end_and_never_share_a_number(given: Score, staves: Staves) -> None:
    begun: set[tuple[str, str]] = set()
    for element, kind, number in lines(tree(given, staves)):
        key = (element, number)
        if kind == "start":
            assert key not in begun
            begun.add(key)
        elif kind == "stop":
            assert key in begun
            begun.remove(key)
    assert not begun


@given(scores())
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
def test_every_voice_fills_its_bar(given: Score) -> None:
    bars = [each.ticks for part in given.sections for each in part.bars]
    for measure, ticks in zip(tree(given).iter("measure"), bars, strict=True):
        at = 0
        for each in measure:
            if each.tag == "backup":
                assert at == ticks
                at -= int(each.findtext("duration"))
            elif each.tag == "note" and each.find("chord") is None:
                at += int(each.findtext("duration") or 0)
        assert at == ticks


def test_the_same_score_gives_the_same_bytes_in_another_process() -> None:
    program = (
        "import sys; from tests.writers.musicxml.test_musicxml_document import RICH; from tabforge.writers import DEFAULTS, WRITERS; "
        "sys.stdout.buffer.write(WRITERS[sys.argv[1]].write(RICH, DEFAULTS)[0])"
    )
    root = Path(__file__).resolve().parents[3]
    for name in ("musicxml", "mxl"):
        here = WRITERS[name].write(RICH, DEFAULTS)[0]
        for seed in ("1", "2"):
            run = subprocess.run(
                [sys.executable, "-c", program, name], capture_output=True, check=True, cwd=root, env={"PYTHONHASHSEED": seed}
            )
            assert run.stdout == here


def test_the_compressed_form_is_what_the_standard_says() -> None:
    packed, losses = WRITERS["mxl"].write(RICH, DEFAULTS)
    plain, plain_losses = WRITERS["musicxml"].write(RICH, DEFAULTS)
    assert losses == plain_losses
    with zipfile.ZipFile(io.BytesIO(packed)) as archive:
        assert archive.testzip() is None
        first, container, root = archive.infolist()
        assert (first.filename, first.compress_type) == ("mimetype", zipfile.ZIP_STORED)
        assert archive.read(first) == b"application/vnd.recordare.musicxml"
        # The type is to be found at a fixed place, without reading the archive's directory: byte 38 of the file.
        assert packed[30:72] == b"mimetypeapplication/vnd.recordare.musicxml"
        assert container.filename == "META-INF/container.xml"
        rootfile = etree.fromstring(archive.read(container)).find("rootfiles/rootfile")
        assert rootfile.get("full-path") == root.filename == mxl.ROOT
        assert rootfile.get("media-type") == "application/vnd.recordare.musicxml+xml"
        assert archive.read(root) == plain
        assert {each.date_time for each in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_an_independent_reader_opens_the_compressed_form(tmp_path: Path) -> None:
    from music21 import converter

    path = tmp_path / "study.mxl"
    path.write_bytes(WRITERS["mxl"].write(RICH, DEFAULTS)[0])
    assert len(converter.parse(path, forceSource=True).parts[0].flatten().notes) == 10


def test_the_table_of_writers() -> None:
    suffixes = {"musicxml": ".musicxml", "mxl": ".mxl", "tab": ".tab.txt", "midi": ".mid"}
    assert {name: each.suffix for name, each in WRITERS.items()} == suffixes
    for each in WRITERS.values():
        assert each.name in WRITERS
        assert each.summary
        first = each.write(RICH, DEFAULTS)
        assert first == each.write(RICH, DEFAULTS)
        assert isinstance(first[0], bytes)


def test_every_option_has_an_effect() -> None:
    def all_of(options: WriteOptions) -> list[bytes]:
        return [each.write(RICH, options)[0] for each in WRITERS.values()]

    plain = all_of(DEFAULTS)
    for staves in STAVES[1:]:
        assert all_of(WriteOptions(staves=staves)) != plain
    assert all_of(WriteOptions(exact_mode=True)) != plain


def test_a_score_without_a_bar_is_still_a_document() -> None:
    for staves in STAVES:
        document, losses = write(score(section(title="A word", text=("Rest.",))), WriteOptions(staves=staves))
        assert problems(document) == []
        assert [loss.what for loss in losses] == ["a study without music"]
        assert b"Rest." in document


def test_the_comparison_itself_sees_a_wrong_note() -> None:
    document = write(RICH)[0]
    assert compare(RICH, document) == []
    for old, new in (
        (b"<fret>5</fret>", b"<fret>6</fret>"),
        (b"<step>D</step>", b"<step>E</step>"),
        (b'<tie type="start"/>', b""),
        (b"<string>6</string>", b"<string>5</string>"),
        (b"<duration>15120</duration>", b"<duration>7560</duration>"),
    ):
        assert document.count(old) > 0
        assert compare(RICH, document.replace(old, new, 1)) != [], old


def test_the_validation_itself_sees_a_misplaced_element() -> None:
    document = write(RICH)[0]
    assert problems(document.replace(b"<staff>1</staff>", b"<staff>one</staff>", 1))
    assert problems(document.replace(b"</measure>", b"", 1))
    assert problems(document.replace(b'<step>D</step>', b"<step>H</step>", 1))
