"""Who may ask: this machine's own page and programs, whoever brings the token, and nobody's page elsewhere."""

from __future__ import annotations

from collections.abc import Iterator
from http.cookies import SimpleCookie

import pytest
from starlette.testclient import TestClient

from tabforge.service.app import create_app
from tabforge.service.guards.crossing import is_loopback
from tabforge.service.settings import PREFIX, Config
from tests.service.answers import is_problem
from tests.service.conftest import BASE, SMALL

STUDIES = f"{PREFIX}/studies"
TOKEN = "a-token-of-24-characters"


@pytest.mark.parametrize("host", [
    "tabforge.example", "127.0.0.1.example", "localhost.example", "localhost@example", "192.0.2.7", "", "127.0.0.1:8765/",
    "127.0.0.1:http", "[::1", "example#127.0.0.1",
])  # fmt: skip
def test_another_host_is_refused(client: TestClient, host: str) -> None:
    """A name that was pointed at this machine: DNS rebinding."""
    for path in ("/", STUDIES, f"{PREFIX}/openapi.json"):
        is_problem(client.get(path, headers={"Host": host}), 403, "cross-site")


@pytest.mark.parametrize("host", ["127.0.0.1:8765", "localhost", "LOCALHOST:1234", "[::1]:8765", "localhost.", "127.1.2.3"])
def test_a_name_of_this_machine_is_not(client: TestClient, host: str) -> None:
    assert client.get(STUDIES, headers={"Host": host}).status_code == 200


@pytest.mark.parametrize("origin", [
    "http://tabforge.example", "null", "http://127.0.0.1", "http://127.0.0.1:9999", "http://localhost:8765",
    "https://127.0.0.1.example:8765", "file://", "", "127.0.0.1:8765",
])  # fmt: skip
def test_another_origin_is_refused(client: TestClient, origin: str) -> None:
    is_problem(client.post(f"{PREFIX}/check", json={"text": SMALL}, headers={"Origin": origin}), 403, "cross-site")
    is_problem(client.get(STUDIES, headers={"Origin": origin}), 403, "cross-site")


def test_its_own_origin_is_not(client: TestClient) -> None:
    assert client.post(f"{PREFIX}/check", json={"text": SMALL}, headers={"Origin": BASE}).status_code == 200


def test_no_other_site_is_ever_allowed(client: TestClient) -> None:
    """CORS is off: no preflight is answered, no answer is shared."""
    asked = {"Origin": "http://tabforge.example", "Access-Control-Request-Method": "POST"}
    for response in (client.options(f"{PREFIX}/check", headers=asked), client.options(f"{PREFIX}/check", headers={**asked,
    "Origin": BASE}), client.get(STUDIES)):
        assert not [name for name in response.headers if name.startswith("access-control")]


@pytest.mark.parametrize("site", ["cross-site", "same-site", "nonsense"])
def test_a_browser_that_tells_of_another_site_is_refused(client: TestClient, site: str) -> None:
    is_problem(client.get(STUDIES, headers={"Sec-Fetch-Site": site}), 403, "cross-site")
    is_problem(client.get(STUDIES, headers={"Sec-Fetch-Site": site, "Sec-Fetch-Mode": "navigate"}), 403, "cross-site")
    assert client.get("/", headers={"Sec-Fetch-Site": site, "Sec-Fetch-Mode": "navigate"}).status_code == 200  # a link to the page
    is_problem(client.post("/", headers={"Sec-Fetch-Site": site, "Sec-Fetch-Mode": "navigate"}), 403, "cross-site")
    is_problem(client.get("/", headers={"Sec-Fetch-Site": site, "Sec-Fetch-Mode": "no-cors"}), 403, "cross-site")


