"""Requests from other sites are refused: a page somewhere on the web must not use the service of whoever looks at it.

- ``Host`` must be an address this service is known by; so a name that was pointed at this machine (DNS rebinding) gets nothing.
- ``Origin``, if there is one, must be that same host (RFC 6454; Fetch Standard).
- ``Sec-Fetch-Site``, if there is one, must be ``same-origin`` or ``none`` (Fetch Metadata Request Headers); only the page itself may be
  reached by a link from elsewhere. CORS is off: no answer has an Access-Control header.
"""

from __future__ import annotations

import ipaddress
import socket
from typing import Final
from urllib.parse import urlsplit

from starlette.datastructures import Headers
from starlette.types import ASGIApp, Receive, Scope, Send

from tabforge.service.problems import CROSS_SITE, answer
from tabforge.service.settings import Config

_LOCAL: Final = "localhost"
_WHOLE_PAGE: Final = ("/", "/index.html")


def is_loopback(host: str) -> bool:
    """Whether only this machine reaches a host."""
    if host.lower().rstrip(".") == _LOCAL:
        return True
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return False


def _split(authority: str) -> tuple[str, int | None] | None:
    """The host of a Host header and its port; None if it is none."""
    try:
        parts = urlsplit(f"//{authority}")
        if parts.username is not None or parts.path or parts.query or parts.fragment or not parts.hostname:
            return None
        return parts.hostname.rstrip("."), parts.port
    except ValueError:
        return None


class Own:
    """Refuses what comes from other sites."""

    def __init__(self, app: ASGIApp, config: Config) -> None:
        self._app = app
        self._names = {each.lower().rstrip(".") for each in (config.host.strip("[]"), *config.names)}
        self._everywhere = config.host in ("0.0.0.0", "::", "")  # then any address of this machine is its own
        if self._everywhere:
            self._names.add(socket.gethostname().lower())

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one request, or refuse it."""
        why = self._refusal(Headers(scope=scope), scope) if scope["type"] == "http" else None
        if why is None:
            await self._app(scope, receive, send)
        else:
            await answer(CROSS_SITE, why)(scope, receive, send)

    def _refusal(self, headers: Headers, scope: Scope) -> str | None:
        hosts = headers.getlist("host")
        host = _split(hosts[0]) if len(hosts) == 1 else None
        if host is None or not self._is_own(host[0]):
            return "The header Host is no name of this service."
        origins = headers.getlist("origin")
        if origins and (len(origins) > 1 or not _same(origins[0], host)):
            return "The header Origin names another site."
        site = headers.get("sec-fetch-site", "none")
        if site not in ("same-origin", "none") and not (
            scope["method"] in ("GET", "HEAD") and scope["path"] in _WHOLE_PAGE and headers.get("sec-fetch-mode") == "navigate"
        ):
            return "The header Sec-Fetch-Site says that another site asks."
        return None

    def _is_own(self, host: str) -> bool:
        if is_loopback(host) or host in self._names:
            return True
        if not self._everywhere:
            return False
        try:
            ipaddress.ip_address(host)
        except ValueError:
            return False
        return True  # an address is no name that somebody could have pointed here


def _same(origin: str, host: tuple[str, int | None]) -> bool:
    """Whether an origin is the host that was asked. A service behind another server may be reached by https."""
    scheme, _, authority = origin.partition("://")
    usual = {"http": 80, "https": 443}.get(scheme)
    other = _split(authority)
    return usual is not None and other is not None and other[0] == host[0] and (other[1] or usual) == (host[1] or usual)
