"""Comments, and the places of the document that they belong to.

A comment on a line of its own belongs to what follows it; after the last line of a block, if it is indented, to the block's end;
after the last row of a system, with a blank line below, to the system's end. A comment behind something belongs to that.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from tabforge.source import Span
from tabforge.syntax.document import Comment
from tabforge.syntax.grammar import ROWS
from tabforge.syntax.lines import Line
from tabforge.syntax.origins import Pointer, written
from tabforge.syntax.report import Report

MAX_COMMENT: Final = 10_000
"""Characters of a comment, and MAX_COMMENTS in a study; see the document's schema."""

MAX_COMMENTS: Final = 100_000


@dataclass(slots=True)
class _Held:
    text: str
    indented: bool
    ends: Pointer | None = None


@dataclass(slots=True)
class Comments:
    """The comments of a text while it is read."""

    text: str
    report: Report
    found: list[Comment] = field(default_factory=list)
    held: list[_Held] = field(default_factory=list)

    def hold(self, line: Line) -> None:
        """A comment on a line of its own."""
        text = self._read(line)
        if text is not None:
            self.held.append(_Held(text, text_indented(self.text, line)))

    def beside(self, line: Line, pointer: Pointer) -> None:
        """A comment behind something."""
        text = self._read(line)
        if text is not None:
            self._put(pointer, "beside", text)

    def before(self, pointer: Pointer) -> None:
        """Something comes to which the comments belong that stand before it."""
        for held in self.held:
            if held.ends is not None:
                self._put(held.ends, "end", held.text)
            else:
                self._put(pointer, "before", held.text)
        self.held.clear()

    def parted(self, system: Pointer) -> None:
        """A blank line comes after a system: what stands between them is the system's."""
        for held in self.held:
            if held.indented and held.ends is None:
                held.ends = system

    def block_ends(self, block: Pointer) -> None:
        """A block ends: what is still indented is the block's."""
        last = max((index for index, held in enumerate(self.held) if held.indented), default=-1)
        for held in self.held[: last + 1]:
            self._put(block, "end", held.text)
        del self.held[: last + 1]

    def text_ends(self) -> None:
        """The text ends."""
        for held in self.held:
            self._put((), "end", held.text)
        self.held.clear()

    def _read(self, line: Line) -> str | None:
        text = self.text[line.comment + 2 : line.stop].rstrip()
        text = text[1:] if text.startswith(" ") else text
        span = Span(line.comment, line.stop)
        if len(text) > MAX_COMMENT:
            self.report.limit(span, f"a comment has at most {MAX_COMMENT:,} characters")
            return None
        if len(self.found) + len(self.held) >= MAX_COMMENTS:
            self.report.limit(span, f"a study has at most {MAX_COMMENTS:,} comments")
            return None
        return text

    def _put(self, pointer: Pointer, place: str, text: str) -> None:
        self.found.append({"at": written(pointer), "place": place, "text": text})


def text_indented(text: str, line: Line) -> bool:
    """Whether a line that holds only a comment is indented."""
    return line.comment > 0 and text[line.comment - 1] in " \t"


def settle(comments: list[Comment], blocks: list[dict[str, object]]) -> None:
    """What stands before the first row of a system, in the order the rows are printed in, stands before the system."""
    for comment in comments:
        steps = comment["at"].split("/")
        if comment["place"] == "before" and len(steps) == 6 and steps[3] == "systems":
            systems = blocks[int(steps[2])]["systems"]
            assert isinstance(systems, list)
            first = next(word for word in ROWS if word in systems[int(steps[4])])
            if first == steps[5]:
                comment["at"] = "/".join(steps[:5])
