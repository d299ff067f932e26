"""The page is there at once; the piece is read in meanwhile, and what is wrong with it is told."""

from __future__ import annotations

import asyncio
import http.client
import time
from collections.abc import Callable, Coroutine
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message

from mockup.bench.serving import Served
from mockup.bench.shell import Shell
from mockup.cli.main import main
from mockup.errors import MockupError
from tests.bench.conftest import Running


def apart(job: Callable[[], None]) -> None:
    """In a thread of its own: a browser that another test opened keeps a loop in this one."""
    with ThreadPoolExecutor(1) as thread:
        thread.submit(job).result()


def run(visit: Coroutine[Any, Any, None]) -> None:
    apart(lambda: asyncio.run(visit))


async def asked(app: ASGIApp, path: str, method: str = "GET") -> tuple[int, bytes]:
    said: list[Any] = []

    async def receive() -> Message:
        return {"type": "http.request", "body": b"", "more_body": False}

    async def send(message: Message) -> None:
        said.append(message)

    scope = {"type": "http", "method": method, "path": path, "headers": []}
    await app(scope, receive, send)
    return said[0]["status"], b"".join(each.get("body", b"") for each in said[1:])


def test_the_page_is_there_before_the_piece() -> None:
    inside: Future[ASGIApp] = Future()
    shell = Shell(inside, "the-token", "the-run")

    async def visit() -> None:
        waiting = asyncio.create_task(asked(shell, "/api/show", "POST"))
        status, page = await asked(shell, "/")
        assert (status, b"the-token" in page) == (200, True)
        assert (await asked(shell, "/assets/bench.js"))[0] == 200
        assert (await asked(shell, "/assets/../calls.py"))[0] == 404
        assert not waiting.done()
        inside.set_result(PlainTextResponse("drawn"))
        assert await waiting == (200, b"drawn")

    run(visit())


def test_two_calls_that_wait_are_both_answered_when_one_is_broken_off() -> None:
    inside: Future[ASGIApp] = Future()
    shell = Shell(inside, "t", "r")

    async def visit() -> None:
        gone, stays = (asyncio.create_task(asked(shell, "/api/show", "POST")) for _ in range(2))
        await asyncio.sleep(0)
        gone.cancel()
        await asyncio.sleep(0)
        inside.set_result(PlainTextResponse("drawn"))
        assert await stays == (200, b"drawn")

    run(visit())


def test_a_piece_that_cannot_be_read_in_ends_the_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Wrong(MockupError):
        pass

    def broken(*_: object) -> None:
        raise Wrong("the folder has gone")

    monkeypatch.setattr("mockup.bench.desk.Desk.__init__", broken)
    with pytest.raises(Wrong, match="the folder has gone"):
        apart(Served(None, tmp_path).run)


def test_a_file_that_is_no_text_is_refused_before_anything_is_opened(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "piece.toml"
    file.write_bytes(b"%PDF-1.7\n")
    monkeypatch.setattr("sys.argv", ["mockup", "bench", str(file), "--no-browser"])
    with pytest.raises(SystemExit) as end:
        main()
    said = capsys.readouterr()
    assert end.value.code == 2
    assert "is a PDF" in said.err
    assert said.out == ""


def test_an_answer_on_a_kept_connection_goes_at_once(bench: Running) -> None:
    """In two halves, the second waited 40 ms until the first was acknowledged, call after call."""
    line = http.client.HTTPConnection("127.0.0.1", bench.port)
    took = []
    for _ in range(12):
        began = time.perf_counter()
        line.request("GET", "/assets/make.js", headers=bench.right)
        assert line.getresponse().read()
        took.append(time.perf_counter() - began)
    line.close()
    assert min(took[2:]) < 0.03
