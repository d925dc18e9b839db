# ruff: noqa: E501  # tables are read by their columns
"""Wrong documents made from right ones, and JSON values at random."""

from __future__ import annotations

import copy
from typing import Any

from hypothesis import strategies as st

KEYS = ("study", "title", "scale", "root", "name", "steps", "semitones", "degrees", "kind", "systems", "rhythm", "frets", "words", "tempo",
        "bpm", "swing", "value", "ratio", "layout", "count", "from", "to", "fret", "string", "degree", "octaves", "lines", "barlines", "voice2",
        "comments", "progression", "strum", "picking", "voicing", "strings", "inversion", "diagrams", "at", "place", "text", "keys", "tuning", "capo", "0", "12", "x", "")

TEXTS = ("", ".", "%", "% 1", "1", "1 2", "1  2", " 1", "1 ", "1\n", "(1 2)*2", "()", "3(e e e)", "q", "q.", "q+e", "w h", "C4", "Bb2", "H", "E-1", "6:3", "6:3 5", "I ii7", "d u", "p+a@1", "drop 2",
         "off", "e", "fifths", "run", "riff", "chords", "text", "per string", "position", "string", "open", "free", "up", "hold", "W", "W+H", "4/4", "3+2/8", "4/5", "q=96", "96",
         "|", "||", ":|", "|[1", "beside", "/blocks/0", "~", "a\tb", "a\x00b", "a\u2028b", "é\U0001f3b8", "\ud800", "x" * 61, "1 " * 30 + "!", ". " * 40 + "|")

SCALARS = st.one_of(
    st.none(), st.booleans(), st.sampled_from(TEXTS), st.text(max_size=4),
    st.integers(-3, 40), st.sampled_from((0.0, -0.0, 1.0, 2.0, 0.5, 10.0, 999.99, 1000.0, 2**53, -(2**70))), st.floats(allow_nan=False, allow_infinity=False),
)

VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=4),
    max_leaves=8,
)
"""Any JSON value, with a leaning toward what the schemas speak of."""


def places(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """The paths of all values within a value, its own included."""
    found = [path]
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, inner in items:
        found += places(inner, (*path, step))
    return found


def at(value: Any, path: tuple[str | int, ...]) -> Any:
    """The value at a path."""
    for step in path:
        value = value[step]
    return value


@st.composite
def mutated(draw: st.DrawFn, document: Any) -> Any:
    """The document with one to three places made other than they were."""
    document = copy.deepcopy(document)
    for _ in range(draw(st.integers(1, 3))):
        path = draw(st.sampled_from(places(document)))
        inner = at(document, path)
        do = draw(st.sampled_from(("replace", "drop", "rename", "add", "repeat", "text")))
        if not path:
            if do == "replace" and draw(st.integers(0, 9)) == 0:
                return draw(VALUES)
            if isinstance(inner, dict):
                inner[draw(st.sampled_from(KEYS))] = draw(VALUES)
            continue
        around, step = at(document, path[:-1]), path[-1]
        if do == "drop":
            del around[step]
        elif do == "rename" and isinstance(around, dict):
            around[draw(st.sampled_from(KEYS))] = around.pop(step)
        elif do == "add" and isinstance(inner, dict):
            inner[draw(st.sampled_from(KEYS))] = draw(VALUES)
        elif do in {"add", "repeat"} and isinstance(inner, list):
            inner.append(copy.deepcopy(inner[0]) if inner and do == "repeat" else draw(VALUES))
        elif isinstance(inner, str) and do == "text":
            cut = draw(st.integers(0, len(inner)))
            around[step] = inner[:cut] + draw(st.sampled_from(TEXTS)) + inner[cut:]
        else:
            around[step] = draw(VALUES)
    return document
