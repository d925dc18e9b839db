"""What happens on the wire: slow clients, what is no HTTP, streams of events, and how the service ends."""

from __future__ import annotations

import json
import signal
import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx2
import pytest

from tabforge.service.protocol import protocol_for
from tabforge.service.settings import BODY_SECONDS, HEAD_SECONDS, PREFIX, Config
from tests.service.answers import is_problem
from tests.service.conftest import SMALL, Running, start
from tests.service.inside import Inside


def exchanged(port: int, *pieces: bytes, pause: float = 0.0, patience: float = 5.0) -> bytes:
    """What a server says to bytes that are sent piece by piece."""
    with socket.create_connection(("127.0.0.1", port), timeout=patience) as wire:
        for piece in pieces:
            try:
                wire.sendall(piece)
            except OSError:
                break
            time.sleep(pause)
        said = b""
        try:
            while chunk := wire.recv(65536):
                said += chunk
        except OSError:
            pass
        return said


def head(path: str = "check", length: int = 100) -> bytes:
    lines = (f"POST {PREFIX}/{path} HTTP/1.1", "Host: 127.0.0.1", "Content-Type: application/json", f"Content-Length: {length}", "", "")
    return "\r\n".join(lines).encode()


def parsed(said: bytes) -> tuple[int, dict[str, Any]]:
    first, _, rest = said.partition(b"\r\n")
    return int(first.split()[1]), json.loads(rest.split(b"\r\n\r\n", 1)[1])


@pytest.fixture(scope="module")
def hasty() -> Iterator[Inside]:
    """A service that waits for nobody longer than a moment."""
    with Inside(Config(body_seconds=0.5, head_seconds=0.7, ping_seconds=0.2, max_listeners=3, workers=1, quiet=True)) as made:
        yield made


def test_a_body_that_drips_is_cut_off(hasty: Inside) -> None:
    began = time.monotonic()
    status, told = parsed(exchanged(hasty.port, head(), *[b"x"] * 20, pause=0.1))
    assert (status, told["type"]) == (408, "urn:tabforge:problem:slow-body")
    assert time.monotonic() - began < 5


def test_a_body_that_never_comes_is_cut_off(hasty: Inside) -> None:
    assert parsed(exchanged(hasty.port, head()))[0] == 408


def test_a_head_that_drips_is_cut_off(hasty: Inside) -> None:
    began = time.monotonic()
    assert exchanged(hasty.port, b"GET / HTTP/1.1\r\n", *[b"X-A: b\r\n"] * 30, pause=0.1) == b""
    assert time.monotonic() - began < 5
    assert exchanged(hasty.port) == b""
    first = b"GET /api/v1/health HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"
    assert exchanged(hasty.port, first, b"GET / HTTP/1.1\r\n", *[b"X-A: b\r\n"] * 30, pause=0.1).count(b"HTTP/1.1 ") == 1


def test_the_usual_times_are_those_of_the_settings() -> None:
    assert (Config().body_seconds, Config().head_seconds) == (BODY_SECONDS, HEAD_SECONDS)
    assert protocol_for(1.0) is not None


@pytest.mark.parametrize("sent", [
    b"nonsense\r\n\r\n", b"GET / HTTP/1.1\r\nHost\r\n\r\n", b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" * 9 + b"\r\n\r\n",
    b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Long: " + b"x" * 1_000_000 + b"\r\n\r\n", b"GET /" + b"x" * 1_000_000 + b" HTTP/1.1\r\n\r\n",
    b"POST /api/v1/check HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: -5\r\n\r\n", b"GET / HTTP/1.1\r\n\r\n",
    b"POST /api/v1/check HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\n12345",
    b"POST /api/v1/check HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: chunked\r\nContent-Type: application/json\r\n\r\nzz\r\n",
], ids=lambda sent: repr(sent[:30]))  # fmt: skip
def test_what_is_no_http_is_malformed(hasty: Inside, sent: bytes) -> None:
    status, told = parsed(exchanged(hasty.port, sent))
    assert (status, told["status"], told["type"]) == (400, 400, "urn:tabforge:problem:malformed")


