# ruff: noqa: E501  # tables are read by their columns
"""One home for each fact: what is written a second time, for readers who have no Python, is what the tables say.

``pytest tests/test_house.py --regen`` writes the patterns of the study's schema anew from the grammar.
"""

from __future__ import annotations

import importlib
import json
import re
import subprocess
import tomllib
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any, Final

import pytest
from jsonschema import Draft202012Validator

from tabforge import limits, schema
from tabforge.compile.grips import KINDS as KINDS_WRITTEN
from tabforge.fretboard.frettings import FRETTINGS, HIGHEST
from tabforge.fretboard.layouts import KINDS
from tabforge.fretboard.players import PLAYERS
from tabforge.fretboard.voicing_styles import INVERSIONS, VOICING_KINDS
from tabforge.model.pitch import PITCH_TEXT, parse_pitch
from tabforge.model.techniques import MARK_TEXT, TECHNIQUES, Amount, parse_mark
from tabforge.model.values import VALUES
from tabforge.syntax import (
    allowvalue,
    backingvalues,
    blocks,
    chordvalues,
    comments,
    document,
    field,
    grammar,
    neckvalues,
    runvalues,
    scalevalue,
    settings,
    values,
)
from tabforge.syntax.bars import MAX_BAR, MAX_ROW
from tabforge.syntax.riffs import MAX_SYSTEMS

ROOT: Final = Path(__file__).parents[1]
STUDY: Final = schema.load("study")
DEFS: Final[dict[str, Any]] = STUDY["$defs"]
SETTING_OF: Final[dict[str, Any]] = STUDY["properties"]


def target(node: dict[str, Any]) -> dict[str, Any]:
    """A schema, or what it refers to."""
    while "$ref" in node:
        node = DEFS[node["$ref"].rpartition("/")[2]]
    return node


# The schema and the grammar


def whole(text: str) -> str:
    return f"^{text}{grammar.END}"


NAME: Final = whole(grammar.QUOTED_TEXT[1:-1])
LINE: Final = whole(grammar.LINE_TEXT)

PATTERNS: Final[list[tuple[dict[str, Any], str]]] = [
    *((DEFS[f"{word}Bar"], grammar.bar_pattern(word)) for word in grammar.ROWS),
    (DEFS["line"], LINE),
    (DEFS["name"], NAME),
    (DEFS["pitch"], whole(PITCH_TEXT)),
    (DEFS["root"], whole(grammar.ROOT_TEXT)),
    (DEFS["degree"], whole(grammar.DEGREE_TEXT)),
    (DEFS["duration"], whole(grammar.DURATION_TEXT)),
    (DEFS["meter"], whole(grammar.METER_TEXT)),
    (DEFS["allow"]["items"], whole(grammar.CODE_TEXT)),
    (DEFS["tempo"]["properties"]["beat"], whole(grammar.VALUE_TEXT)),
    (DEFS["tempo"]["properties"]["words"], NAME),
    (DEFS["scale"]["properties"]["name"], NAME),
    (DEFS["scale"]["properties"]["degrees"]["items"], whole(grammar.OWN_DEGREE_TEXT)),
    (DEFS["barlines"]["additionalProperties"], whole(grammar.BAR_LINE_TEXT)),
    (DEFS["barlines"]["propertyNames"], whole("(?:0|[1-9][0-9]{0,5})")),
    (DEFS["tuning"]["anyOf"][0], LINE),
    (SETTING_OF["instrument"], LINE),
    (DEFS["comment"]["properties"]["text"], LINE),
    (DEFS["comment"]["properties"]["at"], whole(rf"(?:/(?:[^/~{grammar.UNSEEN_TEXT}]|~[01])*)*")),
]


def schemas_within(node: Any) -> Iterator[dict[str, Any]]:
    if isinstance(node, dict):
        yield node
        for inner in node.values():
            yield from schemas_within(inner)
    elif isinstance(node, list):
        for inner in node:
            yield from schemas_within(inner)


