"""Serving: what ``tabforge serve`` does with its arguments."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Final, NamedTuple

from tabforge.cli.exits import Exits
from tabforge.cli.screen import fail, reason, say
from tabforge.cli.studies import shown

_NEEDS: Final = ("fastapi", "uvicorn", "watchfiles")
_INSTALL: Final = "pip install 'tabforge[service]'"


class Asked(NamedTuple):
    """What the command line asks for."""

    folder: Path | None
    port: int
    host: str
    token: str | None
    names: tuple[str, ...]
    workers: int | None
    quiet: bool


def serve(asked: Asked) -> Exits:
    """Serve until Ctrl-C."""
    from importlib.util import find_spec  # noqa: PLC0415  # only this command looks

    lacking = [each for each in _NEEDS if find_spec(each) is None]
    if lacking:
        fail(f"The service needs {' and '.join(lacking)}. Install with: {_INSTALL}", Exits.USAGE)
    from tabforge.service.crew import usual_workers  # noqa: PLC0415  # needs the extra, and is slow to load
    from tabforge.service.guards.crossing import is_loopback  # noqa: PLC0415
    from tabforge.service.server import listen, run  # noqa: PLC0415
    from tabforge.service.settings import MIN_TOKEN, Config  # noqa: PLC0415

    if asked.token is None and not is_loopback(asked.host):
        fail(f"Other machines may reach {asked.host}: give a --token that whoever asks must bring, or leave --host out.", Exits.USAGE)
    if asked.token is not None and not re.fullmatch(f"[!-~]{{{MIN_TOKEN},}}", asked.token):
        fail(f"A token has {MIN_TOKEN} characters or more: letters, digits and signs without spaces.", Exits.USAGE)
    if asked.folder is not None and not asked.folder.is_dir():
        fail(f"{shown(asked.folder)}: there is no such folder.", Exits.FILES)
    config = Config(
        folder=asked.folder, host=asked.host, port=asked.port, token=asked.token, names=asked.names,
        workers=asked.workers or usual_workers(), quiet=asked.quiet,
    )  # fmt: skip
    try:
        opened = listen(config)
    except OSError as error:
        fail(f"{_address(asked.host, asked.port)} cannot be listened on: {reason(error)}. Another --port may be free.", Exits.FILES)
    port = opened.getsockname()[1]
    here = {"0.0.0.0": "127.0.0.1", "::": "::1"}.get(asked.host, asked.host)  # all addresses are none to be opened
    link = f"{_address(here, port)}/" + (f"#token={asked.token}" if asked.token else "")
    run(replace(config, port=port), opened, lambda: say(f"tabforge serves {link}  (Ctrl-C ends it)"))
    return Exits.FINE


def _address(host: str, port: int) -> str:
    return f"http://{f'[{host}]' if ':' in host and not host.startswith('[') else host}:{port}"
