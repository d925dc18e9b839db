# ruff: noqa: E501  # tables are read by their columns
"""The compiled validator against ``jsonschema`` 4 (Draft202012Validator), the reference implementation in Python."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from referencing import Registry

from tabforge import schema
from tabforge.schema.compiled import Compiled
from tabforge.schema.keywords import ANNOTATIONS, COMPILED, Unsupported
from tests.schema.mutations import VALUES, mutated
from tests.schema.samples import RIGHT
from tests.strategies import studies

STUDY = schema.load("study")
LIBRARY = Draft202012Validator(STUDY, registry=Registry())
OURS = Compiled(STUDY).check


def subschemas(node: Any) -> Iterator[dict[str, Any]]:
    """Every schema within a schema, by the keywords that hold schemas (JSON Schema Core 2020-12, section 10)."""
    if isinstance(node, dict):
        yield node
        for word in ("properties", "$defs"):
            for inner in node.get(word, {}).values():
                yield from subschemas(inner)
        for word in ("items", "additionalProperties", "propertyNames", "not", "if", "then", "else"):
            yield from subschemas(node.get(word))
        for word in ("allOf", "anyOf", "oneOf"):
            for inner in node.get(word, []):
                yield from subschemas(inner)


def test_the_schema_files_use_only_keywords_that_are_compiled() -> None:
    used = {word for name in schema.names() for each in subschemas(schema.load(name)) for word in each}
    assert used <= COMPILED | ANNOTATIONS
    for name in schema.names():
        Compiled(schema.load(name))


@pytest.mark.parametrize("document", RIGHT)
def test_right_documents_pass_both(document: Any) -> None:
    assert LIBRARY.is_valid(document)
    assert OURS(document)


@given(studies())
@settings(max_examples=60, deadline=None)
def test_studies_pass_both(document: Any) -> None:
    assert LIBRARY.is_valid(document)
    assert OURS(document)


@given(st.data())
@settings(max_examples=700, deadline=None)
def test_mutated_documents_fare_alike(data: st.DataObject) -> None:
    document = data.draw(mutated(data.draw(st.sampled_from(RIGHT))))
    assert OURS(document) is LIBRARY.is_valid(document)


@pytest.mark.long
@given(st.data())
@settings(max_examples=20_000, deadline=None)
def test_many_mutated_documents_fare_alike(data: st.DataObject) -> None:
    document = data.draw(mutated(data.draw(st.sampled_from(RIGHT))))
    assert OURS(document) is LIBRARY.is_valid(document)


PARTS = st.sampled_from(sorted(STUDY["$defs"]))


@given(PARTS, VALUES)
@settings(max_examples=1500, deadline=None)
def test_any_json_fares_alike_in_each_part_of_the_schema(name: str, value: Any) -> None:
    part = {**STUDY["$defs"][name], "$defs": STUDY["$defs"]}
    assert Compiled(part).check(value) is Draft202012Validator(part, registry=Registry()).is_valid(value)


SIMPLE = ({}, True, False, {"type": "string"}, {"type": "integer"}, {"type": "object"}, {"minimum": 2}, {"const": 1})

SCHEMAS: dict[str, list[Any]] = {
    "type": [{"type": each} for each in ("object", "array", "string", "number", "integer", "boolean", "null", ["string", "null"])],
    "const": [{"const": each} for each in (1, 1.0, True, 0, None, "off", [1], {"kind": 1}, [True], 0.0)],
    "enum": [{"enum": each} for each in ([1, "e"], [True], [0.0, None], ["up", "down"], [[1, 2.0]], [{"kind": False}])],
    "minLength": [{"minLength": 0}, {"minLength": 1}, {"minLength": 3}],
    "maxLength": [{"maxLength": 0}, {"maxLength": 2}, {"minLength": 1, "maxLength": 3}],
    "minItems": [{"minItems": 0}, {"minItems": 2}],
    "maxItems": [{"maxItems": 0}, {"minItems": 1, "maxItems": 2}],
    "minimum": [{"minimum": 0}, {"minimum": 1.5}],
    "maximum": [{"maximum": 2}, {"minimum": 1, "maximum": 12}],
    "pattern": [{"pattern": "1"}, {"pattern": "^(?:q|e)"}, {"pattern": "^[^\\r\\n]*$(?!\\n)"}],
    "required": [{"required": []}, {"required": ["kind"]}, {"required": ["kind", "name"]}],
    "uniqueItems": [{"uniqueItems": True}, {"uniqueItems": False}],
    "propertyNames": [{"propertyNames": each} for each in ({"maxLength": 3}, {"pattern": "^0$"}, False)],
    "properties": [{"properties": {"kind": each, "name": other}} for each, other in itertools.product(SIMPLE, SIMPLE)],
    "additionalProperties": [{"properties": {"kind": True}, "additionalProperties": each} for each in SIMPLE],
    "items": [{"items": each} for each in SIMPLE],
    "not": [{"not": each} for each in SIMPLE],
    "allOf": [{"allOf": [each, other]} for each, other in itertools.product(SIMPLE, SIMPLE)],
    "anyOf": [{"anyOf": [each, other]} for each, other in itertools.product(SIMPLE, SIMPLE)],
    "oneOf": [{"oneOf": [each, other, {"type": "string"}]} for each, other in itertools.product(SIMPLE, SIMPLE)],
    "if": [{"if": each, "then": other} for each, other in itertools.product(SIMPLE, SIMPLE)],
    "then": [{"then": False}, {"if": {"type": "string"}, "then": False}],
    "else": [{"if": each, "else": other} for each, other in itertools.product(SIMPLE, SIMPLE)],
    "$ref": [
        {"$ref": "#/$defs/a", "$defs": {"a": each}, "maxLength": 2} for each in SIMPLE
    ] + [{"$defs": {"tree": {"items": {"$ref": "#/$defs/tree"}, "maxItems": 1}}, "$ref": "#/$defs/tree"}, {"items": {"$ref": "#"}, "maxItems": 2}],
}


def test_every_keyword_is_tried() -> None:
    assert set(SCHEMAS) == COMPILED


@pytest.mark.parametrize("keyword", sorted(SCHEMAS))
@given(data=st.data())
@settings(max_examples=150, deadline=None)
def test_each_keyword_decides_alike(keyword: str, data: st.DataObject) -> None:
    tried = data.draw(st.sampled_from(SCHEMAS[keyword]))
    value = data.draw(VALUES)
    assert Compiled(tried).check(value) is Draft202012Validator(tried, registry=Registry()).is_valid(value)


def test_a_value_twice_is_found_where_the_library_sorts_it_away() -> None:
    """JSON Schema Core 2020-12, 4.2.2: the first and the last are equal, true and 1 are not. The library looks at neighbours only."""
    assert not Compiled({"uniqueItems": True}).check([[1], [True], [1]])
    assert Compiled({"uniqueItems": True}).check([[1], [True], 1, True, "1"])


@pytest.mark.parametrize("unknown", [
    {"patternProperties": {"x": True}}, {"format": "date"}, {"prefixItems": [True]}, {"unevaluatedProperties": False}, {"minProperties": 1}, {"contains": {}},
    {"multipleOf": 2}, {"dependentRequired": {}}, {"exclusiveMinimum": 1}, {"$anchor": "a"}, {"$dynamicRef": "#a"}, {"properties": {"a": {"deprecated": True}}},
    {"$ref": "https://example.org/schema"}, {"$ref": "other.json#/a"}, {"$ref": "#/$defs/none"}, {"$ref": "#a"}, {"properties": {"a": {"$id": "urn:x", "type": "null"}}},
])
def test_what_is_not_covered_refuses_to_compile(unknown: dict[str, Any]) -> None:
    with pytest.raises(Unsupported):
        Compiled(unknown)
