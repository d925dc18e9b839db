"""The page of a book as a document: well-formed, whole, labelled, safe, and carrying the very files that were made.

The syntax is judged by html5lib, which follows the WHATWG's HTML standard; ZIP archives are read by the standard library.
"""

from __future__ import annotations

import hashlib
import io
import pickle
import re
import zipfile
from base64 import b64decode, b64encode
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import Any, Final

import html5lib
import pytest
from lxml import etree

from tabforge.book.cautions import cautions_of
from tabforge.book.html import bind
from tabforge.book.html.markup import attributes, element, words
from tabforge.book.html.prose import prose
from tabforge.pages import PageOptions, engrave
from tests.book.web_book import HOSTILE, hostile, trial
from tests.pages.drawn import STUDIES, engraver, study

XHTML: Final = "{http://www.w3.org/1999/xhtml}"
SVG: Final = "{http://www.w3.org/2000/svg}"
WHICH: Final = pytest.mark.parametrize("which", [trial, hostile], ids=["trial", "hostile"])
HEADINGS: Final = {f"{XHTML}h{level}": level for level in range(1, 7)}


def parsed(data: bytes) -> Any:
    """The document; any error of syntax raises."""
    return html5lib.HTMLParser(strict=True, tree=html5lib.getTreeBuilder("lxml")).parse(data.decode("utf-8"))


@cache
def tree(which: Any) -> Any:
    return parsed(bind(*which())[0])


def every(root: Any, name: str, space: str = XHTML) -> list[Any]:
    return list(root.iter(space + name))


def said(node: Any) -> str:
    return " ".join("".join(node.itertext()).split())


def by_id(root: Any, name: str) -> Any:
    (found,) = (each for each in root.iter(etree.Element) if each.get("id") == name)
    return found


@WHICH
def test_the_page_is_html_without_an_error(which: Any) -> None:
    root = tree(which).getroot()
    assert root.get("lang") == "en"
    assert len(every(root, "main")) == len(every(root, "h1")) == len(every(root, "title")) == 1


def test_html5lib_finds_errors() -> None:
    with pytest.raises(html5lib.html5parser.ParseError):
        parsed(bind(*trial())[0].replace(b"</nav>", b"</div>", 1))


@WHICH
def test_ids_are_unique_and_links_and_labels_find_theirs(which: Any) -> None:
    root = tree(which).getroot()
    ids = [each.get("id") for each in root.iter(etree.Element) if each.get("id")]
    assert len(ids) == len(set(ids))
    targets = [each.get("href") for each in [*every(root, "a"), *every(root, "use", SVG)]]
    within = [target[1:] for target in targets if target.startswith("#")]
    assert len(within) > 100
    assert set(within) <= set(ids)
    assert {each.get("aria-labelledby") for each in root.iter(etree.Element)} - {None} <= set(ids)


def test_exercises_of_one_title_are_told_apart() -> None:
    root = tree(trial).getroot()
    contents = [said(each) for each in every(by_id(root, "page_contents"), "li")]
    assert contents[:3] == ["1.1 Lantern Climb: C major", "1.2 Lantern Climb: B♭ major", "1.3 Down again, left-handed"]
    assert [said(each) for each in every(root, "h3") if each.get("id")][:3] == contents[:3]


def test_what_has_a_place_is_linked_from_the_contents() -> None:
    _, exercises, _ = trial()
    root = tree(trial).getroot()
    links = {each.get("href") for each in every(by_id(root, "page_contents"), "a")}
    assert {f"#{each.id}" for each in exercises} | {"#chapter_1", "#chapter_2", "#page_signs", "#page_index", "#page_cautions"} == links


@WHICH
def test_every_picture_has_words_and_hides_its_parts(which: Any) -> None:
    pictures = every(tree(which).getroot(), "svg", SVG)
    assert pictures[0].get("aria-hidden") == "true"  # the signs
    assert len(pictures) > 15
    for picture in pictures[1:]:
        assert picture.get("role") == "img"
        assert picture.get("aria-label")
        assert [each.get("aria-hidden") for each in picture] == ["true"]


@WHICH
def test_headings_go_down_one_level_at_a_time(which: Any) -> None:
    levels = [HEADINGS[each.tag] for each in tree(which).getroot().iter(*HEADINGS)]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels)), levels


def test_landmarks_are_there_once_and_named() -> None:
    body = every(tree(trial).getroot(), "body")[0]
    assert next(iter(body)).tag == f"{XHTML}a"  # the skip link comes first of all
    assert len(every(body, "footer")) == 1
    names = [each.get("aria-label") or each.get("aria-labelledby") for each in every(body, "nav")]
    assert all(names) and len(set(names)) == 2


def policy(root: Any) -> dict[str, list[str]]:
    (meta,) = (each for each in every(root, "meta") if each.get("http-equiv"))
    return {name: rest for name, *rest in (each.split() for each in meta.get("content").split(";"))}


