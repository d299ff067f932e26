"""The page and its parts, served before the piece has been read in; calls wait for it."""

from __future__ import annotations

from asyncio import shield, wrap_future
from concurrent.futures import Future

from starlette.types import ASGIApp, Receive, Scope, Send

from mockup.bench.pages import asset, page

_ASSETS = "/assets/"


class Shell:
    """ASGI app: the page itself, and before all else the app ``inside`` once it is there."""

    def __init__(self, inside: Future[ASGIApp], token: str, run: str) -> None:
        self.inside, self.token, self.run = inside, token, run

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one call."""
        path, reads = scope["path"], scope["method"] == "GET"
        if reads and path == "/":
            await page(self.token, self.run)(scope, receive, send)
        elif reads and path.startswith(_ASSETS):
            await asset(path.removeprefix(_ASSETS))(scope, receive, send)
        else:
            app = await shield(wrap_future(self.inside))
            await app(scope, receive, send)