def test_every_answer_has_the_headers_of_safety(client: TestClient) -> None:
    """What the page may load, and who may frame it: Content Security Policy Level 3; nosniff: Fetch Standard."""
    for response in (client.get("/"), client.get(STUDIES), client.get("/nowhere"), client.get("/", headers={"Host": "example"})):
        policy = dict(each.split(" ", 1) for each in response.headers["content-security-policy"].split("; "))
        assert policy["default-src"] == "'none'" and policy["frame-ancestors"] == "'none'"
        assert policy["script-src"] == policy["style-src"] == policy["connect-src"] == "'self'"
        assert response.headers["x-content-type-options"] == "nosniff"
        assert response.headers["referrer-policy"] == "no-referrer"
        assert "server" not in response.headers


@pytest.fixture(scope="module")
def guarded() -> Iterator[TestClient]:
    app = create_app(Config(token=TOKEN, workers=1, quiet=True))
    with TestClient(app, base_url=BASE) as made:
        yield made


@pytest.mark.parametrize("given", [
    {}, {"Authorization": TOKEN}, {"Authorization": "Bearer"}, {"Authorization": f"Bearer {TOKEN}x"}, {"Authorization": f"Basic {TOKEN}"},
    {"Cookie": f"tabforge-8765={TOKEN}"}, {"Cookie": "tabforge-8765="}, {"Cookie": ";;=;"}, {"Authorization": b"Bearer \xff\xfe"},
], ids=str)  # fmt: skip
def test_without_the_token_nothing_is_answered(guarded: TestClient, given: dict[str, str]) -> None:
    response = guarded.get(STUDIES, headers=given)
    is_problem(response, 401, "token-wanted")
    assert response.headers["www-authenticate"].startswith("Bearer")
    is_problem(guarded.post(f"{PREFIX}/session", headers=given), 401)
    is_problem(guarded.get(f"{PREFIX}/openapi.json", headers=given), 401)
    assert guarded.get(f"{PREFIX}/health", headers=given).status_code == 200
    assert guarded.get("/", headers=given).status_code == 200


def test_with_it_everything_is(guarded: TestClient) -> None:
    bearer = {"Authorization": f"Bearer {TOKEN}"}
    assert guarded.get(STUDIES, headers=bearer).status_code == 200
    response = guarded.post(f"{PREFIX}/session", headers=bearer)
    assert response.status_code == 204
    (cookie,) = SimpleCookie(response.headers["set-cookie"]).values()
    assert cookie["httponly"] and cookie["samesite"] == "Strict" and TOKEN not in cookie.value
    guarded.cookies.clear()
    assert guarded.get(STUDIES, headers={"Cookie": f"{cookie.key}={cookie.value}"}).status_code == 200
    is_problem(guarded.get(STUDIES, headers={"Cookie": f"{cookie.key}={cookie.value}", "Origin": "http://tabforge.example"}), 403)
    security = guarded.get(f"{PREFIX}/openapi.json", headers=bearer).json()["security"]
    assert {"token": []} in security


def test_a_service_for_others_knows_its_names() -> None:
    app = create_app(Config(host="0.0.0.0", token=TOKEN, names=("Studies.Example",), workers=1, quiet=True))
    plain = TestClient(app, base_url="http://192.0.2.7:8765")
    assert plain.get("/").status_code == 200
    assert plain.get("/", headers={"Host": "studies.example"}).status_code == 200
    assert plain.get("/", headers={"Host": "studies.example", "Origin": "https://studies.example"}).status_code == 200
    is_problem(plain.get("/", headers={"Host": "other.example"}), 403, "cross-site")


@pytest.mark.parametrize(("host", "is_one"), [
    ("127.0.0.1", True), ("127.9.9.9", True), ("::1", True), ("[::1]", True), ("localhost", True), ("0.0.0.0", False), ("::", False),
    ("192.168.1.4", False), ("localhost.lan", False),
])  # fmt: skip
def test_what_is_loopback(host: str, is_one: bool) -> None:
    assert is_loopback(host) is is_one  # RFC 1122, section 3.2.1.3; RFC 4291, section 2.5.3; RFC 6761, section 6.3