def test_the_patterns_are_the_grammars(regen: bool) -> None:
    if regen:
        path = ROOT / "schemas" / "study.schema.json"
        text = path.read_text(encoding="utf-8")
        for node, pattern in PATTERNS:
            text = text.replace(json.dumps(node["pattern"]), json.dumps(pattern))
        path.write_text(text, encoding="utf-8")
    else:
        assert [node["pattern"] for node, _ in PATTERNS] == [pattern for _, pattern in PATTERNS]


def test_every_pattern_is_accounted_for() -> None:
    known = {id(node) for node, _ in PATTERNS}
    assert all(id(node) in known for node in schemas_within(STUDY) if isinstance(node.get("pattern"), str))


ESCAPE: Final = re.compile(r"\\(?:u[0-9a-fA-F]{4}|x[0-9a-fA-F]{2}|.)")
ECMA: Final = re.compile(r"\\(?:[\^$\\.*+?()\[\]{}|/]|[dDwWsSbB]|[fnrtv0]|u[0-9a-fA-F]{4}|x[0-9a-fA-F]{2})")
"""ECMA-262, Pattern[+UnicodeMode]: CharacterEscape, CharacterClassEscape and Assertion, which JSON Schema Core (6.4) asks for."""


@pytest.mark.parametrize("pattern", sorted({pattern for _, pattern in PATTERNS}), ids=lambda pattern: pattern[:40])
def test_a_pattern_means_the_same_to_readers_in_other_languages(pattern: str) -> None:
    assert all(ECMA.fullmatch(escape) for escape in ESCAPE.findall(pattern))
    bare = ESCAPE.sub("_", pattern)
    assert not re.search(r"\(\?(?![:!=])|[*+?}]\+", bare)  # Python's own groups and possessive quantifiers
    assert re.search(pattern, "q\n") is None  # Python's $ alone would let a last line break pass
    assert pattern.startswith("^")
    assert pattern.endswith(grammar.END)


@pytest.mark.parametrize("word", grammar.ROWS)
def test_a_wrong_bar_is_refused_however_long(word: str) -> None:
    """A cell that could be read in two ways would double the time with each cell before the wrong one, and this would not come to an end."""
    pattern = re.compile(grammar.bar_pattern(word))
    cells = {*grammar.ROWS[word].samples, *(each for text in DEFS[f"{word}Bar"]["examples"] for each in text.split()), "1+", "3(", "(", ")", "1*9", '"', "%", "b1"}
    for cell in cells:
        for text in ((cell + " ") * 2000 + "|", cell * 2000 + "|", cell + " " * 2000 + "|"):
            assert pattern.search(text) is None


# The schema and the tables


def test_the_blocks_and_their_kinds() -> None:
    assert DEFS["block"]["properties"]["kind"]["enum"] == list(grammar.BLOCKS)
    kinds = [each["if"]["properties"]["kind"]["const"] for each in DEFS["block"]["allOf"]]
    assert kinds == list(grammar.BLOCKS)
    assert DEFS["layout"]["properties"]["kind"]["enum"] == list(KINDS)


@pytest.mark.parametrize(("where", "properties", "beside"), [
    ("header", SETTING_OF, {"study", "blocks", "comments"}),
    ("run", DEFS["run"]["properties"], {"kind", "name"}),
    ("riff", DEFS["riff"]["properties"], {"kind", "name", "systems"}),
    ("chords", DEFS["chordBlock"]["properties"], {"kind", "name", "systems"}),
])
def test_the_settings_stand_where_the_grammar_has_them(where: str, properties: dict[str, Any], beside: set[str]) -> None:
    assert properties.keys() - beside == {setting.word for setting in grammar.SETTINGS.values() if where in setting.where}


def test_the_rows() -> None:
    assert DEFS["system"]["properties"].keys() - {"barlines", "voice2"} == {row.word for row in grammar.ROWS.values() if "riff" in row.where}
    assert DEFS["chordSystem"]["properties"].keys() - {"barlines"} == {row.word for row in grammar.ROWS.values() if "chords" in row.where}
    assert DEFS["system"]["properties"]["voice2"]["properties"].keys() == {row.word for row in grammar.ROWS.values() if row.voice2}
    for word, row in (DEFS["system"]["properties"] | DEFS["chordSystem"]["properties"]).items():
        if word in grammar.ROWS:
            assert target(row)["items"] == {"$ref": f"#/$defs/{word}Bar"}