@WHICH
def test_the_policy_lets_in_this_style_and_this_script_alone(which: Any) -> None:
    root = tree(which).getroot()
    rules = policy(root)
    assert rules["default-src"] == ["'none'"]
    assert rules["media-src"] == ["data:"]
    assert set(rules) == {"default-src", "style-src", "script-src", "media-src", "base-uri", "form-action"}
    for tag, rule in (("style", "style-src"), ("script", "script-src")):
        (only,) = every(root, tag)
        digest = b64encode(hashlib.sha256(only.text.encode()).digest()).decode()
        assert rules[rule] == [f"'sha256-{digest}'"]


@WHICH
def test_nothing_is_asked_of_the_network_and_nothing_runs_but_the_script(which: Any) -> None:
    root = tree(which).getroot()
    for each in root.iter(etree.Element):
        assert not [name for name in each.attrib if name.startswith("on") or name in {"style", "srcset", "action", "background", "poster"}]
        source = each.get("src", "data:")
        assert source.startswith("data:")
        target = each.get("href", "#")
        if each.tag == f"{XHTML}a":
            assert target.startswith(("#", "data:", "https://example.org/", "mailto:"))
        else:
            assert target.startswith("#")
    tags = {each.tag.rpartition("}")[2] for each in root.iter(etree.Element)}
    assert not tags & {"link", "iframe", "object", "embed", "base", "image", "b"}
    style = every(root, "style")[0].text
    assert "url(" not in style and "@import" not in style


def test_hostile_words_are_words() -> None:
    book, exercises, _ = hostile()
    root = tree(hostile).getroot()
    plain = " ".join(HOSTILE.split())
    assert said(every(root, "h1")[0]) == plain
    assert said(every(root, "title")[0]) == plain
    assert said(by_id(root, f"{exercises[0].id}_title")) == f"1.1 {plain}"
    assert said(by_id(root, "chapter_1_title")) == f"1 {plain}"
    labels = [each.get("aria-label") for each in every(root, "svg", SVG)]
    assert HOSTILE in labels
    assert plain in said(every(root, "footer")[0])
    assert book.title == HOSTILE


def test_text_and_attributes_leave_out_what_html_forbids() -> None:
    nasty = "a\x00b\x0bc\ud800d\x7fe\ufffff\n"
    assert words(nasty) == "abcdef\n"
    assert attributes(title='"<&>', hidden=True, gone=None, class_="x", aria_label="y") == (
        ' title="&quot;&lt;&amp;&gt;" hidden class="x" aria-label="y"'
    )
    assert element("p", words("<b>")) == "<p>&lt;b&gt;</p>"


def test_introductions_are_markdown_without_raw_html() -> None:
    root = tree(trial).getroot()
    (front,) = (each for each in every(root, "div") if each.get("class") == "prose front")
    assert [said(each) for each in every(front, "h2")] == ["How to use this book"]
    assert [said(each) for each in every(front, "h3")] == ["What is not here"]
    assert '<b onclick="alert(1)">or bold</b> <script>alert(2)</script>' in said(front)
    links = [(each.get("href"), said(each)) for each in every(front, "a")]
    assert links == [("#climb-in-c", "the first"), ("https://example.org/sea?a=1&b=2", "the sea")]
    assert [said(each) for each in every(every(front, "ul")[0], "li")] == [
        "a [bad link](javascript:alert(3)) and [another](data:text/html,x) and nowhere",
        "a picture",
    ]
    assert [said(each) for each in every(front, "th")] == ["Week", "What"]


@pytest.mark.parametrize(
    ("text", "html"),
    [  # the first of each pair and its HTML are examples of the CommonMark specification 0.31.2 (numbers beside them)
        ("*foo bar*", "<p><em>foo bar</em></p>"),  # 350
        ("**foo bar**", "<p><strong>foo bar</strong></p>"),  # 378
        ("`` foo ` bar ``", "<p><code>foo ` bar</code></p>"),  # 329
        ("foo  \nbaz", "<p>foo<br>baz</p>"),  # 633, white space apart
        ("> # Foo\n> bar\n> baz", "<blockquote><h2>Foo</h2><p>bar\nbaz</p></blockquote>"),  # 228, a level lower
        ("3. one", '<ol start="3"><li>one</li></ol>'),
        ("- a\n\n- b", "<ul><li><p>a</p></li><li><p>b</p></li></ul>"),
        ("a ![moon](moon.jpg) b", "<p>a moon b</p>"),
        ("### deep\n\n# up\n\n### deep", "<h2>deep</h2><h2>up</h2><h3>deep</h3>"),
    ],
)
def test_markdown_becomes_html(text: str, html: str) -> None:
    assert prose(text, above=1, places=()) == html


def uris(root: Any) -> Iterator[tuple[str, str, bytes]]:
    """Name to save under, media type and bytes of every file in the page."""
    for each in every(root, "a"):
        if each.get("href", "").startswith("data:"):
            kind, _, coded = each.get("href").removeprefix("data:").partition(";base64,")
            yield each.get("download"), kind, b64decode(coded, validate=True)


