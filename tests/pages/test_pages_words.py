"""Words on engraved pages: measured in the type they are set in, clear of one another and of what the engraver drew."""

from __future__ import annotations

from itertools import combinations
from typing import Any

import pytest
from lxml import etree

from tabforge.pages import PageOptions, engrave
from tabforge.pages.shapes import Box
from tests.pages.drawn import NUMBER, ROOT, SVG, engraver, score_of, study

LIBERTINUS = "Libertinus Serif"
ROUND = ROOT / "examples" / "15-lighthouse-round.riff"
WORDS = ("With a swing", "D.S. al Coda", "Andante, 120 (½)", "P.M.", "let ring", "AVATAR Wavy", "D natural minor")


@pytest.mark.parametrize(("bold", "italic"), [(False, False), (True, False), (False, True), (True, True)])
def test_words_are_as_wide_as_the_typesetter_sets_them(bold: bool, italic: bool) -> None:
    """Against typst, which brings Libertinus Serif along and measures with the font itself; without kerning, as the tables are."""
    typst = pytest.importorskip("typst")
    style = f'font: "{LIBERTINUS}", size: 100pt, kerning: false, ligatures: false, weight: {700 if bold else 400}'
    style += ', style: "italic"' if italic else ""
    listed = ", ".join(f'"{each}"' for each in WORDS)
    program = f"#set text({style})\n#context [#metadata(({listed}).map(each => measure(text(each)).width.pt())) <widths>]"
    found = typst.query(program.encode(), "<widths>", field="value", one=True)
    widths = [float(each) for each in NUMBER.findall(found)]
    fonts = engraver().fonts.of(LIBERTINUS)
    assert [fonts.width(each, bold=bold, italic=italic) for each in WORDS] == [pytest.approx(each / 100, abs=0.002) for each in widths]


def test_a_type_that_is_not_known_gets_room() -> None:
    fonts = engraver().fonts
    for text in WORDS:
        both = [fonts.of(family).width(text, bold=True) for family in ("Times, serif", LIBERTINUS)]
        assert fonts.of('"Some Other Type", Times').width(text, bold=True) > max(both)
        assert fonts.of("'Times New Roman', serif").width(text, bold=True) == both[0]


def texts(svg: str, family: str) -> list[tuple[str, Box]]:
    """The words over TAB with the boxes they cover, and a little room beside them."""
    fonts = engraver().fonts.of(family)
    found = []
    for each in _outside_tab(etree.fromstring(svg)):
        size, x, y = (float(each.get(name)) for name in ("font-size", "x", "y"))
        width = size * fonts.width(each.text, bold=each.get("font-weight") == "bold", italic=each.get("font-style") == "italic")
        left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[each.get("text-anchor", "start")] * width
        found.append((each.text, Box(left - 20, y - 0.6 * size, left + width + 20, y)))
    return found


def _outside_tab(root: Any) -> list[Any]:
    return list(root.xpath('.//s:text[not(ancestor::s:g[starts-with(@transform, "translate")])]', namespaces={"s": SVG[1:-1]}))


@pytest.mark.parametrize("family", ["Times, serif", LIBERTINUS, "Georgia"])
def test_words_do_not_lie_on_words(family: str) -> None:
    for sheet in engrave(study(ROUND)[1], PageOptions(font=family), engraver())[0]:
        for system in sheet.systems:
            found = texts(system.svg, family)
            assert len(found) > 10
            assert [(a, b) for (a, one), (b, other) in combinations(found, 2) if one.meets(other)] == []


