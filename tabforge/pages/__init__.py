"""Engraved pages: notation and TAB as pictures, with the marks a player reads on the strings.

The extra ``pages`` brings what engraves, verovio. ``engrave`` gives one Sheet for each section that has music, and each sheet is a row of
systems: a system is a whole SVG picture of its own with its size in millimetres, so that a typesetter can turn the page between two of them
and never cuts one. Titles and teaching text are not drawn into systems: they are the typesetter's.

- ``score_page`` puts the sheets of a study under one another on one long page, with its titles and text.
- ``share_glyphs`` takes the music signs out of many pictures into one, for a web page.
- ``Engraver`` holds one engraving program; whoever engraves much makes one for each thread and hands it on.

In every picture each note, on the staff and on TAB, is a group with ``data-at="START-END"``, the offsets of its cell in the source,
``data-tick``, its written onset in ticks from the beginning of its section, ``data-bar``, the bar of its section from 0, and
``data-voice``, 0 or 1; on TAB it has its ``data-string`` too.
"""

from __future__ import annotations

from tabforge.pages.engraver import Engraver, MissingEngraverError
from tabforge.pages.engraving import engrave
from tabforge.pages.glyphs import share_glyphs
from tabforge.pages.longpage import score_page
from tabforge.pages.options import PAPERS, PageOptions
from tabforge.pages.sheets import Sheet, System

__all__ = ["PAPERS", "Engraver", "MissingEngraverError", "PageOptions", "Sheet", "System", "engrave", "score_page", "share_glyphs"]
