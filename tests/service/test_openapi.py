"""The OpenAPI document is one, and the service does what it says: openapi-spec-validator, and schemathesis with requests of its making."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from jsonschema import Draft202012Validator
from openapi_spec_validator import OpenAPIV31SpecValidator
from schemathesis import GenerationMode
from schemathesis.checks import CHECKS, load_all_checks
from starlette.testclient import TestClient

from tabforge.schema import store
from tabforge.service.app import create_app
from tabforge.service.settings import PREFIX, Config
from tests.service.inside import Inside

FEW, MANY = 4, 150
"""Requests for each path and kind of data, in the short run and in the long one."""

load_all_checks()


def document(client: TestClient) -> dict[str, Any]:
    told: dict[str, Any] = client.get(f"{PREFIX}/openapi.json").json()
    return told


def test_it_is_openapi_3_1(client: TestClient) -> None:
    told = document(client)
    assert told["openapi"].startswith("3.1.")
    assert not [str(error) for error in OpenAPIV31SpecValidator(told).iter_errors()]
    for schema in told["components"]["schemas"].values():
        Draft202012Validator.check_schema(schema)


def test_every_path_is_in_it_with_its_problems(client: TestClient) -> None:
    told = document(client)
    own = {route.path for route in client.app.routes if getattr(route, "include_in_schema",
    False)}  # type: ignore[attr-defined]  # any ASGI app
    assert told["paths"].keys() >= {path for path in own if path.startswith(PREFIX) and not path.endswith("openapi.json")}
    assert len(told["paths"]) > 15
    for path in told["paths"].values():
        for operation in path.values():
            assert operation["summary"] and operation["description"]
            for status, answer in operation["responses"].items():
                if status >= "400":
                    assert list(answer["content"]) == ["application/problem+json"]
            if "requestBody" in operation:
                assert {"400", "408", "413", "415", "422", "503"} <= operation["responses"].keys()


def test_the_schema_of_a_study_is_the_one_in_the_file(client: TestClient) -> None:
    """Its references are turned, and nothing else: it says of every study what the file says."""
    told = document(client)["components"]["schemas"]
    assert told["StudyInput"]["properties"]["document"] == {"$ref": "#/components/schemas/Study"}

    def back(value: Any) -> Any:
        if isinstance(value, dict):
            told = {key: back(inside) for key, inside in value.items()}
            return {**told, "$ref": told["$ref"].replace("#/components/schemas/study.", "#/$defs/")} if "$ref" in told else told
        return [back(each) for each in value] if isinstance(value, list) else value

    file = store.load("study")
    definitions = {name.removeprefix("study."): back(schema) for name, schema in told.items() if name.startswith("study.")}
    assert definitions == file.pop("$defs")
    assert back(told["Study"]) == {key: value for key, value in file.items() if key not in ("$schema", "$id")}


def test_no_page_of_another_host_is_needed_to_read_it(client: TestClient) -> None:
    for path in ("/docs", "/redoc"):
        assert client.get(path).status_code == 404
    assert "://" not in json.dumps(document(client)["servers"])


SCHEMA: Any = schemathesis.openapi.from_dict(create_app(Config(quiet=True)).openapi())

OPERATIONS = [each.ok() for each in SCHEMA.get_all_operations() if not each.ok().path.endswith("/events")]
"""All but the stream, which does not end."""

NEGATED = [each for each in OPERATIONS if each.body or each.query]
"""Those that can be asked for what their schemas forbid."""

ASKED = [(each, GenerationMode.POSITIVE) for each in OPERATIONS] + [(each, GenerationMode.NEGATIVE) for each in NEGATED]

FINDS = ("/check", "/view")
"""Paths that answer to any study, if only with what is wrong with it."""


@pytest.fixture(scope="module")
def serving(watched: Path) -> Iterator[Inside]:
    with Inside(Config(folder=watched, workers=2, quiet=True)) as made:
        yield made


def _tried(operation: Any, serving: Inside, mode: Any, many: int) -> None:
    checks = [each for each in CHECKS.get_all() if each.__name__ not in LEFT_OUT]
    checks = [each for each in checks if not (operation.path.endswith(FINDS) and each.__name__ == "negative_data_rejection")]

    @given(case=operation.as_strategy(generation_mode=mode))
    @settings(max_examples=many, deadline=None, suppress_health_check=list(HealthCheck), phases=(Phase.explicit, Phase.generate))
    def ask(case: Any) -> None:
        response = case.call(base_url=serving.address)
        if response.status_code != 413:  # too large comes before anything else, and is refused well enough
            case.validate_response(response, checks=checks)

    ask()


LEFT_OUT = {
    "positive_data_acceptance",  # a study that its schema allows may have musical errors
    "max_response_time", "ignored_auth", "missing_required_header", "unsupported_method", "allow_header_conformance",
}  # fmt: skip


@pytest.mark.parametrize(("operation", "mode"), ASKED, ids=lambda each: getattr(each, "label", each))
def test_it_does_what_it_says(operation: Any, mode: Any, serving: Inside) -> None:
    _tried(operation, serving, mode, FEW)


@pytest.mark.long
@pytest.mark.parametrize(("operation", "mode"), ASKED, ids=lambda each: getattr(each, "label", each))
def test_it_does_what_it_says_to_many(operation: Any, mode: Any, serving: Inside) -> None:
    _tried(operation, serving, mode, MANY)