@pytest.mark.parametrize("family", ["Times, serif", LIBERTINUS, "Georgia"])
def test_a_metronomes_note_stands_clear_of_the_words_and_holds_its_dot(family: str) -> None:
    """The words end at a place and the note begins at another, whatever they are set in; the dot is nearer than the note is wide.

    SMuFL 1.4, metronome marks: U+ECA5 is a quarter note, U+ECB7 an augmentation dot.
    """
    text = 'tempo "With a swing" q.=66\nriff\n  rhythm q q q q\n  frets 6:5 5 5 5\n'
    root: Any = etree.fromstring(engrave(score_of(text), PageOptions(font=family), engraver())[0][0].systems[0].svg)
    words = next(each for each in root.iter(f"{SVG}text") if each.text == "With a swing")
    signs = {use.get("href")[1:]: [float(each) for each in NUMBER.findall(use.get("transform"))] for use in root.iter(f"{SVG}use")}
    note, dot = signs["ECA5"], signs["ECB7"]
    assert words.get("text-anchor") == "end"
    assert 90 < note[0] - float(words.get("x")) < 160
    glyph = engraver().fonts.glyph("ECA5")
    gap = dot[0] - note[0] - glyph.right * note[2] * 1000
    assert 0 < gap < 0.3 * glyph.right * note[2] * 1000


def test_a_change_of_scale_is_named_where_it_is() -> None:
    """Dorian on D and C major have one signature (no sharps or flats), so that only words can tell the change."""
    text = "scale D3 dorian\nriff\n  key . | C-major | D3-natural-minor\n  rhythm w | w | w\n  degrees 1 | 1 | 1\n"
    system = engrave(score_of(text), engraver=engraver())[0][0].systems[0]
    named = [each for each in texts(system.svg, "Times") if each[0] in {"C major", "D natural minor"}]
    assert [each[0] for each in named] == ["C major", "D natural minor"]
    assert named[0][1].right < named[1][1].left
    assert "D dorian</text>" not in system.svg


def signs(root: Any) -> dict[str, list[tuple[float, float]]]:
    """The places of the music signs of a picture, by code point."""
    found: dict[str, list[tuple[float, float]]] = {}
    for use in root.iter(f"{SVG}use"):
        x, y = NUMBER.findall(use.get("transform"))[:2]
        found.setdefault(use.get("href")[1:], []).append((float(x), float(y)))
    return found


def test_hairpins_keep_their_distance_from_dynamics() -> None:
    """SMuFL 1.4, dynamics: U+E520 is p, U+E522 is f. Half a space (90 units) parts them (common practice, no source)."""
    text = "riff\n  rhythm q q q q | q q q q\n  frets 3:5*4 | 3:5*4\n  dynamics p < - - | f > - p\n"
    root: Any = etree.fromstring(engrave(score_of(text), engraver=engraver())[0][0].systems[0].svg)
    first, second = sorted([float(each) for each in NUMBER.findall(line.get("points"))[::2]] for line in root.iter(f"{SVG}polyline"))
    edges = {code: engraver().fonts.glyph(code) for code in ("E520", "E522")}
    size = 720
    soft, softer = sorted(x for x, _ in signs(root)["E520"])
    ((loud, _),) = signs(root)["E522"]
    gaps = [
        min(first) - (soft + edges["E520"].right * size), loud + edges["E522"].left * size - max(first),
        min(second) - (loud + edges["E522"].right * size), softer + edges["E520"].left * size - max(second),
    ]  # fmt: skip
    assert min(gaps) > 90


@pytest.mark.parametrize("name", ["rung-by-rung", "triplet-stair", "spice-ship"])
def test_a_figure_is_not_read_with_the_metronomes(name: str) -> None:
    """A tuplet's 3 right after "= 66" and at its height would be 66 to the third."""
    score = study(ROOT / "examples" / "harbour-book" / "studies" / f"{name}.riff")[1]
    svg = engrave(score, PageOptions(), engraver())[0][0].systems[0].svg
    (tempo,) = (box for said, box in texts(svg, "Times") if "=" in said)
    threes = signs(etree.fromstring(svg))["E883"]  # SMuFL 1.4, tuplets: U+E883 is 3
    assert [x for x, y in threes if tempo.left < x < tempo.right + 220 and tempo.top - 90 < y < tempo.bottom + 90] == []
