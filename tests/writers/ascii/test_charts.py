"""Chord charts: the grips of a section above its first system.

How a chart is drawn is common practice, no source: strings upright, the lowest at the left, ``x`` and ``o`` on top, the nut as a
thick line, a fret number beside a chart that lies higher; mirrored for the left hand.
"""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from tabforge.source import Span
from tabforge.writers.ascii import write
from tabforge.writers.ascii.charts import compact
from tabforge.writers.options import WriteOptions
from tests.writers.ascii.build import bar, chord, event, score, section, tuning

SIX = "E2 A2 D3 G3 B3 E4"


def page(*symbols: str, strings: str = SIX, left: bool = False, width: int = 80, legend: bool = False) -> str:
    bars = [bar(f"w 1:1 c:{symbol}", strings=tuning(strings)) for symbol in symbols]
    study = score(section("Grips", *bars, strings=tuning(strings)), left_handed=left)
    return write(study, WriteOptions(legend=legend, width=width))[0].decode()


def drawn(*symbols: str, **more: object) -> list[str]:
    """The lines between the heading and the first system."""
    text = page(*symbols, **more)  # type: ignore[arg-type]
    return text.split("-----\n\n", 1)[1].split("\n\n")[0].split("\n")


def test_a_grip_at_the_nut() -> None:
    assert drawn("C@x32010") == [
        "C x32010",
        "x     o   o",
        "===========",
        "| | | | * |",
        "| | * | | |",
        "| * | | | |",
        "| | | | | |",
    ]


def test_the_left_hand_sees_it_mirrored() -> None:
    assert drawn("C@x32010", left=True)[:5] == ["C x32010", "o   o     x", "===========", "| * | | | |", "| | | * | |"]
    assert "string 1 at the left" in page("C@x32010", left=True, legend=True)
    assert "string 1 at the right" in page("C@x32010", legend=True)


def test_a_grip_high_up_names_its_fret() -> None:
    lines = drawn("Bb@x.x.8.10.11.10")
    assert lines[0] == "Bb x-x-8-10-11-10"
    assert lines[2:7] == ["-----------", "| | * | | | 8fr", "| | | | | |", "| | | * | *", "| | | | * |"]
    assert drawn("E@0.7.6.4.0.0")[1:4] == ["o       o o", "-----------", "| | | * | | 4fr"]


def test_a_grip_wider_than_four_frets_is_drawn_whole() -> None:
    assert len(drawn("C@1xxxx7")) == 3 + 7


def test_any_number_of_strings() -> None:
    assert drawn("C@0003", strings="G4 C4 E4 A4") == ["C 0003", "o o o", "=======", "| | | |", "| | | |", "| | | *", "| | | |"]
    assert drawn("C@123", strings="C3 E3 A3") == ["C 123", "=====", "* | |", "| * |", "| | *", "| | |"]
    twelve = "E2 E3 A2 A3 D3 D4 G3 G4 B3 B3 E4 E4"
    assert drawn("C@" + ".".join(["11"] * 12), strings=twelve)[1] == "-" * 23


def test_charts_stand_abreast_as_the_line_allows() -> None:
    text = page("C@x32010", "Am@x02210", "G@320003", "Em@022000")
    assert "C x32010      Am x02210     G 320003      Em 022000\n" in text
    narrow = page("C@x32010", "Am@x02210", "G@320003", "Em@022000", width=40)
    assert "C x32010      Am x02210     G 320003\n" in narrow
    assert "\n\nEm 022000\n" in narrow


def test_a_grip_is_drawn_once_and_the_name_stands_over_every_bar() -> None:
    text = page("C@x32010", "Am@x02210", "C@x32010", "C")
    assert text.count("x32010") == 1
    assert next(line for line in text.split("\n") if line.startswith("   C ")).split() == ["C", "Am", "C", "C"]


def test_a_name_with_two_grips_tells_which_is_meant() -> None:
    text = page("C@x32010", "C@x35553")
    assert next(line for line in text.split("\n") if line.startswith("   C ")).split() == ["C", "x32010", "C", "x35553"]


def test_grips_of_each_section_stand_in_it() -> None:
    one, two = (section(title, bar(f"w 1:1 c:{symbol}")) for title, symbol in (("One", "C@x32010"), ("Two", "G@320003")))
    text = write(score(one, two), WriteOptions(legend=False))[0].decode()
    assert text.index("C x32010") < text.index("Two\n---") < text.index("G 320003")


def test_a_name_that_no_line_holds_is_cut_and_reported() -> None:
    long = chord("C" + "maj7" * 20 + "@x32010")
    made = event("w 1:1 c:C")
    study = score(section("", bar(replace(made, attached=replace(made.attached, chord=long)))))
    data, losses = write(study, WriteOptions(width=50))
    assert max(map(len, data.decode().split("\n"))) <= 50
    assert [loss.what for loss in losses] == ["the end of a long chord symbol"] * 2
    assert losses[0].span == Span(0, 1)


@given(st.lists(st.none() | st.integers(0, 24), min_size=3, max_size=12), st.booleans())
def test_every_chart_tells_its_grip(shape: list[int | None], left: bool) -> None:
    """Read back by eye's rule: the column of a string has x, o, or one star whose line is its fret."""
    strings = " ".join(["E2"] * len(shape))
    lines = drawn("C@" + ".".join("x" if each is None else str(each) for each in shape), strings=strings, left=left)
    if len(lines[1]) == 2 * len(shape) - 1 and set(lines[1]) <= {"-", "="}:
        lines.insert(1, "")
    first = int(lines[3].split()[-1].removesuffix("fr")) if lines[3].endswith("fr") else 1
    seen: list[int | None] = []
    for string in range(len(shape)):
        column = "".join(line.ljust(30)[2 * string] for line in lines[3:])
        sign = lines[1].ljust(30)[2 * string]
        stars = [first + at for at, char in enumerate(column) if char == "*"]
        assert len(stars) == (sign == " ")
        seen.append({"x": None, "o": 0}.get(sign, *stars or [None]))
    assert seen == (shape[::-1] if left else shape)
    assert lines[0] == f"C {compact(tuple(shape))}"
