"""An exercise's files inside the page, as data URIs (RFC 2397)."""

from __future__ import annotations

from base64 import b64encode
from typing import Final

from tabforge.book.html.markup import NOTHING, Markup, element, link, words
from tabforge.book.model import Exercise, Made
from tabforge.writers.musicxml.mxl import MIMETYPE, packed

TRACK: Final = ".mp3"

_LOW: Final = "Begin with the volume low."


def data_uri(kind: str, data: bytes) -> str:
    """Bytes as an address that holds them. ``kind`` is a media type."""
    return f"data:{kind};base64,{b64encode(data).decode()}"


def files(exercise: Exercise, made: Made) -> Markup:
    """Links that save the exercise's files, its track apart. MusicXML is handed out compressed: it is some thirty times smaller."""
    links = []
    for suffix, (said, kind, ending) in _FILES.items():
        if suffix in made.files:
            data = made.files[suffix]
            target = data_uri(kind, packed(data) if ending == ".mxl" else data)
            name = element("span", words(f" of exercise {exercise.number}"), class_="unseen")
            links.append(element("li", link(target, words(said), name, download=exercise.id + ending)))
    if not links:
        return NOTHING
    return element("div", element("span", words("Files to save"), class_="lead"), element("ul", *links), class_="files")


def track(exercise: Exercise, made: Made) -> Markup:
    """The practice track's player, if there is one."""
    if TRACK not in made.files:
        return NOTHING
    target = data_uri("audio/mpeg", made.files[TRACK])
    said = f"Practice track of exercise {exercise.number}, {made.title}"
    player = element("audio", controls=True, preload="none", src=target, aria_label=said)
    heading = element("p", element("span", words("Practice track"), class_="lead"), words(" "), element("span", words(_LOW)))
    return element("div", heading, player, class_="track")


_FILES: Final[dict[str, tuple[str, str, str]]] = {
    ".musicxml": ("MusicXML", MIMETYPE, ".mxl"),
    ".mid": ("MIDI", "audio/midi", ".mid"),
    ".tab.txt": ("ASCII tab", "text/plain;charset=utf-8", ".tab.txt"),
}
"""By suffix of what was made: the word for it, its media type, the suffix it is saved with."""
