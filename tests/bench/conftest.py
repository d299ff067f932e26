"""A bench that runs for the length of one test, and a hostile client that speaks plain HTTP."""

from __future__ import annotations

import http.client
import json
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from playwright.sync_api import Browser, ConsoleMessage, Page, ViewportSize, expect

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
        assert self.served.desk  # once the piece has been read in

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
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
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


class Visit:
    """A page on a bench, and what went wrong in it."""

    def __init__(
        self, browser: Browser, running: Running, size: tuple[int, int], touch: bool = False
    ) -> None:
        self.bench = running
        viewport: ViewportSize = {"width": size[0], "height": size[1]}
        self.context = browser.new_context(viewport=viewport, has_touch=touch)
        self.page = self.context.new_page()
        self.errors: list[str] = []
        self.asked: list[str] = []
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.on("console", self._said)
        self.page.on("dialog", lambda dialog: dialog.accept())  # leave, though not saved
        self.page.goto(running.address)

    def _said(self, said: ConsoleMessage) -> None:
        """Chromium tells every refused call; those that the page answers in words are no error."""
        refused = "status of 409" in said.text or "status of 422" in said.text
        if said.type == "error" and not refused:
            self.errors.append(said.text)

    def ready(self) -> Page:
        """The page once the piece is drawn."""
        self.page.locator("#work").wait_for()
        self.quiet()
        return self.page

    def quiet(self) -> None:
        """Wait until every change has been drawn and judged."""
        expect(self.page.locator("body[data-busy]")).to_have_count(0, timeout=20_000)
        expect(self.page.locator("#findings")).to_have_attribute(
            "aria-busy", "false", timeout=20_000
        )

    @property
    def text(self) -> str:
        """The text on the desk."""
        return self.bench.served.desk.now.text

    def until(self, holds: Callable[[], bool], seconds: float = 30.0) -> None:
        """Wait for something the server knows; fails where it does not come."""
        end = time.monotonic() + seconds
        while not holds():
            assert time.monotonic() < end, f"it did not come about:\n{self.text}"
            self.page.wait_for_timeout(30)

    def spot(self, balloon: int) -> tuple[float, float]:
        """Where a balloon's centre is on the screen."""
        found = self.page.evaluate(
            """(k) => { const b = window.benchBoard; const [x, y] = b.places.balloons[k];
                const box = b.canvases[0].getBoundingClientRect();
                return [box.left + x * b.css, box.top + y * b.css]; }""",
            balloon,
        )
        return float(found[0]), float(found[1])


Open = Callable[..., Visit]


@pytest.fixture
def open_page(chromium: Browser) -> Iterator[Open]:
    """``open_page(bench, size, touch)``; a page with an error in it fails its test."""
    visits: list[Visit] = []

    def opened(running: Running, size: tuple[int, int] = (1280, 800), touch: bool = False) -> Visit:
        visits.append(Visit(chromium, running, size, touch))
        return visits[-1]

    yield opened
    for visit in visits:
        visit.context.close()


@pytest.fixture(scope="module")
def standing(
    chromium: Browser, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[Running, Visit]]:
    """One bench and one page for the tests of a module."""
    folder = tmp_path_factory.mktemp("bench")
    running = Running(None, folder)
    one = Visit(chromium, running, (1280, 800))
    yield running, one
    one.context.close()
    running.stop()


@pytest.fixture
def visit(standing: tuple[Running, Visit]) -> Iterator[Visit]:
    """The page with the main sample drawn, in a folder that holds nothing else."""
    running, one = standing
    one.page.goto("about:blank")
    folder = running.served.desk.folder
    for each in folder.iterdir():
        each.unlink()
    piece = folder / "ruby.toml"
    piece.write_bytes((SAMPLES / "ruby-thirty.toml").read_bytes())
    running.served.desk.__init__(piece, folder)  # type: ignore[misc]  # a new visit, same door
    one.page.goto(running.address)
    one.errors.clear()
    one.ready()
    yield one
    assert one.errors == []
    assert {url.split("/")[2] for url in one.asked} == {f"127.0.0.1:{running.port}"}
