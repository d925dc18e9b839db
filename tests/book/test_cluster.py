"""A real cluster on this machine: a scheduler and two worker processes, one of them killed while it works."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tabforge.book import running
from tabforge.book.cluster import NoClusterError, crew_at
from tests.book import dying
from tests.book.trial_book import Desk, job

distributed = pytest.importorskip("distributed", reason="distributed is not installed (the extra dask)")
pytestmark = pytest.mark.filterwarnings("default")  # what the cluster's own libraries warn of


@pytest.fixture
def cluster() -> Iterator[Any]:
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, memory_limit=0) as found:
        yield found


def test_two_workers_one_of_them_killed_midway(cluster: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(running, "work", dying.slowly)
    alone = Desk(tmp_path / "alone")
    wanted = alone.build(job())
    desk = Desk(tmp_path / "cluster")
    victims = [worker.pid for worker in cluster.workers.values() if worker.pid]
    assert len(victims) == 2
    workers: set[str] = set()
    killed: list[int] = []
    made = desk.store.put

    def put(key: str, entry: bytes) -> None:
        made(key, entry)
        if not killed:
            killed.append(victims[0])
            workers.update(cluster.scheduler_info["workers"])
            os.kill(victims[0], signal.SIGKILL)

    monkeypatch.setattr(desk.store, "put", put)
    with crew_at(cluster.scheduler_address) as crew:
        assert crew.width >= 2
        assert desk.build(job(), crew) == wanted
    assert (len(workers), killed) == (2, victims[:1])
    assert len(desk.made) == 7
    assert list(desk.records.items()) == list(alone.records.items())


def test_a_cluster_that_goes_away_is_told_and_what_it_made_is_kept(cluster: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(running, "work", dying.slowly)
    monkeypatch.setattr(running, "LOOKS", 0.5)
    desk = Desk(tmp_path)
    made, kept = desk.store.put, []

    def put(key: str, entry: bytes) -> None:
        made(key, entry)
        kept.append(key)
        if len(kept) == 2:
            cluster.close(timeout=2)

    monkeypatch.setattr(desk.store, "put", put)
    monkeypatch.setattr("tabforge.book.cluster.PATIENCE", 3)
    with pytest.raises(NoClusterError, match=r"has gone away\. What was made is kept"), crew_at(cluster.scheduler_address) as crew:
        desk.build(job(), crew)
    there = len(kept)
    assert 2 <= there < 7
    assert desk.build(job()) is not None
    assert len(desk.made) == 7 - there


def test_no_cluster_at_an_address(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tabforge.book.cluster.PATIENCE", 1)
    with pytest.raises(NoClusterError, match=r"There is no cluster at tcp://127\.0\.0\.1:9: "), crew_at("tcp://127.0.0.1:9"):
        pass
    with pytest.raises(NoClusterError, match="There is no cluster at lantern://x"), crew_at("lantern://x"):
        pass


def test_without_the_extra_it_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "distributed", None)
    with pytest.raises(NoClusterError, match=r"pip install 'tabforge\[dask\]'"), crew_at("tcp://127.0.0.1:9"):
        pass
