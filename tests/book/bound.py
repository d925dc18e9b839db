"""What is found in a PDF by programs of others: pypdf reads its structure, pdfium where things are drawn."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from typing import Any, NamedTuple

from pypdf import PdfReader


class Figure(NamedTuple):
    """A picture in the structure of the document: its page from 0, its words, its box in points from the lower left corner."""

    page: int
    alt: str
    left: float
    bottom: float
    right: float
    top: float


class Bound:
    """A PDF that has been read."""

    def __init__(self, data: bytes) -> None:
        self.data = data
        self.reader = PdfReader(io.BytesIO(data), strict=True)
        self.texts = [page.extract_text() for page in self.reader.pages]

    @property
    def root(self) -> Any:
        return self.reader.trailer["/Root"]

    def outline(self) -> list[tuple[int, str, int]]:
        """Bookmarks: depth, title, page from 1."""

        def walk(items: list[Any], depth: int) -> Iterator[tuple[int, str, int]]:
            for item in items:
                if isinstance(item, list):
                    yield from walk(item, depth + 1)
                else:
                    page = self.reader.get_destination_page_number(item)
                    assert page is not None
                    yield depth, str(item.title), page + 1

        return list(walk(self.reader.outline, 0))

    def structure(self) -> list[Any]:
        """Every element of the structure tree in reading order."""
        found = []

        def walk(node: Any) -> None:
            node = node.get_object()
            if isinstance(node, list):
                for child in node:
                    walk(child)
            elif isinstance(node, dict):
                if "/S" in node:
                    found.append(node)
                if "/K" in node:
                    walk(node["/K"])

        walk(self.root["/StructTreeRoot"]["/K"])
        return found

    def figures(self) -> list[Figure]:
        pages = {page.indirect_reference.idnum: number for number, page in enumerate(self.reader.pages)}
        found = []
        for node in self.structure():
            if node["/S"] == "/Figure":
                box = node["/A"][0].get_object()["/BBox"]
                page = pages[node.raw_get("/Pg").idnum] if "/Pg" in node else -1
                found.append(Figure(page, str(node.get("/Alt", "")), *map(float, box)))
        return found

    def links(self) -> Iterator[tuple[int, int | str]]:
        """Each link: its page, and the page or address it leads to; -1 if it leads nowhere."""
        numbers = {page.indirect_reference.idnum: number for number, page in enumerate(self.reader.pages)}
        for number, page in enumerate(self.reader.pages):
            for each in page.get("/Annots", []):
                link = each.get_object()
                action = link.get("/A", {})
                if "/URI" in action:
                    yield number, str(action["/URI"])
                    continue
                target = link.get("/Dest", action.get("/D"))
                target = self.reader.named_destinations[target].dest_array if isinstance(target, str) else target.get_object()
                yield number, numbers.get(target[0].idnum if hasattr(target[0], "idnum") else -1, -1)

    def fonts(self) -> dict[str, bool]:
        """The fonts of all pages and what is drawn in them; whether each is embedded."""
        found: dict[str, bool] = {}

        def walk(resources: Any) -> None:
            for font in (each.get_object() for each in resources.get("/Font", {}).values()):
                holder = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
                found[str(font["/BaseFont"])] = any("/FontFile" in key for key in holder.get("/FontDescriptor", {}))
            for each in resources.get("/XObject", {}).values():
                if "/Resources" in each.get_object():
                    walk(each.get_object()["/Resources"])

        for page in self.reader.pages:
            walk(page["/Resources"])
        return found

    def contents(self) -> list[tuple[str, int]]:
        """The lines of the contents: words and the page number."""
        start = next(number for number, text in enumerate(self.texts) if text.startswith("Contents"))
        lines = "\n".join(self.texts[start : start + 2]).splitlines()
        found = (re.fullmatch(r"(.*?)(?: ?\.){3,} ?(\d+)", line) for line in lines)
        return [(each[1].strip(), int(each[2])) for each in found if each]
