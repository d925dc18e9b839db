"""The engraver's elements written anew: plain, without ids, styles and nested text, with what each of them covers.

The metronome's note and a chord's accidentals come as letters of a music font; they are turned into drawn signs here, so that no font is
needed but one for words.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Final

from tabforge.pages.flattening import Line, Run, flattened, is_beat
from tabforge.pages.fonts import Fonts
from tabforge.pages.shapes import Box, words

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

HREF: Final = "{http://www.w3.org/1999/xlink}href"
SVG: Final = "{http://www.w3.org/2000/svg}"
_G, _PATH, _USE, _TEXT = f"{SVG}g", f"{SVG}path", f"{SVG}use", f"{SVG}text"
_PREFIX: Final = len(SVG)
NUMBER: Final = re.compile(r"-?\d+(?:\.\d+)?")

_RISE: Final = 0.1
"""How far a metronome's note is lifted to stand on the base line of the words, in parts of its size."""

_DOTTED: Final = 0.06
"""From a metronome's note to its dot, in parts of its size."""

_BOLD: Final = frozenset({"ending", "fing", "reh", "tempo"})
_ITALIC: Final = frozenset({"dir", "dynam", "mNum"})
"""Classes whose words the engraver's style sheet makes bold or italic."""

_PLAIN: Final = frozenset({"accid", "artic", "beam", "chord", "clef", "keySig", "layer", "meterSig", "notehead", "staff", "stem", "tuplet"})
"""Classes of groups that are neither found again, nor turned, nor styled: nothing is kept of them but what they hold."""

_KEPT: Final = frozenset(
    {"stroke-width", "stroke-dasharray", "stroke-linecap", "stroke-linejoin", "fill", "fill-opacity", "stroke", "opacity"}
)


def placed(sign: Element) -> tuple[float, float, float]:
    """Where a music sign stands and its scale: ``translate(1200, 300) scale(0.72, 0.72)``."""
    place, _, size = sign.get("transform", "").partition(") scale(")
    across, _, down = place[10:].partition(", ")
    return float(across), float(down), float(size.partition(",")[0])