@pytest.mark.parametrize(("made", "types"), [
    (STUDY, [document.Study]),
    (DEFS["scale"], [document.ScaleSetting]),
    (DEFS["tempo"], [document.TempoSetting]),
    (DEFS["swing"]["anyOf"][1], [document.SwingSetting]),
    (DEFS["capo"]["anyOf"][1], [document.CapoSetting]),
    (DEFS["voicing"], [document.VoicingSetting]),
    (DEFS["drone"]["anyOf"][1], [document.DroneSetting]),
    (DEFS["vamp"]["anyOf"][1], [document.VampSetting]),
    (DEFS["system"]["properties"]["voice2"], [document.Voice]),
    (DEFS["comment"], [document.Comment]),
])
def test_the_types_of_the_document_have_the_keys_of_the_schema(made: dict[str, Any], types: list[Any]) -> None:
    assert made["properties"].keys() == {key for each in types for key in each.__annotations__}


def test_the_type_of_a_system_has_the_keys_of_both_kinds() -> None:
    assert DEFS["system"]["properties"].keys() | DEFS["chordSystem"]["properties"].keys() == {*document.Voice.__annotations__, *document.System.__annotations__}


LAYOUTS: Final = [node["then"]["$ref"].rpartition("/")[2] for node in DEFS["layout"]["allOf"]]
"""The definitions of all kinds of layouts."""


def test_the_types_of_blocks_and_layouts_have_the_keys_of_all_their_kinds() -> None:
    kinds = [DEFS[name]["properties"].keys() for name in ("run", "riff", "chordBlock", "textBlock")]
    assert set().union(*kinds) == document.Block.__annotations__.keys()
    layouts = [DEFS[name]["properties"].keys() for name in LAYOUTS]
    assert set().union(*layouts) == document.LayoutSetting.__annotations__.keys()


ITEMS: Final = DEFS["run"]["properties"]
SCALE: Final = DEFS["scale"]["properties"]


