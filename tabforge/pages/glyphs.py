"""Music signs: each picture brings those it uses; a web page of many pictures may keep them once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Final

from tabforge.pages.fonts import Fonts

_DEFS: Final = re.compile(r"<defs>(.*?)</defs>", re.S)
_SIGN: Final = re.compile(r'<path id="([0-9A-F]+)".*?/>')


def definitions(fonts: Fonts, codes: Iterable[str]) -> str:
    """The ``defs`` of the signs with these code points."""
    paths = "".join(f'<path id="{code}" transform="scale(1 -1)" d="{fonts.outline(code)}"/>' for code in sorted(codes))
    return f"<defs>{paths}</defs>" if paths else ""


def share_glyphs(pictures: Sequence[str]) -> tuple[str, tuple[str, ...]]:
    """The music signs of many pictures as one hidden picture, and the pictures without theirs.

    For a web page: the hidden picture must stand in the same document as the others. Pictures are those of System.svg and ``score_page``.
    """
    signs: dict[str, str] = {}
    bare = []
    for picture in pictures:
        for defs in _DEFS.finditer(picture):
            for sign in _SIGN.finditer(defs[1]):
                signs[sign[1]] = sign[0]
        bare.append(_DEFS.sub("", picture))
    inside = "".join(signs[code] for code in sorted(signs))
    unseen = 'width="0" height="0" aria-hidden="true" style="position:absolute"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {unseen}><defs>{inside}</defs></svg>', tuple(bare)
