"""Codes for a file's bytes, for JSON input and for the schema guard.

``wrong`` and ``right`` are empty where no text can show the mistake: how a file is stored, and how long it is.
"""

from __future__ import annotations

from typing import Final

from tabforge.diagnostics.core import Code, Severity

_E: Final = Severity.ERROR


def _study(more: str = '"title": "Gravel path"', block: str = '"degrees": ["1 2 3 4"]') -> str:
    return (
        "{\n"
        '  "study": 1,\n'
        f"  {more},\n"
        '  "scale": {"root": "C3", "name": "major"},\n'
        '  "blocks": [\n'
        '    {"kind": "riff", "name": "Gravel path", "systems": [\n'
        f'      {{"rhythm": ["q q q q"], {block}}}\n'
        "    ]}\n"
        "  ]\n"
        "}\n"
    )


_RIGHT: Final = _study()

NOT_UTF8: Final = Code(
    id="D201", severity=_E, title="not UTF-8",
    explanation="A study is a text file in UTF-8, the usual encoding. This file has bytes that are not UTF-8, so it was stored in another encoding or is no "
    "text at all. In your editor choose “save with encoding” and take UTF-8.",
    wrong="", right="",
)
TOO_LARGE: Final = Code(
    id="D202", severity=_E, title="file too large",
    explanation="A study may have 8 MiB; a long one has some hundred kilobytes. Split it into several files.",
    wrong="", right="",
)
UNSEEN_CHARACTER: Final = Code(
    id="D203", severity=Severity.ADVICE, title="a character that cannot be seen",
    explanation="The text has a control character or another one that cannot be seen or written to MusicXML, most often left behind by copying. It is read as "
    "a space. Take it out.",
    wrong='title Gravel\ufeffpath\nscale C3 major\n\nriff "Gravel path"\n  rhythm   q q q q\n  degrees  1 2 3 4\n',
    right='title Gravel path\nscale C3 major\n\nriff "Gravel path"\n  rhythm   q q q q\n  degrees  1 2 3 4\n',
)
JSON_SYNTAX: Final = Code(
    id="D211", severity=_E, title="not JSON",
    explanation="A file that begins with `{` is read as JSON (RFC 8259): texts and keys in double quotes, a comma between entries and none after the last, every bracket "
    "closed, no comments.",
    wrong=_study('"title": "Gravel path",'), right=_RIGHT,
)
DUPLICATE_KEY: Final = Code(
    id="D212", severity=_E, title="the same key twice",
    explanation="An object has each of its keys once. Of two, one would be lost without a word.",
    wrong=_study('"title": "Gravel path",\n  "title": "Sand path"'), right=_RIGHT,
)
NOT_A_NUMBER: Final = Code(
    id="D213", severity=_E, title="not a number that JSON has",
    explanation="JSON has no NaN and no Infinity, and a number of a study is never so large that it cannot be held exactly.",
    wrong=_study('"tempo": {"bpm": NaN}'), right=_study('"tempo": {"bpm": 96}'),
)
TOO_DEEP: Final = Code(
    id="D214", severity=_E, title="nested too deeply",
    explanation="Arrays and objects stand inside one another at most 64 deep; a study needs about eight. A bracket may not have been closed.",
    wrong=_study('"title": ' + "[" * 70 + "]" * 70), right=_RIGHT,
)
UNSEEN_IN_TEXT: Final = Code(
    id="D215", severity=_E, title="an escape for a character that cannot be seen",
    explanation="A text of a JSON file writes, with a backslash, a control character or half a character. No page can show it and MusicXML cannot hold it.",
    wrong=_study('"title": "Gravel\\u0007path"'), right=_RIGHT,
)
UNKNOWN_KEY: Final = Code(
    id="D221", severity=_E, title="unknown key",
    explanation="An object of the document has a key that does not belong there. `tabforge schema study` prints what may stand where.",
    wrong=_study('"titel": "Gravel path"'), right=_RIGHT,
)
MISSING_KEY: Final = Code(
    id="D222", severity=_E, title="missing key",
    explanation="An object of the document lacks a key that it must have, such as a scale without its root.",
    wrong=_study('"tempo": {"beat": "q"}'), right=_study('"tempo": {"bpm": 96, "beat": "q"}'),
)
WRONG_KIND: Final = Code(
    id="D223", severity=_E, title="wrong kind of value",
    explanation="A value is of another kind than belongs here: a text where a number belongs, one value where a list belongs, and the like.",
    wrong=_study('"capo": "2"'), right=_study('"capo": 2'),
)
NO_SUCH_CHOICE: Final = Code(
    id="D224", severity=_E, title="none of the choices",
    explanation="Only certain words may stand here, and this is none of them.",
    wrong=_study('"swing": {"value": "q"}'), right=_study('"swing": {"value": "e"}'),
)
MISWRITTEN: Final = Code(
    id="D225", severity=_E, title="not written as it must be",
    explanation="A pitch, a duration, a bar of cells or another text of the document is not written the way the language writes it. A bar in a JSON document is one text: its cells "
    "with one space between, without bar lines.",
    wrong=_study(block='"notes": ["C3 D3 H3 F3"]'), right=_study(block='"notes": ["C3 D3 E3 F3"]'),
)
OUT_OF_RANGE: Final = Code(
    id="D226", severity=_E, title="number out of range",
    explanation="The number is smaller or larger than can be meant here.",
    wrong=_study('"capo": 40'), right=_study('"capo": 4'),
)
WRONG_LENGTH: Final = Code(
    id="D227", severity=_E, title="too long or too short",
    explanation="A text has more characters, or a list more or fewer entries, than may stand here.",
    wrong=_study('"instrument": ""'), right=_study('"instrument": "guitar"'),
)
TWICE: Final = Code(
    id="D228", severity=_E, title="the same value twice",
    explanation="Each value of this list stands in it once.",
    wrong=_RIGHT.replace('"name": "major"', '"semitones": [0, 2, 4, 5, 7, 7, 9, 11]'),
    right=_RIGHT.replace('"name": "major"', '"semitones": [0, 2, 4, 5, 7, 9, 11]'),
)
ONE_OR_THE_OTHER: Final = Code(
    id="D229", severity=_E, title="two that exclude each other",
    explanation="Two keys say the same thing in two ways, such as the highest degree of a run and its number of octaves. Keep one.",
    wrong=_RIGHT.replace('"name": "major"', '"steps": ["W", "W", "H", "W", "W", "W", "H"], "semitones": [0, 2, 4, 5, 7, 9, 11]'),
    right=_RIGHT.replace('"name": "major"', '"steps": ["W", "W", "H", "W", "W", "W", "H"]'),
)