@pytest.mark.parametrize(("said", "meant"), [
    (SCALE["steps"]["items"]["enum"], list(grammar.STEPS)),
    ([SCALE[word]["maxItems"] for word in scalevalue.OWN], [scalevalue.MOST] * 3),
    (SETTING_OF["keys"]["anyOf"][0]["enum"], list(values.WALKS)),
    (SETTING_OF["keys"]["anyOf"][1]["maxItems"], values.MAX_KEYS),
    (DEFS["capo"]["anyOf"][0]["maximum"], neckvalues.MAX_CAPO),
    (DEFS["capo"]["anyOf"][1]["properties"]["fret"]["maximum"], neckvalues.MAX_CAPO),
    (DEFS["capo"]["anyOf"][1]["properties"]["strings"]["maxItems"], limits.MAX_STRINGS),
    (SETTING_OF["hand"]["enum"], list(neckvalues.HANDS)),
    (DEFS["player"]["enum"], list(PLAYERS)),
    (DEFS["allow"]["maxItems"], allowvalue.MAX_ALLOWED),
    (DEFS["fingering"]["enum"], list(neckvalues.FINGERINGS)),
    (DEFS["fretting"]["anyOf"][0]["enum"], list(FRETTINGS)),
    (DEFS["fretting"]["anyOf"][1]["maxItems"], limits.MAX_FRET),
    (DEFS["fretting"]["anyOf"][1]["items"]["maximum"], HIGHEST),
    ((DEFS["tempo"]["properties"]["bpm"]["minimum"], DEFS["tempo"]["properties"]["bpm"]["maximum"]), values.TEMPO_RANGE),
    (DEFS["swing"]["anyOf"][1]["properties"]["value"]["enum"], [value.letter for value in VALUES if value.flags in (1, 2)]),
    (DEFS["line"]["maxLength"], field.MAX_LINE),
    (DEFS["tempo"]["properties"]["words"]["maxLength"], field.MAX_PHRASE),
    (DEFS["tuning"]["anyOf"][0]["maxLength"], field.MAX_PHRASE),
    (SCALE["name"]["maxLength"], field.MAX_PHRASE),
    (SETTING_OF["instrument"]["maxLength"], field.MAX_PHRASE),
    (DEFS["name"]["maxLength"], blocks.MAX_NAME),
    (SETTING_OF["blocks"]["maxItems"], blocks.MAX_BLOCKS),
    (DEFS["lines"]["maxItems"], settings.MAX_LINES),
    ([DEFS[block]["properties"]["systems"]["maxItems"] for block in ("riff", "chordBlock")], [MAX_SYSTEMS] * 2),
    (DEFS["voicing"]["properties"]["kind"]["enum"], list(grammar.VOICINGS)),
    (DEFS["voicing"]["properties"]["strings"]["maxItems"], limits.MAX_STRINGS),
    (DEFS["voicing"]["properties"]["inversion"]["maximum"], len(grammar.INVERSIONS) - 1),
    (DEFS["chordBlock"]["properties"]["diagrams"]["enum"], list(chordvalues.DIAGRAMS)),
    (DEFS["drone"]["anyOf"][1]["properties"]["degrees"]["maxItems"], backingvalues.MAX_DRONES),
    (DEFS["vamp"]["anyOf"][1]["properties"]["chords"]["anyOf"][1]["maxItems"], backingvalues.MAX_VAMP),
    (DEFS["countIn"]["maximum"], backingvalues.MAX_COUNT_IN),
    ((DEFS["click"]["enum"], DEFS["backing"]["enum"]), (list(backingvalues.SWITCH), list(backingvalues.BACKINGS))),
    ((KINDS_WRITTEN, grammar.INVERSIONS), ({text: text.replace(" ", "") for text in grammar.VOICINGS}, INVERSIONS)),
    (set(KINDS_WRITTEN.values()), set(VOICING_KINDS)),
    ([DEFS[word]["maxItems"] for word in grammar.ROWS if word in DEFS and word not in {"meter", "key", "tempo"}], [MAX_ROW] * (len(grammar.ROWS) - 3)),
    ([DEFS[word]["maxItems"] for word in ("meters", "keyRow", "tempos")], [MAX_ROW] * 3),
    ({DEFS[f"{row.word}Bar"]["maxLength"] for row in grammar.ROWS.values() if not row.per_bar}, {MAX_BAR}),
    (SETTING_OF["comments"]["maxItems"], comments.MAX_COMMENTS),
    (DEFS["comment"]["properties"]["text"]["maxLength"], comments.MAX_COMMENT),
    (DEFS["string"]["maximum"], limits.MAX_STRINGS),
    (DEFS["fret"]["maximum"], limits.MAX_FRET),
    ((DEFS["tuning"]["anyOf"][1]["minItems"], DEFS["tuning"]["anyOf"][1]["maxItems"]), (limits.MIN_STRINGS, limits.MAX_STRINGS)),
    ([ITEMS[word]["maxItems"] for word in ("path", "order")], [runvalues.MAX_STEPS] * 2),
    (ITEMS["order"]["items"]["maximum"], runvalues.MAX_STEP),
    (ITEMS["tones"]["maxItems"], runvalues.MAX_TONES),
    (ITEMS["octaves"]["maximum"], runvalues.MAX_OCTAVES),
    (DEFS["layoutPerString"]["properties"]["count"]["maximum"], runvalues.MAX_COUNT),
])
def test_what_the_schema_enumerates_and_bounds_is_what_the_tables_say(said: object, meant: object) -> None:
    assert said == meant


def test_the_numbers_in_the_grammars_patterns_end_where_the_limits_do() -> None:
    fits = [number for number in range(200) if re.fullmatch(grammar.FRET_TEXT, str(number))]
    assert fits == list(range(limits.MAX_FRET + 1))
    assert [number for number in range(200) if re.fullmatch(grammar.STRING_TEXT, str(number))] == list(range(1, limits.MAX_STRINGS + 1))
    assert max(number for number in range(5000) if re.fullmatch(grammar.REPEAT_TEXT, f"*{number}")) == limits.MAX_REPEAT