def test_two_hosts_are_no_host(hasty: Inside) -> None:
    assert b" 400 " in exchanged(hasty.port, b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nHost: example\r\n\r\n").split(b"\r\n")[0]


def test_a_body_is_refused_by_its_length_before_it_comes(hasty: Inside) -> None:
    began = time.monotonic()
    status, told = parsed(exchanged(hasty.port, head(length=10**9)))
    assert (status, told["type"]) == (413, "urn:tabforge:problem:too-large")
    assert time.monotonic() - began < 5
    assert parsed(exchanged(hasty.port, head(length=10**30)))[0] == 400


def test_listeners_are_pinged_and_not_too_many(hasty: Inside) -> None:
    with httpx2.Client(base_url=hasty.address) as client:
        streams = [client.stream("GET", f"{PREFIX}/events") for _ in range(3)]
        lines = [stream.__enter__().iter_lines() for stream in streams]
        for each in lines:
            assert [next(each) for _ in range(3)] == ["retry: 1000", "", "event: studies"]
        response = client.get(f"{PREFIX}/events")
        is_problem(response, 503, "too-busy")
        assert response.headers["retry-after"]
        assert "event: ping" in [next(lines[0]) for _ in range(6)]
        for stream in streams:
            stream.__exit__(None, None, None)
        until = time.monotonic() + 5
        while hasty.service.events._listeners and time.monotonic() < until:
            time.sleep(0.05)
        assert not hasty.service.events._listeners, "those that have left are forgotten"


def _listening(running: Running, told: list[str], ready: threading.Event) -> None:
    with httpx2.stream("GET", f"{running.address}{PREFIX}/events", timeout=30) as response:
        for line in response.iter_lines():
            told.append(line)
            ready.set()


@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM])
def test_it_ends_at_once_and_cleanly(running: Running, how: int) -> None:
    told: list[str] = []
    ready = threading.Event()
    listener = threading.Thread(target=_listening, args=(running, told, ready))
    listener.start()
    assert ready.wait(10)
    assert httpx2.post(f"{running.address}{PREFIX}/check", json={"text": SMALL}).status_code == 200
    began = time.monotonic()
    code, out, err = running.end(how)
    assert time.monotonic() - began < 3
    listener.join(5)
    assert not listener.is_alive()
    assert (code, out) == (0, "")
    lines = [json.loads(line) for line in err.splitlines()]
    requests = [line for line in lines if line["event"] == "request"]
    assert lines == requests and {line["path"] for line in requests} == {f"{PREFIX}/check", f"{PREFIX}/events"}
    check = next(line for line in requests if line["path"].endswith("check"))
    assert (check["method"], check["status"]) == ("POST", 200) and check["milliseconds"] >= 0 and check["bytes"] > 0
    assert "Small" not in err, "nothing of a body is in the log"


def test_a_request_that_is_being_answered_is_answered(running: Running) -> None:
    answers: list[int] = []
    text = "scale A2 minor\nriff\n  rhythm e e e e e e e e\n  degrees 1 2 3 4 5 6 7 8 | %*199\n"

    def ask() -> None:
        answers.append(httpx2.post(f"{running.address}{PREFIX}/view", json={"text": text}, timeout=30).status_code)

    asking = threading.Thread(target=ask)
    asking.start()
    time.sleep(0.4)
    running.end()
    asking.join(20)
    assert answers == [200]


def test_saving_is_told_at_once(running: Running, tmp_path: Path) -> None:
    told: list[str] = []
    ready = threading.Event()
    listener = threading.Thread(target=_listening, args=(running, told, ready), daemon=True)
    listener.start()
    assert ready.wait(10)

    def wait_for(event: str) -> dict[str, Any]:
        until = time.monotonic() + 10
        while time.monotonic() < until:
            for at, line in enumerate(told[:-1]):
                if line == f"event: {event}" and told[at + 1].startswith("data: "):
                    found: dict[str, Any] = json.loads(told[at + 1].removeprefix("data: "))
                    del told[: at + 2]
                    return found
            time.sleep(0.02)
        raise AssertionError(f"no {event} in {told}")

    assert wait_for("studies") == {"studies": []}
    path = tmp_path / "lantern.riff"
    path.write_text(SMALL)
    first = wait_for("study")
    assert first["name"] == "lantern.riff"
    other = tmp_path / ".lantern.riff.swp"  # as editors save: beside, then in its place
    other.write_text(SMALL + "// more\n")
    other.replace(path)
    second = wait_for("study")
    assert second["id"] == first["id"] and second["revision"] != first["revision"]
    assert httpx2.get(f"{running.address}{PREFIX}/studies/{first['id']}").json()["text"].endswith("// more\n")
    path.unlink()
    assert wait_for("gone") == {"id": first["id"], "name": "lantern.riff"}
    is_problem(httpx2.get(f"{running.address}{PREFIX}/studies/{first['id']}"), 404)


def test_a_token_is_in_the_link() -> None:
    running = start("--token", "0123456789abcdef")
    try:
        is_problem(httpx2.get(f"{running.address}{PREFIX}/studies"), 401)
        assert httpx2.get(f"{running.address}{PREFIX}/studies", headers={"Authorization": "Bearer 0123456789abcdef"}).status_code == 200
    finally:
        _, _, err = running.end()
    assert "0123456789abcdef" not in err
