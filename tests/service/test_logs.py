"""The log: a line for each request, and no request waits for whoever reads it."""

from __future__ import annotations

import fcntl
import io
import json
import os
import sys
import threading
import time
from typing import Any

import httpx2
import pytest

from tabforge.service.logbook import MOST_LINES, Log
from tabforge.service.settings import PREFIX
from tests.service.conftest import start


class Pipe:
    """Standard error as a pipe that nobody reads until ``read`` is called."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self._read, write = os.pipe()
        self.file = os.fdopen(write, "w")
        monkeypatch.setattr(sys, "stderr", self.file)

    def lines(self) -> list[Any]:
        """Everything that was written; then the pipe is closed."""
        found = bytearray()

        def read() -> None:
            while chunk := os.read(self._read, 65536):
                found.extend(chunk)

        reader = threading.Thread(target=read)
        reader.start()
        return_at = time.monotonic() + 10
        while time.monotonic() < return_at and (not found or not found.endswith(b"\n")):
            time.sleep(0.02)
        time.sleep(0.2)
        self.file.close()
        reader.join(10)
        os.close(self._read)
        return [json.loads(line) for line in found.decode().splitlines()]


def test_nobody_reads_the_log_and_the_service_goes_on() -> None:
    running = start()
    try:
        assert running.process.stderr is not None
        fcntl.fcntl(running.process.stderr.fileno(), fcntl.F_SETPIPE_SZ, 4096)  # so that it is full soon
        with httpx2.Client(base_url=running.address, timeout=10) as client:
            for number in range(100):
                assert client.get(f"{PREFIX}/nowhere-{number}-{'x' * 150}").status_code == 404
            assert client.get(f"{PREFIX}/health").json()["ok"]
        running.process.send_signal(2)
        assert running.process.wait(10) == 0, "it ends, though its last lines cannot be written"
    finally:
        running.process.kill()
        running.process.communicate()


def test_lines_beyond_the_most_are_counted_instead(monkeypatch: pytest.MonkeyPatch) -> None:
    pipe = Pipe(monkeypatch)
    log = Log()
    log.write("first", filling="x" * 2**20)  # more than a pipe holds
    time.sleep(0.1)
    began = time.monotonic()
    for number in range(MOST_LINES + 50):
        log.write("next", number=number)
    log.end(0.1)
    assert time.monotonic() - began < 5, "nothing waits for the reader"
    told = pipe.lines()
    assert [each["event"] for each in told] == ["first", *["next"] * MOST_LINES, "lost"]
    assert [each["number"] for each in told[1:-1]] == list(range(MOST_LINES))
    assert told[-1]["lines"] == 50


def test_what_was_said_is_written_before_the_end(monkeypatch: pytest.MonkeyPatch) -> None:
    said = io.StringIO()  # has no file of the system
    monkeypatch.setattr(sys, "stderr", said)
    log = Log()
    for number in range(20):
        log.write("x", number=number)
    log.end(5)
    assert [json.loads(line)["number"] for line in said.getvalue().splitlines()] == list(range(20))


def test_a_log_that_is_closed_at_the_other_end_is_no_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    read, write = os.pipe()
    os.close(read)
    with os.fdopen(write, "w") as file:
        monkeypatch.setattr(sys, "stderr", file)
        log = Log()
        log.write("x")
        log.end(5)
        log.write("y")
        log.end(5)