def test_pitches_are_read_just_when_the_pattern_matches() -> None:
    for step in "ABCDEFGHabc":
        for accidental in ("", "#", "b", "##", "bb", "x", "###", "♭"):
            for octave in ("", "-1", "0", "9", "10", "-"):
                text = step + accidental + octave
                assert (parse_pitch(text) is not None) is bool(re.fullmatch(PITCH_TEXT, text))


# The schema files


@pytest.mark.parametrize("name", schema.names())
def test_a_schema_file_is_a_schema_and_says_what_it_is(name: str) -> None:
    read = schema.load(name)
    Draft202012Validator.check_schema(read)
    assert read["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert read["$id"].startswith(f"urn:tabforge:schema:{name}:")
    assert read["title"]
    assert read["description"]


def described(node: dict[str, Any], defs: dict[str, Any]) -> bool:
    chain = [node]
    while "$ref" in chain[-1]:
        chain.append(defs[chain[-1]["$ref"].rpartition("/")[2]])
    return all(any(each.get(word) for each in chain) for word in ("title", "description"))


@pytest.mark.parametrize("name", schema.names())
def test_everything_in_a_schema_has_a_title_and_a_description(name: str) -> None:
    read = schema.load(name)
    defs = read.get("$defs", {})
    assert all(described(each, defs) for each in defs.values())
    for node in schemas_within(read):
        properties = node.get("properties", {})
        for word, each in properties.items():
            mere_condition = "const" in each or "enum" in each if isinstance(each, dict) else each is True
            assert mere_condition or described(each, defs), word


def test_the_examples_are_valid_and_there_is_one_for_every_pattern_people_write() -> None:
    for node, _ in PATTERNS:
        check = Draft202012Validator({**node, "$defs": DEFS})
        assert all(check.is_valid(example) for example in node.get("examples", []))
    assert all(node.get("examples") for node, _ in PATTERNS if node["pattern"] not in (LINE, NAME))


# Techniques

AMOUNTS: Final[dict[Amount, list[str]]] = {
    Amount.NONE: [""],
    Amount.WHOLE_STEPS: ["1/4", "1/2", "3/4", "1", "5/4", "3/2", "7/4", "2"],
    Amount.FRETS: [str(frets) for frets in range(1, 25)],
    Amount.STROKES: ["1", "2", "3"],
}
"""The amounts of the language reference: bends in quarters of a whole step up to two, an octave of frets twice, three strokes."""


def forms() -> Iterator[tuple[str, str, str]]:
    """Every way to write every technique, with its name and the amount as written."""
    for technique in TECHNIQUES:
        for amount in AMOUNTS[technique.amount]:
            yield technique.form.replace("#", amount), technique.name, amount
        if technique.default is not None:
            yield technique.form.replace("#", ""), technique.name, ""


FORMS: Final = list(forms())


def test_no_two_techniques_are_written_alike() -> None:
    assert len({text for text, _, _ in FORMS}) == len(FORMS)
    assert len({technique.name for technique in TECHNIQUES}) == len(TECHNIQUES)


@pytest.mark.parametrize(("text", "name", "amount"), FORMS, ids=[form[0] for form in FORMS])
def test_a_technique_is_matched_and_read_back(text: str, name: str, amount: str) -> None:
    for written, string in ((text, None), (f"{text}@2", 2), (f"{text}@12", 12)):
        assert re.fullmatch(MARK_TEXT, written)
        assert re.search(grammar.bar_pattern("marks"), f". {written}+ac {written}*3 -+{written}")
        mark = parse_mark(written)
        assert mark is not None
        assert mark.technique.name == name
        assert mark.amount == (Fraction(amount) if amount else mark.technique.default)
        assert mark.string == string


@pytest.mark.parametrize("text", ["", "b", "b0", "b3", "b5", "b1/3", "h1", "ah0", "ah25", "tp4", "tr25", "pm@0", "pm@13", "pm@", "@2", "PM", "pm ", "pm+ac", "in", "x\n"])
def test_what_is_no_technique_is_neither(text: str) -> None:
    assert not re.fullmatch(MARK_TEXT, text)
    assert parse_mark(text) is None


# The tree

PROJECT: Final = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def test_the_project_file_tells_the_truth() -> None:
    project = PROJECT["project"]
    assert project["license"] == "MIT"
    (licence,) = project["license-files"]
    words = (ROOT / licence).read_text(encoding="utf-8")
    assert words.startswith("MIT License\n")
    assert "WITHOUT WARRANTY OF ANY KIND" in words
    assert (ROOT / project["readme"]).is_file()
    assert [re.split("[<>=]", each)[0] for each in project["dependencies"]] == ["typer", "jsonschema"]
    module, function = project["scripts"]["tabforge"].split(":")
    assert callable(getattr(importlib.import_module(module), function))


def test_one_python_version_is_the_oldest_everywhere() -> None:
    oldest = PROJECT["project"]["requires-python"].removeprefix(">=")
    assert PROJECT["tool"]["ruff"]["target-version"] == f"py{oldest.replace('.', '')}"
    assert f"Programming Language :: Python :: {oldest}" in PROJECT["project"]["classifiers"]


def test_the_wheel_holds_the_package_whole_and_the_schemas() -> None:
    wheel = PROJECT["tool"]["hatch"]["build"]["targets"]["wheel"]
    assert wheel["packages"] == ["tabforge"]
    assert wheel["force-include"] == {"schemas": "tabforge/schema/files"}
    assert {path.suffix for path in (ROOT / "schemas").iterdir()} == {".json"}


PUBLIC: Final = frozenset({"json-schema.org", "www.musicxml.org", "www.w3.org", "docs.oasis-open.org", "example.org"})
"""Hosts that may be named: those of published standards, and the one reserved for examples (RFC 2606)."""

RESERVED: Final = re.compile(r"(?:[\w-]+\.)*(?:example(?:\.com|\.org|\.net)?|test|invalid)|localhost|127(?:\.\d+){3}|192\.0\.2\.\d+")
"""Names and addresses that are nobody's: for documentation (RFC 2606, RFC 5737), and every machine's own (RFC 6761, RFC 1122)."""

HOST: Final = re.compile(r"\b(?:https?|ftp|git|ssh)://([\w.-]*)")
PLACE: Final = re.compile(r"(?<![\w.~)\]}>-])/(?:home|root|work|Users|mnt|srv|opt|private)/[\w.]|\b[A-Z]:\\\\?Users\b")


def tracked() -> Iterator[tuple[str, str]]:
    """The files of the project that are text, with what they hold."""
    try:
        listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True, text=True).stdout.split("\0")
        paths = [ROOT / name for name in listed if name]
    except (OSError, subprocess.CalledProcessError):
        paths = [path for folder in ("tabforge", "schemas", "tests", "examples", "exports") for path in (ROOT / folder).rglob("*") if path.suffix != ".pyc"]
    for path in paths:
        if path.is_file():
            try:
                yield path.relative_to(ROOT).as_posix(), path.read_text(encoding="utf-8")
            except UnicodeDecodeError:
                continue


def foreign(text: str) -> list[str]:
    """The hosts and the places of one machine that a text names."""
    hosts = [found[1].lower().rstrip(".") for found in HOST.finditer(text)]
    return [host for host in hosts if host and host not in PUBLIC and not RESERVED.fullmatch(host)] + [found[0] for found in PLACE.finditer(text)]


def test_nothing_speaks_of_one_machine_or_host() -> None:
    seen = {name: foreign(text) for name, text in tracked() if name != "tests/test_house.py"}
    assert len(seen) > 100
    assert {name: found for name, found in seen.items() if found} == {}


@pytest.mark.parametrize("text", ["see /home/ann/a.riff", "cd '/root/x'", 'open("/srv/data/x")', "C:\\Users\\ann", "https://mirror.harbour.lan/simple", "http://10.1.2.3:8000/"])
def test_one_that_did_would_be_found(text: str) -> None:
    assert foreign(text)


@pytest.mark.parametrize("text", ["https://json-schema.org/draft/2020-12/schema", "12/srv/3", "and/or", "/blocks/0/root/x", "#!/usr/bin/env bash", "a/home/b", "http://localhost:8000/", "https://pypi.example.net/x"])
def test_what_is_everywhere_is_not(text: str) -> None:
    assert not foreign(text)
