"""Many clients at once: none is refused or answered wrongly, and memory stays bounded."""

from __future__ import annotations

import json
import random
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path

import httpx2
import pytest

from tabforge.service.settings import PREFIX
from tests.service.conftest import ROOT, start

CLIENTS = 50
GROWTH_MB = 150
"""What a service may need more at the end than when it had answered everybody once: half of it are the answers that it keeps."""

STUDIES = [path.read_text() for path in sorted((ROOT / "examples").glob("*.riff"))[:6]]


@dataclass
class Seen:
    """What clients have seen."""

    done: int = 0
    failed: list[str] = field(default_factory=list)
    peak_mb: list[float] = field(default_factory=list)
    lock: threading.Lock = field(default_factory=threading.Lock)


def memory(pid: int) -> float:
    """Megabytes of a process and those it has started (Linux, proc(5): VmRSS)."""

    def own(each: int) -> float:
        try:
            lines = Path(f"/proc/{each}/status").read_text().splitlines()
        except OSError:
            return 0.0
        return next((int(line.split()[1]) / 1024 for line in lines if line.startswith("VmRSS")), 0.0)

    try:
        children = [int(each) for path in Path(f"/proc/{pid}/task").glob("*/children") for each in path.read_text().split()]
    except OSError:
        children = []
    return own(pid) + sum(map(own, children))


def use(address: str, seconds: float, seed: int, seen: Seen, together: threading.Barrier) -> None:
    """One client: views, checks, exports and listings by chance, most of what it sends unlike any other's. It asks at least once."""
    chance = random.Random(seed)
    with httpx2.Client(base_url=f"{address}{PREFIX}", timeout=60, verify=False) as client:
        together.wait(60)
        until = time.monotonic() + seconds
        while True:
            text = f"{chance.choice(STUDIES)}\n// {chance.randrange(10_000)}\n"
            path = chance.choice(["check", "check", "export/musicxml", "export/midi", "view", "play", "studies"])
            try:
                response = client.get("/studies") if path == "studies" else client.post(f"/{path}", json={"text": text})
                wrong = "" if response.status_code == 200 else f"{path}: {response.status_code} {response.text[:200]}"
            except httpx2.HTTPError as error:
                wrong = f"{path}: {error!r}"
            with seen.lock:
                seen.done += 1
                if wrong:
                    seen.failed.append(wrong)
            if time.monotonic() > until:
                return


def load(seconds: float) -> Seen:
    running = start(str(ROOT / "examples"), "--workers", "2")
    drain = threading.Thread(target=lambda: [None for _ in running.process.stderr or ()], daemon=True)
    drain.start()
    seen, together = Seen(), threading.Barrier(CLIENTS)
    try:
        clients = [threading.Thread(target=use, args=(running.address, seconds, seed, seen, together)) for seed in range(CLIENTS)]
        for each in clients:
            each.start()
        while any(each.is_alive() for each in clients):
            time.sleep(0.5)
            seen.peak_mb.append(memory(running.process.pid))
        health = httpx2.get(f"{running.address}{PREFIX}/health").json()
        assert health == {"ok": True, "waiting": 0}
    finally:
        running.process.send_signal(2)
        running.process.wait(20)
        drain.join()
        for stream in (running.process.stdout, running.process.stderr):
            if stream is not None:
                stream.close()
    return seen


def judged(seen: Seen) -> None:
    assert not seen.failed, json.dumps(seen.failed[:5])
    quarter = max(1, len(seen.peak_mb) // 4)
    assert max(seen.peak_mb) < max(seen.peak_mb[:quarter]) + GROWTH_MB, seen.peak_mb


def test_fifty_clients_for_some_seconds() -> None:
    seen = load(3)
    assert seen.done >= CLIENTS
    judged(seen)


@pytest.mark.long
def test_fifty_clients_for_a_minute() -> None:
    seen = load(60)
    assert seen.done > 20 * CLIENTS
    judged(seen)
    print(f"{seen.done} requests, {max(seen.peak_mb):.0f} MB at most")