class Scribe:
    """Writes elements and remembers their boxes. ``notes`` has the attributes of the groups that are to be found again, by id.

    ``height``: what becomes of a height, for what must reach to a TAB that has moved.
    """

    def __init__(self, fonts: Fonts, notes: Mapping[str, str], height: Callable[[float], float] | None = None) -> None:
        self._fonts = fonts
        self._notes = notes
        self._height = height
        self.out: list[str] = []
        self.boxes: list[Box] = []
        self.glyphs: set[str] = set()

    def mapped(self, height: Callable[[float], float] | None) -> Scribe:
        """Another one with heights of its own, or those of the drawing."""
        return Scribe(self._fonts, self._notes, height)

    def take(self, other: Scribe) -> None:
        """Take over what another has written."""
        self.out += other.out
        self.boxes += other.boxes
        self.glyphs |= other.glyphs

    def write(self, element: Element, bold: bool = False, italic: bool = False, chord: bool = False) -> None:
        """Write an element with all it holds."""
        tag = element.tag
        if tag == _G:
            if len(element):
                self._group(element, bold, italic, chord)
        elif tag == _PATH:
            self._path(element)
        elif tag == _USE:
            self._sign(element)
        elif tag == _TEXT:
            for line in flattened(element, bold, italic, chord):
                self._words(line)
        elif tag[_PREFIX:] in _SHAPES:
            self._shape(element, tag[_PREFIX:])

    def _group(self, element: Element, bold: bool, italic: bool, chord: bool) -> None:
        name = element.get("class", "")
        note = turn = None
        if name not in _PLAIN:
            if "placeholder" in name:
                return
            kind = name.partition(" ")[0]
            bold, italic, chord = bold or kind in _BOLD, italic or kind in _ITALIC, chord or kind == "harm"
            note, turn = self._notes.get(element.get("id", "")), element.get("transform")
            if note is not None:
                self.out.append(f'<g class="{kind}"{note}>')
            elif turn is not None:
                self.out.append(f'<g class="{kind}" transform="{turn}">')
        begun = len(self.boxes)
        write = self.write
        for child in element:
            write(child, bold, italic, chord)
        if turn is not None:
            self.boxes[begun:] = [_turned(turn, box) for box in self.boxes[begun:]]
        if note is not None or turn is not None:
            self.out.append("</g>")

    def _path(self, element: Element) -> None:
        """A path: a line of the staff or a stem, as most are, or any other."""
        given = element.attrib
        if self._height is None and len(given) == 2:
            data = given["d"]
            ends = data.split()
            if len(ends) == 4:
                x1, y1, x2, y2 = float(ends[0][1:]), float(ends[1]), float(ends[2][1:]), float(ends[3])
                self.boxes.append(Box(x1 if x1 < x2 else x2, y1 if y1 < y2 else y2, x2 if x1 < x2 else x1, y2 if y1 < y2 else y1))
                self.out.append(f'<path d="{data}" stroke-width="{given["stroke-width"]}" stroke="currentColor"/>')
                return
        self._shape(element, "path")

    def _sign(self, element: Element) -> None:
        code = element.get(HREF, "")[1:5]
        x, y, scale = placed(element)
        self.sign(code, x, self._height(y) if self._height else y, scale)

    def sign(self, code: str, x: float, y: float, scale: float) -> None:
        """A music sign by its code point; a scale of 1 is a type of 1000."""
        glyph, size = self._fonts.glyph(code), scale * 1000
        self.glyphs.add(code)
        self.out.append(f'<use href="#{code}" transform="translate({x:.0f} {y:.0f}) scale({scale:.4g})"/>')
        self.boxes.append(Box(x + glyph.left * size, y + glyph.top * size, x + glyph.right * size, y + glyph.bottom * size))

    def _words(self, line: Line) -> None:
        """A line of words and music signs; each run where it belongs, so that no program's own measuring matters much."""
        if self._height is not None:
            line = line._replace(y=self._height(line.y))
        runs = line.runs
        if len(runs) == 1 and not runs[0].music:
            run = runs[0]
            shape = words(self._fonts, run.text, line.x, line.y, run.size, anchor=line.anchor, bold=run.bold, italic=run.italic)
            self.out.append(shape.svg)
            self.boxes.append(shape.box)
            return
        widths = [self._width(run, ahead, after) for ahead, run, after in zip((None, *runs), runs, (*runs[1:], None), strict=False)]
        x = line.x - sum(widths) * {"start": 0.0, "middle": 0.5, "end": 1.0}[line.anchor]
        for number, (run, width) in enumerate(zip(runs, widths, strict=True)):
            ahead = runs[number - 1] if number else None
            if run.music:
                if ahead is not None and not ahead.music and ahead.text.strip() and is_beat(run.text):
                    x += 0.3 * ahead.size  # between the words and the metronome's note
                rise = _RISE * run.size if is_beat(run.text) else 0.0
                self.sign(f"{ord(run.text):04X}", x, line.y - rise, run.size / 1000)
            elif run.text.strip():
                bare = run.text.strip()
                if ahead is None and len(runs) > 1:  # it ends where the sign begins, whatever type it is set in
                    place, anchor = x + self._letters(run, run.text.rstrip()), "end"
                else:
                    place, anchor = x + self._letters(run, run.text[: len(run.text) - len(run.text.lstrip())]), "start"
                shape = words(self._fonts, bare, place, line.y, run.size, anchor=anchor, bold=run.bold, italic=run.italic)
                self.out.append(shape.svg)
                self.boxes.append(shape.box)
            x += width

    def _width(self, run: Run, ahead: Run | None, after: Run | None) -> float:
        if run.music:
            return self._fonts.glyph(f"{ord(run.text):04X}").advance * run.size
        if ahead and after and not run.text.strip() and is_beat(ahead.text) and is_beat(after.text):
            return _DOTTED * run.size
        return self._letters(run, run.text)

    def _letters(self, run: Run, text: str) -> float:
        return self._fonts.width(text, bold=run.bold, italic=run.italic) * run.size

    def _shape(self, element: Element, tag: str) -> None:
        given = element.attrib
        names = _SHAPES[tag]
        if len(names) == 1:
            data = given[names[0]]
            numbers = [float(each) for each in NUMBER.findall(data)]
            if self._height is not None:
                numbers[1::2] = [self._height(each) for each in numbers[1::2]]
                data = _with(data, numbers)
            xs, ys = numbers[::2], numbers[1::2]
            self.boxes.append(Box(min(xs), min(ys), max(xs), max(ys)))
            shown = f' {names[0]}="{data}"'
        else:
            x, y, w, h = (float(given[name]) for name in names)
            y = self._height(y) if self._height is not None else y
            self.boxes.append(Box(x, y, x + w, y + h) if tag == "rect" else Box(x - w, y - h, x + w, y + h))
            places = zip(names, (x, y, w, h), strict=True)
            shown = "".join(f' {name}="{value:.0f}"' for name, value in places)
        for name, value in given.items():
            if name in _KEPT:
                shown += f' {name}="{value}"'
        line = "" if "stroke" in given else ' stroke="currentColor"'
        self.out.append(f"<{tag}{shown}{line}/>")


_SHAPES: Final[dict[str, tuple[str, ...]]] = {
    "path": ("d",),
    "polygon": ("points",),
    "polyline": ("points",),
    "rect": ("x", "y", "width", "height"),
    "ellipse": ("cx", "cy", "rx", "ry"),
}
"""The elements the engraver draws with and the attributes that say where."""


def _with(data: str, numbers: list[float]) -> str:
    """A path or list of points with other numbers."""
    fresh = iter(numbers)
    return NUMBER.sub(lambda _: f"{next(fresh):.0f}", data)


def _turned(transform: str, box: Box) -> Box:
    """A box after a quarter turn, which is all the engraver ever makes."""
    angle, x, y = (float(each) for each in NUMBER.findall(transform)[:3])
    sign = -1 if angle < 0 else 1
    corners = [(x - sign * (cy - y), y + sign * (cx - x)) for cx, cy in ((box.left, box.top), (box.right, box.bottom))]
    (ax, ay), (bx, by) = corners
    return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))

