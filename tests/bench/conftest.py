"""A bench that runs for the length of one test, and a hostile client that speaks plain HTTP."""

from __future__ import annotations

import http.client
import json
import threading
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from mockup.bench.serving import Served

SAMPLES = Path(__file__).parent.parent.parent / "samples"


class Told(NamedTuple):
    """An answer: its status, its headers (lower case) and its body."""

    status: int
    headers: dict[str, str]
    body: bytes

    @property
    def data(self) -> Any:
        """The body as JSON."""
        return json.loads(self.body)


class Running:
    """A bench in a thread of this process."""

    def __init__(self, file: Path | None, folder: Path, port: int = 0) -> None:
        self.served = Served(file, folder, port)
        self.thread = threading.Thread(target=self.served.run, daemon=True)
        self.thread.start()

    @property
    def port(self) -> int:
        return self.served.key.port

    @property
    def address(self) -> str:
        return self.served.key.address

    @property
    def right(self) -> dict[str, str]:
        """The headers of the page's own calls."""
        return {
            "host": f"127.0.0.1:{self.port}",
            "origin": f"http://127.0.0.1:{self.port}",
            "content-type": "application/json",
            "x-bench-token": self.served.key.token,
            "cookie": f"bench-{self.port}={self.served.key.token}",
        }

    def ask(
        self,
        method: str,
        path: str,
        body: bytes = b"",
        headers: Mapping[str, str | None] | None = None,
    ) -> Told:
        """One call with the page's own headers, but for those given (None leaves one out)."""
        sent = {k: v for k, v in {**self.right, **(headers or {})}.items() if v is not None}
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        try:
            line.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
            for name, value in sent.items():
                line.putheader(name, value)
            if method == "POST" and "content-length" not in sent:
                line.putheader("content-length", str(len(body)))
            line.endheaders(body or None)
            answer = line.getresponse()
            headers_back = {k.lower(): v for k, v in answer.getheaders()}
            return Told(answer.status, headers_back, answer.read())
        finally:
            line.close()

    def call(self, name: str, **asked: object) -> Told:
        """One of the page's calls."""
        return self.ask("POST", f"/api/{name}", json.dumps(asked).encode())

    def stop(self) -> None:
        """End it and wait."""
        self.served.stop()
        self.thread.join(10)


Start = Callable[..., Running]


@pytest.fixture
def start() -> Iterator[Start]:
    """``start(file, folder)`` runs a bench until the test ends."""
    running: list[Running] = []

    def begin(file: Path | None, folder: Path | None = None, port: int = 0) -> Running:
        running.append(Running(file, folder or (file.parent if file else Path()), port))
        return running[-1]

    yield begin
    for each in running:
        each.stop()


@pytest.fixture
def piece(tmp_path: Path) -> Path:
    """A copy of the main sample in a folder of its own."""
    copy = tmp_path / "ruby.toml"
    copy.write_bytes((SAMPLES / "ruby-thirty.toml").read_bytes())
    return copy


@pytest.fixture
def bench(start: Start, piece: Path) -> Running:
    """A bench with the main sample on it."""
    return start(piece)
