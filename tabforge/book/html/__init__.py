"""A book as one HTML file that needs nothing else: no network, no other file, and no script to be read.

``bind`` puts the page together from its regions: ``front``, ``contents``, ``exercises``, ``back``; ``pictures`` brings engraved systems and
shapes into it, ``prose`` Markdown, ``downloads`` the files; ``page`` is the frame, with ``page.css`` and ``page.js`` inside.
"""

from tabforge.book.html.binding import bind

__all__ = ["bind"]
