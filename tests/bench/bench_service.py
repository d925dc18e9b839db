"""What the service costs: requests a second with one and two processes, and from saving a study to its view.

Requests: eight clients post a study of sixteen bars, each time another comment in it, so that nothing is answered from memory.
Saving: a file of a watched folder is replaced; the event is waited for, and the view asked for at once, as the page does. "noticed" is
from the file to the event, "compile" and "engrave" are what the service itself says (Server-Timing), "deliver" is all the rest of the
view's way: the other texts, the process, HTTP, JSON. Milliseconds: median and 95th percentile. Run it:
``python -m tests.bench.bench_service``.
"""

from __future__ import annotations

import json
import random
import statistics
import tempfile
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import httpx2

from tabforge.service.settings import PREFIX
from tests.service.conftest import start

CLIENTS = 8
SECONDS = 4.0
SAVES = 25
BARS = ("e e e e e e q", "q e e q s s s s", "e q e h", "q e e e e q")


def study(bars: int, seed: int) -> str:
    """A riff of so many bars, its degrees at random."""
    pick = random.Random(seed)
    lines = ["title Bench", "scale A2 dorian", "tempo 96", "", 'riff "Bench"']
    for first in range(0, bars, 4):
        rhythm = [pick.choice(BARS) for _ in range(min(4, bars - first))]
        degrees = [" ".join(str(pick.randint(1, 12)) for _ in bar.split()) for bar in rhythm]
        lines += ["  rhythm   " + " | ".join(rhythm), "  degrees  " + " | ".join(degrees), ""]
    return "\n".join(lines)


def rate(address: str, path: str) -> float:
    """Requests a second of a path."""
    text = study(16, 1)
    counts = [0] * CLIENTS
    together = threading.Barrier(CLIENTS)

    def use(number: int) -> None:
        with httpx2.Client(base_url=f"{address}{PREFIX}", timeout=30, verify=False) as client:
            together.wait()
            until = time.perf_counter() + SECONDS
            while time.perf_counter() < until:
                client.post(path, json={"text": f"{text}\n// {path} {number} {counts[number]}"}).raise_for_status()
                counts[number] += 1

    clients = [threading.Thread(target=use, args=(number,)) for number in range(CLIENTS)]
    for each in clients:
        each.start()
    for each in clients:
        each.join()
    return sum(counts) / SECONDS


def requests() -> None:
    """Print requests a second."""
    for workers in (1, 2):
        running = start("--quiet", "--workers", str(workers))
        told = "  ".join(f"{path} {rate(running.address, path):.0f}" for path in ("/check", "/export/musicxml", "/export/midi"))
        print(f"{workers} process{'es' if workers > 1 else ''}, requests a second: {told}")
        running.end()


def told(lines: Iterator[str]) -> dict[str, str]:
    """The next event of a study."""
    for line in lines:
        if line == "event: study":
            found: dict[str, str] = json.loads(next(lines).removeprefix("data: "))
            return found
    raise AssertionError("the stream has ended")


def save(bars: int) -> None:
    """Print how long a save takes to be a view."""
    spent: dict[str, list[float]] = {}
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "bench.riff")
        running = start(folder, "--quiet", "--workers", "1")
        with (
            httpx2.Client(base_url=f"{running.address}{PREFIX}", timeout=30) as client,
            client.stream("GET", "/events") as stream,
            httpx2.Client(base_url=f"{running.address}{PREFIX}", timeout=30) as viewer,
        ):
            lines = stream.iter_lines()
            viewer.get("/health")
            for number in range(SAVES):
                beside = path.with_suffix(".part")
                beside.write_text(study(bars, number))
                began = time.perf_counter()
                beside.replace(path)
                known = told(lines)["id"]
                noticed = time.perf_counter()
                response = viewer.post("/view", json={"study": known}).raise_for_status()
                whole = time.perf_counter()
                timing = (each.partition(";dur=") for each in response.headers["server-timing"].split(", "))
                parts = {name: float(duration) for name, _, duration in timing}
                row = {"noticed": (noticed - began) * 1e3, "compile": parts["compile"], "engrave": parts["engrave"]}
                row["whole"] = (whole - began) * 1e3
                row["deliver"] = row["whole"] - row["noticed"] - row["compile"] - row["engrave"]
                for name, value in row.items():
                    spent.setdefault(name, []).append(value)
                time.sleep(0.1)
        running.end()
    said = "  ".join(f"{name} {statistics.median(each):.0f} ({statistics.quantiles(each, n=20)[-1]:.0f})" for name, each in spent.items())
    print(f"{bars} bars, from saving to the view, ms: {said}")


if __name__ == "__main__":
    save(16)
    save(200)
    requests()
