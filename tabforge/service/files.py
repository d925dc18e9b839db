"""The page's own files, read once from the package: a request looks among them, not on the disk."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Final, NamedTuple

from starlette.datastructures import Headers
from starlette.responses import Response
from starlette.types import Receive, Scope, Send

from tabforge.service.api.answering import matches
from tabforge.service.problems import NOT_FOUND, WRONG_METHOD, Problem
from tabforge.service.settings import PREFIX

_MEDIA: Final = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".ico": "image/x-icon",
    ".woff2": "font/woff2",
    ".webmanifest": "application/manifest+json",
}
"""What kinds of file the page may have."""


class PageFile(NamedTuple):
    """A file: its bytes, its media type, its ETag."""

    body: bytes
    media: str
    tag: str


def page_files() -> dict[str, PageFile]:
    """All files of the page by their paths; ``/`` is ``/index.html``."""
    found: dict[str, PageFile] = {}

    def walk(folder: Traversable, path: str) -> None:
        for each in folder.iterdir():
            here = f"{path}/{each.name}"
            suffix = "." + each.name.rpartition(".")[2]
            if each.is_dir():
                walk(each, here)
            elif suffix in _MEDIA:
                body = each.read_bytes()
                found[here] = PageFile(body, _MEDIA[suffix], f'"{hashlib.sha256(body).hexdigest()[:32]}"')

    page = files("tabforge.service") / "page"
    if page.is_dir():
        walk(page, "")
    if "/index.html" in found:
        found["/"] = found["/index.html"]
    return found


class Page:
    """Answers with the page's files, as ASGI: what no path of the API takes comes here. Raises Problem."""

    def __init__(self, found: Mapping[str, PageFile]) -> None:
        self._files = found

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request."""
        if scope["type"] == "http":
            await self._answer(scope)(scope, receive, send)

    def _answer(self, scope: Scope) -> Response:
        file = self._files.get(scope["path"])
        if file is None:
            raise Problem(NOT_FOUND, f"There is nothing at this path: {PREFIX}/openapi.json describes the API.")
        if scope["method"] != "GET":
            raise Problem(WRONG_METHOD, "The header Allow tells the methods of this path.", {"Allow": "GET, HEAD"})
        headers = {"ETag": file.tag, "Cache-Control": "no-cache"}
        if matches(Headers(scope=scope).get("if-none-match"), file.tag):
            return Response(status_code=304, headers=headers)
        return Response(file.body, 200, headers, file.media)
