"""Who may come in: loopback, this page, this run, and no more than a megabyte at a time.

Every call is checked for its Host (with the port), its Origin, and the token of this run, which the
address carries once and a cookie and a header carry from then on.
"""

from __future__ import annotations

import asyncio
from collections.abc import Iterable
from hmac import compare_digest
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs

from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from mockup.bench.address import Key

MOST_BYTES = 1_000_000
SLOWEST_SECONDS = 10.0
TOKEN_HEADER = "x-bench-token"

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "connect-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
    )
)
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-resource-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cache-control": "no-store",
}


class _Refused(Exception):
    def __init__(self, status: int, says: str) -> None:
        super().__init__(says)
        self.status, self.says = status, says


class Door:
    """ASGI middleware: refuses what is not this page of this run, and dresses every answer."""

    def __init__(self, app: ASGIApp, key: Key, slowest: float = SLOWEST_SECONDS) -> None:
        self.app, self.key, self.slowest = app, key, slowest

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Check one call and hand it on with its whole body, or answer it here."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            return

        async def dressed(message: Message) -> None:
            if message["type"] == "http.response.start":
                own = {name.lower() for name, _ in message["headers"]}
                every = ((k.encode(), v.encode()) for k, v in HEADERS.items())
                extra = [each for each in every if each[0] not in own]
                message = {**message, "headers": [*message["headers"], *extra]}
            await send(message)

        try:
            early = self._judged(scope)
            if early is not None:
                await early(scope, receive, dressed)
                return
            body = await self._body(scope, receive)
        except _Refused as no:
            answer = PlainTextResponse(no.says, no.status, {"connection": "close"})
            await answer(scope, receive, dressed)
            return
        await self.app(scope, _once(body, receive), dressed)

    def _judged(self, scope: Scope) -> Response | None:
        headers = _Headers(scope["headers"])
        host = headers.only("host")
        if host not in self.key.hosts:
            raise _Refused(403, "this page answers on its own computer only")
        self._check_origin(scope, headers, host)
        if scope["method"] not in ("GET", "POST"):
            raise _Refused(405, "only GET and POST are known here")
        asked = parse_qs(scope["query_string"].decode("latin-1")).get("token")
        if scope["path"] == "/" and asked:
            return self._let_in(asked[0])
        self._check_token(scope, headers)
        return None

    def _check_origin(self, scope: Scope, headers: _Headers, host: str) -> None:
        origins = headers.every("origin")
        own = f"http://{host}"
        if any(origin != own for origin in origins):
            raise _Refused(403, "another page may not call this one")
        if scope["method"] == "POST" and not origins:
            raise _Refused(403, "a change must come from the page itself")
        if headers.every("sec-fetch-site") and headers.only("sec-fetch-site") not in (
            "same-origin",
            "none",
        ):
            raise _Refused(403, "another page may not call this one")

    def _let_in(self, token: str) -> Response:
        if not self._right(token):
            raise _Refused(403, "this address belongs to another run; open the one printed last")
        answer = RedirectResponse("/", 303)
        answer.set_cookie(self.key.cookie, self.key.token, httponly=True, samesite="strict")
        return answer

    def _check_token(self, scope: Scope, headers: _Headers) -> None:
        if scope["path"].startswith("/api/"):
            held = headers.only(TOKEN_HEADER)
        else:
            held = headers.cookie(self.key.cookie)
        if not self._right(held):
            raise _Refused(403, "open the address that 'mockup bench' printed last")

    def _right(self, token: str) -> bool:
        return compare_digest(token.encode(), self.key.token.encode())

    async def _body(self, scope: Scope, receive: Receive) -> bytes:
        headers = _Headers(scope["headers"])
        said = headers.only("content-length")
        if said.isdigit() and int(said) > MOST_BYTES:
            raise _Refused(413, "that is larger than 1 MB")
        if scope["method"] == "POST" and headers.only("content-type") != "application/json":
            raise _Refused(415, "a change is sent as JSON")
        try:
            return await asyncio.wait_for(_read(receive), self.slowest)
        except TimeoutError as slow:
            raise _Refused(408, "that came too slowly") from slow


class _Headers:
    def __init__(self, raw: Iterable[tuple[bytes, bytes]]) -> None:
        self.raw = [(k.decode("latin-1").lower(), v.decode("latin-1")) for k, v in raw]

    def every(self, name: str) -> list[str]:
        return [value for key, value in self.raw if key == name]

    def only(self, name: str) -> str:
        """The one value of a header; empty where it is missing or given twice."""
        found = self.every(name)
        return found[0] if len(found) == 1 else ""

    def cookie(self, name: str) -> str:
        try:
            jar = SimpleCookie(self.only("cookie"))
        except CookieError:
            return ""
        return jar[name].value if name in jar else ""


async def _read(receive: Receive) -> bytes:
    parts: list[bytes] = []
    size = 0
    while True:
        message = await receive()
        if message["type"] == "http.disconnect":
            raise _Refused(400, "the call was broken off")
        parts.append(message.get("body", b""))
        size += len(parts[-1])
        if size > MOST_BYTES:
            raise _Refused(413, "that is larger than 1 MB")
        if not message.get("more_body", False):
            return b"".join(parts)


def _once(body: bytes, receive: Receive) -> Receive:
    """The body in one message, then whatever the server says next."""
    left: list[Message] = [{"type": "http.request", "body": body, "more_body": False}]

    async def read() -> Message:
        return left.pop() if left else await receive()

    return read
