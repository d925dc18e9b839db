"""What every answer must be: its body as the OpenAPI document says, its problem as RFC 9457 says."""

from __future__ import annotations

from typing import Any

from jsonschema import Draft202012Validator
from starlette.testclient import TestClient

from tabforge.service.settings import PREFIX

RFC_9457: dict[str, Any] = {
    "type": "object",
    "required": ["type", "title", "status"],
    "properties": {
        "type": {"type": "string", "minLength": 1},
        "title": {"type": "string", "minLength": 1},
        "status": {"type": "integer", "minimum": 100, "maximum": 599},
        "detail": {"type": "string"},
        "instance": {"type": "string"},
    },
}
"""The members of problem details (RFC 9457, section 3.1; its appendix A has them as a schema, here from memory). Ours always have three."""


def is_problem(response: Any, status: int, name: str | None = None) -> dict[str, Any]:
    """A response must be a problem of this status, and kind; its body is returned."""
    assert response.status_code == status, response.text
    assert response.headers["content-type"] == "application/problem+json"
    told: dict[str, Any] = response.json()
    Draft202012Validator(RFC_9457).validate(told)
    assert told["status"] == status
    if name is not None:
        assert told["type"] == f"urn:tabforge:problem:{name}"
    return told


def is_said(client: TestClient, response: Any, model: str) -> Any:
    """A response must be what the OpenAPI document calls by this name; its body is returned."""
    assert response.status_code == 200, response.text
    assert response.headers["content-type"] == "application/json"
    document = client.get(f"{PREFIX}/openapi.json").json()
    schema = {"$ref": f"#/components/schemas/{model}", "components": document["components"]}
    told = response.json()
    Draft202012Validator(schema).validate(told)
    return told
