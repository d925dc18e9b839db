"""Every kind of refusal is problem details, with the status that says what it is; and what has not changed is not sent again."""

from __future__ import annotations

import json
from typing import Any

import pytest
from starlette.testclient import TestClient

from tabforge.service.problems import KINDS
from tabforge.service.settings import MAX_BODY_BYTES, PREFIX
from tests.service.answers import is_problem
from tests.service.conftest import SMALL, WRONG

JSON = {"Content-Type": "application/json"}
CHECK = f"{PREFIX}/check"


@pytest.mark.parametrize("body", [
    b"", b"{", b'{"text": "a"', b'{"text": NaN}', b'{"text": "a", "text": "b"}', b'{"text": "\xff"}', b'{"text": 1e}', b"\xef\xbb\xbf{}",
    b"[" * 100_000, b'{"document":' * 5_000 + b"1" + b"}" * 5_000, b'{"document": [' + b"[" * 70 + b"]" * 70 + b"]}",
    b'{"text": ' + b"9" * 5_000 + b"}", b"\x00\x00", '{"text": "a"}'.encode("utf-16"),
], ids=lambda body: repr(body[:20]))  # fmt: skip
def test_what_is_no_json_is_malformed(client: TestClient, body: bytes) -> None:
    is_problem(client.post(CHECK, content=body, headers=JSON), 400, "malformed")


@pytest.mark.parametrize(("body", "pointer"), [
    ({}, ""), ([], ""), ("text", ""), (None, ""), ({"text": 5}, "/text"), ({"text": None}, ""), ({"text": "a", "volume": 11}, "/volume"),
    ({"text": "a", "study": "b"}, ""), ({"text": "a", "settings": {"tempo": "fast"}}, "/settings/tempo"),
    ({"text": "a", "settings": {"tempo": 5}}, "/settings/tempo"), ({"text": "a", "settings": {"key": "e2"}}, "/settings/key"),
    ({"text": "a", "settings": {"hand": "both"}}, "/settings/hand"), ({"text": "a", "name": "a\nb"}, "/name"), ({"text": "a", "name": ""},
    "/name"),
    ({"text": "a", "settings": {"tempo": True}}, "/settings/tempo"), ({"text": "a", "settings": {"tuning": ["E2", 5, "A2"]}},
    "/settings/tuning/1"),
])  # fmt: skip
def test_what_does_not_say_what_it_must_is_invalid(client: TestClient, body: Any, pointer: str) -> None:
    told = is_problem(client.post(CHECK, content=json.dumps(body).encode(), headers=JSON), 422, "invalid")
    assert told["errors"][0]["pointer"] == pointer


def test_what_was_sent_is_not_sent_back(client: TestClient) -> None:
    told = is_problem(client.post(CHECK, json={"text": 5, "secret-0815": "hush-4711"}), 422)
    assert "hush-4711" not in json.dumps(told)


@pytest.mark.parametrize("media", [
    None, "text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "application/json; charset=latin-1",
    "application/jsonp", "*/*", "\u00e9",
])  # fmt: skip
def test_another_content_type_is_refused(client: TestClient, media: str | None) -> None:
    headers = {} if media is None else {"Content-Type": media.encode("latin-1")}
    response = client.post(CHECK, content=b'{"text": "a"}', headers=headers)
    is_problem(response, 415, "wrong-content-type")
    assert response.headers["accept-post"] == "application/json"


@pytest.mark.parametrize("media", ["application/json", "Application/JSON; charset=UTF-8", 'application/json;charset="utf-8"'])
def test_json_is_taken(client: TestClient, media: str) -> None:
    assert client.post(CHECK, content=b'{"text": ""}', headers={"Content-Type": media}).status_code == 200


