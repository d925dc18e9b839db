"""Noticing that the watched folder has changed. The folder is watched, not its files: editors put a new file in an old one's place."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Final

from tabforge.service.events import Events
from tabforge.service.folder import Folder

STEP_MS: Final = 10
"""A change is told when nothing has changed for so long …"""

DEBOUNCE_MS: Final = 200
"""… and in any case after so long."""

_QUIET_MS: Final = 500
"""The first time nothing has changed for so long, the folder is looked at once more."""

_RETRY_SECONDS: Final = 2.0


async def watch(folder: Folder, events: Events, trouble: Callable[[str], None]) -> None:
    """Scan the folder whenever something in it changes, until cancelled. ``trouble`` is told what keeps it from being watched."""
    from watchfiles import awatch  # noqa: PLC0415

    while True:
        try:
            events.update(await asyncio.to_thread(folder.scan, events.studies))
            settled = False
            async for changes in awatch(
                folder.root, watch_filter=None, step=STEP_MS, debounce=DEBOUNCE_MS, rust_timeout=_QUIET_MS, yield_on_timeout=True
            ):
                if changes or not settled:  # what was saved after the first scan and before the watch began is told by nobody
                    events.update(await asyncio.to_thread(folder.scan, events.studies))
                settled = settled or not changes
        except (OSError, RuntimeError) as error:  # the folder is gone, or the system watches enough already: look from time to time
            trouble(f"the folder cannot be watched: {error}")
        await asyncio.sleep(_RETRY_SECONDS)
