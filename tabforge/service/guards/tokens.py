"""The token: by ``Authorization: Bearer`` (RFC 6750), or for the page by a cookie that it has been given in exchange for it.

The cookie does not hold the token but a secret of this run, so that it opens nothing after the next start.
"""

from __future__ import annotations

import secrets
from http.cookies import CookieError, SimpleCookie
from typing import Final

from starlette.datastructures import Headers
from starlette.types import ASGIApp, Receive, Scope, Send

from tabforge.service.problems import NO_TOKEN, answer
from tabforge.service.settings import PREFIX, Config

_OPEN: Final = (f"{PREFIX}/health",)
_HOW: Final = "Send it as Authorization: Bearer, or open the page by the link that was printed."
_WANTED: Final = {"WWW-Authenticate": 'Bearer realm="tabforge"'}


class Keys:
    """What opens a service that has a token."""

    def __init__(self, config: Config) -> None:
        self.token = config.token
        self.cookie = f"tabforge-{config.port}"
        self._pass = secrets.token_urlsafe(32)

    def fits(self, headers: Headers) -> bool:
        """Whether a request brings the token, or the cookie. How long it takes does not tell how near it was."""
        scheme, _, given = headers.get("authorization", "").partition(" ")
        bearer = scheme.lower() == "bearer" and secrets.compare_digest(given.strip().encode(), (self.token or "").encode())
        return bearer or secrets.compare_digest(self._cookie(headers).encode(), self._pass.encode())

    def _cookie(self, headers: Headers) -> str:
        try:
            found = SimpleCookie(headers.get("cookie", "")).get(self.cookie)
        except CookieError:
            return ""
        return found.value if found else ""

    def header(self) -> str:
        """The header Set-Cookie that gives the pass."""
        return f"{self.cookie}={self._pass}; Path=/; HttpOnly; SameSite=Strict"


class Opened:
    """Refuses what has no token, if there is one. The page's own files say nothing of any study: they need none."""

    def __init__(self, app: ASGIApp, keys: Keys) -> None:
        self._app = app
        self._keys = keys

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one request, or refuse it."""
        if scope["type"] == "http" and self._keys.token is not None and self._guarded(scope) and not self._keys.fits(Headers(scope=scope)):
            await answer(NO_TOKEN, _HOW, _WANTED)(scope, receive, send)
            return
        await self._app(scope, receive, send)

    @staticmethod
    def _guarded(scope: Scope) -> bool:
        path: str = scope["path"]
        return path.startswith("/api/") and path not in _OPEN