def test_a_body_that_is_too_large_is_refused(client: TestClient) -> None:
    is_problem(client.post(CHECK, json={"text": "x" * MAX_BODY_BYTES}), 413, "too-large")

    def dripping() -> Any:  # its length is not said beforehand
        yield b'{"text": "'
        for _ in range(MAX_BODY_BYTES // 65536 + 1):
            yield b"x" * 65536

    is_problem(client.post(CHECK, content=dripping(), headers=JSON), 413, "too-large")


def test_a_body_that_is_just_small_enough_is_taken(client: TestClient) -> None:
    text = "// " + "x" * (MAX_BODY_BYTES - len('{"text": "// "}'))
    body = json.dumps({"text": text}).encode()
    assert len(body) == MAX_BODY_BYTES
    assert client.post(CHECK, content=body, headers=JSON).status_code == 200


@pytest.mark.parametrize("path", [
    "/nowhere", "/api/v1/nowhere", "/api/v2/check", "/api", "/../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "//etc/passwd", "/index.html/",
    "/.git/config",
    "/api/v1/studies/..", "/api/v1/studies/%2e%2e%2f%2e%2e%2fetc%2fpasswd", "/api/v1/studies/..%5c..%5cwindows", "/api/v1/studies/%00",
    "/api/v1/studies/small.riff",
    "/api/v1/studies/inside%2Fwrong.riff", "/api/v1/schemas/..%2fstudy", "/api/v1/schemas/study.schema.json", "/service/settings.py",
    "/%2Fetc%2Fpasswd",
    "/api/v1/studies/~/export/midi", "/\ud83c\udfb8".encode("utf-16", "surrogatepass").decode("utf-16"),
])  # fmt: skip
def test_what_is_not_there_is_not_found(client: TestClient, path: str) -> None:
    is_problem(client.get(path), 404, "not-found")


@pytest.mark.parametrize(("method", "path", "allowed"), [
    ("GET", "check", "POST"), ("DELETE", "check", "POST"), ("PUT", "studies", "GET"), ("OPTIONS", "view", "POST"), ("TRACE", "events",
    "GET"),
    ("PATCH", "export/midi", "POST"), ("POST", "health", "GET"), ("BREW", "check", "POST"),
])  # fmt: skip
def test_another_method_is_refused(client: TestClient, method: str, path: str, allowed: str) -> None:
    response = client.request(method, f"{PREFIX}/{path}")
    is_problem(response, 405, "wrong-method")
    assert response.headers["allow"] == allowed


def test_the_page_is_only_read(client: TestClient) -> None:
    response = client.post("/")
    is_problem(response, 405, "wrong-method")
    assert response.headers["allow"] == "GET, HEAD"


@pytest.mark.parametrize("path", ["export/midi", "play", "tidy", "explain"])
def test_a_study_with_errors_is_told_with_its_diagnostics(client: TestClient, path: str) -> None:
    told = is_problem(client.post(f"{PREFIX}/{path}", json={"text": WRONG[:-3] + "(\n" if path == "tidy" else WRONG}), 422, "study-errors")
    assert told["errors"] == sum(each["severity"] == "error" for each in told["diagnostics"]) > 0


def test_what_has_not_changed_is_not_sent_again(client: TestClient) -> None:
    known = client.get(f"{PREFIX}/studies").json()["studies"][1]["id"]
    for path in ("/", f"{PREFIX}/studies", f"{PREFIX}/studies/{known}", f"{PREFIX}/studies/{known}/export/midi", f"{PREFIX}/schemas/study"):
        first = client.get(path)
        assert first.status_code == 200, path
        tag = first.headers["etag"]
        for given in (tag, f'"other", W/{tag}', "*"):
            again = client.get(path, headers={"If-None-Match": given})
            assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", tag)
        assert client.get(path, headers={"If-None-Match": '"other"'}).content == first.content


def test_a_post_that_would_make_the_same_fails_its_precondition(client: TestClient) -> None:
    """RFC 9110, section 13.1.2: 304 is for GET and HEAD, any other method answers 412."""
    first = client.post(f"{PREFIX}/export/midi", json={"text": SMALL})
    again = client.post(f"{PREFIX}/export/midi", json={"text": SMALL}, headers={"If-None-Match": first.headers["etag"]})
    is_problem(again, 412, "unchanged")
    assert again.headers["etag"] == first.headers["etag"]
    other = client.post(f"{PREFIX}/export/midi", json={"text": SMALL.replace("100", "101")},
    headers={"If-None-Match": first.headers["etag"]})
    assert other.status_code == 200 and other.headers["etag"] != first.headers["etag"]


def test_a_head_is_a_get_without_its_body(client: TestClient) -> None:
    for path in ("/", f"{PREFIX}/schemas/study", f"{PREFIX}/health"):
        whole, head = client.get(path), client.head(path)
        assert (head.status_code, head.content) == (200, b"")
        assert head.headers["content-length"] == str(len(whole.content))
    assert client.head(f"{PREFIX}/nowhere").status_code == 404


def test_kinds_have_names_of_their_own() -> None:
    assert len({kind.name for kind in KINDS}) == len(KINDS)
    assert all(400 <= kind.status < 600 and kind.title for kind in KINDS)