def test_files_in_the_page_are_those_that_were_made() -> None:
    _, _, made = trial()
    found = {name: (kind, data) for name, kind, data in uris(tree(trial).getroot())}
    assert len(found) == 3 * len(made)
    for each in made:
        assert found[f"{each.id}.mid"] == ("audio/midi", each.files[".mid"])
        assert found[f"{each.id}.tab.txt"] == ("text/plain;charset=utf-8", each.files[".tab.txt"])
        kind, data = found[f"{each.id}.mxl"]
        assert kind == "application/vnd.recordare.musicxml"
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            assert archive.read("score.musicxml") == each.files[".musicxml"]


def test_tracks_play_where_they_are_asked_for() -> None:
    _, _, made = trial()
    root = tree(trial).getroot()
    tracks = {each.id: each.files[".mp3"] for each in made if ".mp3" in each.files}
    assert len(tracks) == 2
    for name, data in tracks.items():
        (player,) = every(by_id(root, name), "audio")
        assert b64decode(player.get("src").removeprefix("data:audio/mpeg;base64,")) == data
        assert player.get("preload") == "none"
        assert "volume low" in said(player.getparent())
    assert len(every(root, "audio")) == 2


def test_the_text_alternative_is_the_ascii_tab() -> None:
    _, _, made = trial()
    root = tree(trial).getroot()
    for each in made:
        texts = [block.text for block in every(by_id(root, each.id), "pre")]
        assert each.files[".tab.txt"].decode().strip("\n") in texts


def test_the_signs_used_are_explained_once_and_linked() -> None:
    _, _, made = trial()
    root = tree(trial).getroot()
    used = {name for each in made if each.facts for name in each.facts.techniques}
    names = {said(each).partition(" in ASCII tab ")[0].lower() for each in every(by_id(root, "page_signs"), "dt")}
    assert names == used
    (ropes,) = (each for each in made if each.id == "ropes")
    assert ropes.facts is not None
    links = {said(each) for each in every(by_id(root, "ropes"), "a") if each.get("href").startswith("#sign_")}
    assert links == set(ropes.facts.techniques)


def test_the_index_leads_to_every_exercise_by_scale_technique_and_level() -> None:
    _, exercises, made = trial()
    index = by_id(tree(trial).getroot(), "page_index")
    assert [said(each) for each in every(index, "h3")][:3] == ["Scales", "Techniques", "Levels"]
    listed = {said(row[0]): {each.get("href")[1:] for each in every(row, "a")} for row in every(index, "div") if len(row) == 2}
    for exercise, each in zip(exercises, made, strict=True):
        assert each.facts is not None
        for word in (*each.facts.scales, *each.facts.techniques, each.facts.level):
            assert exercise.id in listed[str(word)]


def test_cautions_licence_and_edition_are_told() -> None:
    book, _, _ = trial()
    root = tree(trial).getroot()
    assert [said(each) for each in every(by_id(root, "page_cautions"), "li")] == list(cautions_of(book))
    foot = said(every(root, "footer")[0])
    assert "Licence: CC BY-SA 4.0" in foot and "Trial edition" in foot and "1 November 2026" in foot


def test_a_shape_is_shown_once_in_an_exercise() -> None:
    root = tree(trial).getroot()
    assert len([each for each in every(by_id(root, "climb-in-c"), "svg", SVG) if each.get("class") == "shape"]) == 1


def test_a_failed_exercise_says_so() -> None:
    book, exercises, made = trial()
    failed = replace(made[0], failed=True, facts=None, text=(), parts=(), files={})
    root = parsed(bind(book, exercises, (failed, *made[1:]))[0]).getroot()
    assert "has mistakes in its study" in said(by_id(root, exercises[0].id))


def test_what_the_cover_lacks_is_told() -> None:
    book, exercises, made = trial()
    _, told = bind(replace(book, cover_study="nothing.riff"), exercises, made)
    assert len(told) == 1 and "nothing.riff" in told[0]
    assert bind(book, exercises, made)[1] == ()


def test_the_same_book_gives_the_same_bytes() -> None:
    first = bind(*trial())[0]
    again = bind(*pickle.loads(pickle.dumps(trial())))[0]
    assert first == again
    assert b"page_" in first and first.endswith(b"</html>\n")


def test_every_music_sign_is_there_once() -> None:
    root = tree(trial).getroot()
    (signs,) = (each for each in every(root, "svg", SVG) if each.get("class") == "signs")
    kept = {each.get("id") for each in every(signs, "path", SVG)}
    used = {each.get("href")[1:] for each in every(root, "use", SVG)}
    assert kept == used
    assert len(every(root, "defs", SVG)) == 1


def test_ink_is_what_is_drawn_of_a_systems_width() -> None:
    """Nothing that the picture's numbers draw lies right of what is said to be inked, and something lies near it."""
    _, score = study(next(path for path in STUDIES if path.stem == "01-lantern-climb"))
    for sheet in engrave(score, PageOptions(), engraver())[0]:
        for system in sheet.systems:
            left, _, wide, _ = map(float, re.findall(r'viewBox="([^"]*)"', system.svg)[0].split())
            edge = left + system.inked / system.width * wide
            ends = [float(each) for each in re.findall(r"<path d=\"M[0-9.-]+ [0-9.-]+ L([0-9.-]+) ", system.svg)]
            assert edge - 200 < max(ends) <= edge
            assert system.inked <= system.width
