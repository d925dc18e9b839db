# ruff: noqa: E501  # tables are read by their columns
"""Right documents that between them use every part of the study's schema."""

from __future__ import annotations

from typing import Any

Document = dict[str, Any]

EVERYTHING: Document = {
    "study": 1,
    "title": "Slate quay",
    "subtitle": "for the third week",
    "author": "The workshop",
    "text": ["Slowly at first.", ""],
    "instrument": "guitar",
    "tuning": ["D2", "A2", "D3", "G3", "B3", "E4"],
    "capo": 2,
    "player": "small hand",
    "fingering": "show",
    "strokes": "alternate",
    "scale": {"root": "D3", "name": "Kiln", "degrees": ["1", "2", "b3", "#4", "5", "6", "b7"]},
    "meter": "3+2+2/8",
    "tempo": {"bpm": 96.5, "beat": "q.", "words": "Slowly"},
    "pickup": "e+s",
    "swing": {"value": "e", "ratio": [3, 2]},
    "drone": {"degrees": ["1", "5"], "every": "h"},
    "vamp": {"chords": ["I*2 II", "%"], "every": "q"},
    "backing": "hide",
    "click": "on",
    "count-in": 1,
    "allow": ["A541", "A543"],
    "keys": ["F", "A2"],
    "blocks": [
        {
            "kind": "run", "name": "Climb", "text": ["Up and back."], "tuning": "standard", "capo": 0,
            "scale": {"root": "Bb", "name": "lydian"}, "meter": "4/4", "tempo": {"bpm": 60}, "pickup": "q", "swing": "off",
            "drone": "off", "vamp": {"chords": "advised"},
            "layout": {"kind": "per string", "count": 3, "from": 6, "to": 1, "fret": 5},
            "path": ["up", "down"], "order": [1, 3], "tones": ["1", "3", "4", "5"], "from": "_5", "octaves": 2,
            "rhythm": "q e e 3(e e e)", "marks": "h . pm -", "fingers": "1 3 T 0", "picks": "d u p i", "finish": "rest",
        },
        {"kind": "run", "layout": {"kind": "per string", "count": 2, "from": 5, "degree": "#4"}, "to": "12", "scale": {"root": "C3", "steps": ["W", "H", "W+H"]}},
        {"kind": "run", "layout": {"kind": "position", "fret": 5}, "scale": {"root": "C3", "semitones": [0, 2, 3, 11]}},
        {"kind": "run", "strokes": "legato", "layout": {"kind": "diagonal", "from": 6, "to": 1, "fret": 5}},
        {"kind": "run", "layout": {"kind": "fragment", "count": 3, "from": 6, "to": 1, "degree": "3"}},
        {"kind": "run", "layout": {"kind": "shape", "shape": "E", "fret": 5}},
        {"kind": "run", "layout": {"kind": "string", "string": 4}},
        {"kind": "run", "layout": {"kind": "open"}, "keys": None} | {},
        {"kind": "run", "layout": {"kind": "free"}},
        {
            "kind": "riff", "name": "Undertow",
            "systems": [
                {
                    "meter": [".", "3/4"], "tempo": [".", "q.=60"], "barlines": {"0": "|:", "1": "|[1,2", "2": ":|*3"},
                    "chords": ["Bbmaj7 . C/E .", "%"], "rhythm": ["q e e (q e)*2", "q*3"], "degrees": ["1 b3 ^5@4:5 1+3+5 r =", "%"],
                    "marks": ["h . pm+ac - b1/2@2 .", ""], "fingers": ["1 3+1 . T 0 .", ""], "picks": ["d u . p+i . .", ""],
                    "words": ["lan- tern \"by the bay\" . x y", ""],
                    "voice2": {"rhythm": ["h h"], "frets": ["6:3 5:3+4:5"], "words": ["a b"]},
                },
                {"notes": ["C4 Bb2@5 E3+G3 x@6"]},
            ],
        },
        {
            "kind": "chords", "name": "Slack water", "text": ["Loose wrist."], "meter": "4/4", "scale": {"root": "G", "name": "major"}, "fingering": "hide",
            "voicing": {"kind": "triads", "strings": [3, 2, 1], "inversion": 1}, "diagrams": "show",
            "systems": [
                {
                    "meter": [".", "3/4"], "tempo": ["96", "."], "signs": ["segno", "."], "barlines": {"2": ":|"}, "progression": ["I*2 . bVI/3", "%"],
                    "rhythm": ["q e e h"], "strum": ["d gu xd r", "%"],
                },
                {"progression": ["Am7@x02010"], "rhythm": ["q*4"], "picking": ["p+a@1 i . r"]},
            ],
        },
        {"kind": "chords", "voicing": {"kind": "drop 2"}, "diagrams": "hide", "systems": [{"progression": ["Cmaj7"]}]},
        {"kind": "text", "name": "Rest", "lines": ["A word between.", ""]},
    ],
    "comments": [{"at": "/blocks/0", "place": "before", "text": " for the second week"}, {"at": "", "place": "end", "text": ""}],
}
del EVERYTHING["blocks"][7]["keys"]

SMALL: Document = {"study": 1, "blocks": [{"kind": "riff", "systems": [{"rhythm": ["q q q q"], "degrees": ["1 2 3 4"]}]}]}

WALKS: Document = {"study": 1, "keys": "fourths", "swing": {"value": "s"}, "tuning": "drop d", "blocks": []}

RIGHT = (EVERYTHING, SMALL, WALKS)
