"""The server of one run: a free port of this computer only, warm before the page opens."""

from __future__ import annotations

import socket
from collections.abc import Callable
from pathlib import Path
from secrets import token_hex, token_urlsafe

import uvicorn
from starlette.types import ASGIApp

from mockup.bench.calls import Bench, app_of
from mockup.bench.desk import Desk
from mockup.bench.door import Door, Key
from mockup.errors import CannotWrite

LOOPBACK = "127.0.0.1"


class Served:
    """A server that is bound to its port and ready to run."""

    def __init__(self, file: Path | None, folder: Path, port: int = 0) -> None:
        self.socket = _bound(port)
        self.key = Key(self.socket.getsockname()[1], token_urlsafe(24))
        self.desk = Desk(file, folder)
        self.app: ASGIApp = Door(app_of(Bench(self.desk, self.key.token, token_hex(6))), self.key)
        self.server = uvicorn.Server(
            uvicorn.Config(
                self.app,
                lifespan="off",
                ws="none",
                log_level="critical",
                access_log=False,
                server_header=False,
                date_header=False,
                timeout_keep_alive=30,
                timeout_graceful_shutdown=1,
            )
        )

    def run(self, ready: Callable[[], None] | None = None) -> None:
        """Serve until stopped; ``ready`` is called just before. Unsaved work is kept as a draft."""
        if ready:
            ready()
        try:
            self.server.run(sockets=[self.socket])
        finally:
            self.desk.keep_draft()
            if self.desk.seeking:
                self.desk.seeking.stop()
            self.socket.close()

    def stop(self) -> None:
        """Ask the server to end."""
        self.server.should_exit = True


def _bound(port: int) -> socket.socket:
    bound = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        bound.bind((LOOPBACK, port))
    except OSError as taken:
        bound.close()
        raise CannotWrite(f"port {port} is taken; leave --port out for a free one") from taken
    bound.listen(256)
    return bound
