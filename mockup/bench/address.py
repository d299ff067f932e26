"""Where a run is reached: a free port of this computer only, and the token that opens it.

It is there before anything else is read in, so that the browser can start meanwhile: what it asks
waits at the port.
"""

from __future__ import annotations

import socket
from secrets import token_urlsafe
from typing import NamedTuple

from mockup.errors import CannotWrite

LOOPBACK = "127.0.0.1"


class Key(NamedTuple):
    """What opens this run: its port and its token."""

    port: int
    token: str

    @property
    def hosts(self) -> tuple[str, str]:
        """The Host headers a browser on this computer sends."""
        return f"127.0.0.1:{self.port}", f"localhost:{self.port}"

    @property
    def cookie(self) -> str:
        """The cookie's name: cookies do not tell ports apart, so the name does."""
        return f"bench-{self.port}"

    @property
    def address(self) -> str:
        """Where the page is, with the token."""
        return f"http://127.0.0.1:{self.port}/?token={self.token}"


class Port(NamedTuple):
    """A port that is held, and its key."""

    socket: socket.socket
    key: Key


def held(port: int = 0) -> Port:
    """A port of this computer, 0 for a free one; raises ``CannotWrite`` where it is taken."""
    # Named as TCP, as asyncio lets an answer go at once (TCP_NODELAY) only where it is: otherwise
    # its second half waits 40 ms for the first to be acknowledged (RFC 896 and RFC 1122, 4.2.3.2).
    bound = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        bound.bind((LOOPBACK, port))
    except OSError as taken:
        bound.close()
        raise CannotWrite(f"port {port} is taken; leave --port out for a free one") from taken
    bound.listen(256)
    return Port(bound, Key(bound.getsockname()[1], token_urlsafe(24)))
