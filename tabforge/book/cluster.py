"""Workers of a Dask cluster, reached by the address of its scheduler. The extra ``dask`` brings what talks to it, distributed."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from typing import Any, Final

from tabforge.book.running import Crew

HOW_TO_INSTALL: Final = "A cluster needs distributed. Install with: pip install 'tabforge[dask]'"

PATIENCE: Final = 10
"""Seconds to wait for a scheduler, and for its first worker."""

_AHEAD: Final = 4
"""Tasks given out for each thread of the cluster."""


class NoClusterError(Exception):
    """There is no cluster to be had; the text says why."""


@contextmanager
def crew_at(address: str) -> Iterator[Crew]:
    """The workers of the cluster at an address, until the context is left. Raises NoClusterError.

    A worker that dies is the scheduler's business: it gives its tasks to others, and only if several die of one task is that told.
    Workers need the same tabforge and the same libraries (``working.StrangerError``).
    """
    try:
        distributed: Any = import_module("distributed")  # the extra's, slow to load, and half without types
    except ImportError as error:
        raise NoClusterError(HOW_TO_INSTALL) from error
    try:
        client = distributed.Client(address, timeout=PATIENCE, set_as_default=False)
    except (OSError, ValueError) as error:  # a timeout is an OSError
        raise NoClusterError(f"There is no cluster at {address}: {str(error).rstrip('.') or type(error).__name__}.") from error

    class Hired(distributed.cfexecutor.ClientExecutor):  # type: ignore[misc]  # it is half without types
        def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
            """As Executor has it, which the class above has not; there is nothing to do once the cluster has gone."""
            if client.status == "running":
                super().shutdown(wait=wait and not cancel_futures)

    def look() -> None:
        if client.status not in ("running", "connecting"):
            raise NoClusterError(f"The cluster at {address} has gone away. What was made is kept for the next build.")

    try:
        try:
            client.wait_for_workers(1, timeout=PATIENCE)
        except TimeoutError as error:
            raise NoClusterError(f"The cluster at {address} has no workers.") from error
        threads = sum(client.nthreads().values())
        yield Crew(hire=lambda: Hired(client), width=threads * _AHEAD, deaths=(distributed.KilledWorker,), look=look)
    finally:
        client.close()
