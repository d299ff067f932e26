"""A hostile client: what is not this page of this run is refused, and nothing is harmed.

Outside sources: the header and cookie rules of the Fetch standard (Origin, Sec-Fetch-Site), RFC
6265bis (SameSite), and Content Security Policy Level 3; from memory.
"""

from __future__ import annotations

import json
import socket
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

import pytest

from mockup.bench.address import Key
from mockup.bench.door import Door
from tests.bench.conftest import SAMPLES, Running, Told

SHOW = json.dumps({}).encode()


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    """One bench for all the attacks."""
    piece = tmp_path_factory.mktemp("attacked") / "ruby.toml"
    piece.write_bytes((SAMPLES / "ruby-thirty.toml").read_bytes())
    running = Running(piece, piece.parent)
    yield running
    running.stop()


@pytest.fixture(autouse=True)
def unharmed(bench: Running) -> Iterator[None]:
    """After every attack: the server answers and the file and its folder are as they were."""
    folder = bench.served.desk.folder
    before = {each.name: each.read_bytes() for each in folder.iterdir()}
    yield
    assert bench.call("look").status == 200
    assert {each.name: each.read_bytes() for each in folder.iterdir()} == before


def test_the_page_itself_comes_in(bench: Running) -> None:
    assert bench.call("show").data["design"]["title"] == "Ruby turns thirty"
    assert bench.ask("GET", "/").status == 200


@pytest.mark.parametrize(
    "host",
    [
        "evil.example", "127.0.0.1", "127.0.0.1:1", "localhost", "[::1]:{port}", "0.0.0.0:{port}",
        "127.0.0.1.evil.example:{port}", "evil.example:{port}", "",
    ],
)  # fmt: skip
@pytest.mark.parametrize("path", ["/", "/api/show", "/assets/bench.js"])
def test_a_foreign_host_is_refused(bench: Running, host: str, path: str) -> None:
    method = "POST" if path.startswith("/api") else "GET"
    told = bench.ask(method, path, SHOW, {"host": host.format(port=bench.port)})
    assert told.status in (400, 403)
    assert b"Ruby" not in told.body


@pytest.mark.parametrize(
    "origin", ["null", "http://evil.example", "https://127.0.0.1:{port}", "http://127.0.0.1:1", ""]
)
def test_a_foreign_origin_is_refused(bench: Running, origin: str) -> None:
    told = bench.ask("POST", "/api/show", SHOW, {"origin": origin.format(port=bench.port)})
    assert told.status == 403


def test_a_change_without_an_origin_is_refused(bench: Running) -> None:
    assert bench.ask("POST", "/api/undo", SHOW, {"origin": None}).status == 403


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_a_call_from_another_site_is_refused(bench: Running, site: str) -> None:
    assert bench.ask("GET", "/", headers={"sec-fetch-site": site}).status == 403


@pytest.mark.parametrize("token", [None, "", "x", "é" * 8])
def test_a_call_without_the_token_is_refused(bench: Running, token: str | None) -> None:
    sent = None if token is None else token.encode().decode("latin-1")
    assert bench.ask("POST", "/api/show", SHOW, {"x-bench-token": sent}).status == 403
    assert bench.ask("POST", "/api/save", SHOW, {"x-bench-token": sent}).status == 403


@pytest.mark.parametrize("path", ["/", "/assets/bench.js", "/made/ruby-proof.pdf"])
def test_a_page_without_the_cookie_is_refused(bench: Running, path: str) -> None:
    assert bench.ask("GET", path, headers={"cookie": None}).status == 403
    assert bench.ask("GET", path, headers={"cookie": f"bench-{bench.port}=x"}).status == 403


def test_the_address_gives_the_cookie_and_hides_the_token(bench: Running) -> None:
    told = bench.ask("GET", f"/?token={bench.served.key.token}", headers={"cookie": None})
    assert (told.status, told.headers["location"]) == (303, "/")
    given = told.headers["set-cookie"].lower()
    assert "httponly" in given
    assert "samesite=strict" in given
    assert bench.ask("GET", "/?token=x").status == 403


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])
def test_other_methods_are_refused(bench: Running, method: str) -> None:
    assert bench.ask(method, "/api/show").status == 405


@pytest.mark.parametrize(
    "path",
    [
        "/assets/../command.py", "/assets/..%2fcommand.py", "/assets/%2e%2e%2fdoor.py",
        "/assets/..%5c..%5cREADME.md", "/made/..%2fruby.toml", "/made/ruby.toml",
        "/made/%2fetc%2fpasswd", "/../../etc/passwd", "/assets/bench.html", "/assets/", "/made/",
        "//etc/passwd", "/api/../assets/bench.js",
    ],
)  # fmt: skip
def test_no_path_climbs_out(bench: Running, path: str) -> None:
    told = bench.ask("GET", path)
    assert told.status in (404, 405)
    assert b"Ruby" not in told.body
    assert b"import" not in told.body


def test_a_sample_is_no_path(bench: Running) -> None:
    for name in ("../README", "/etc/passwd", "jobs/studio", 3, None):
        told = bench.ask("POST", "/api/sample", json.dumps({"name": name}).encode())
        assert told.status == 422, name


def test_a_body_that_says_it_is_too_large_is_not_read(bench: Running) -> None:
    told = bench.ask("POST", "/api/write", b"", {"content-length": "1000001"})
    assert told.status == 413


def test_a_body_that_grows_too_large_is_refused(bench: Running) -> None:
    """Sent in chunks, so that no length warns of it."""
    with socket.create_connection(("127.0.0.1", bench.port), timeout=20) as line:
        head = "".join(f"{k}: {v}\r\n" for k, v in bench.right.items())
        line.sendall(
            f"POST /api/write HTTP/1.1\r\n{head}transfer-encoding: chunked\r\n\r\n".encode()
        )
        chunk = b"10000\r\n" + b"a" * 0x10000 + b"\r\n"
        try:
            for _ in range(40):
                line.sendall(chunk)
        except OSError:
            return  # it hung up, as it may
        assert b" 413 " in line.recv(4096)


def test_a_body_of_another_kind_is_refused(bench: Running) -> None:
    """What a form of another page could send without asking first (Fetch: a simple request)."""
    for kind in ("text/plain", "application/x-www-form-urlencoded", None):
        assert bench.ask("POST", "/api/undo", SHOW, {"content-type": kind}).status == 415


@pytest.mark.parametrize("body", [b"", b"{", b"[1]", b"nul", b"[" * 100_000, b"\xff\xfe"])
def test_a_body_that_is_no_call_is_refused(bench: Running, body: bytes) -> None:
    assert bench.ask("POST", "/api/show", body).status == 400


def test_a_slow_body_is_given_up(bench: Running) -> None:
    """The limit is the door's own; here it is short, so that the test is."""
    door = bench.served.app
    assert isinstance(door, Door)
    usual, door.slowest = door.slowest, 0.3
    with socket.create_connection(("127.0.0.1", bench.port), timeout=20) as line:
        head = "".join(f"{k}: {v}\r\n" for k, v in bench.right.items())
        line.sendall(f"POST /api/write HTTP/1.1\r\n{head}content-length: 900\r\n\r\n{{".encode())
        began = time.monotonic()
        assert b" 408 " in line.recv(4096)
        assert time.monotonic() - began < 5
    door.slowest = usual


def test_five_hundred_calls_at_once(bench: Running) -> None:
    def one(number: int) -> int:
        return bench.call("look" if number % 5 else "findings").status

    with ThreadPoolExecutor(100) as many:
        told = list(many.map(one, range(500)))
    assert told == [200] * 500


def test_every_answer_wears_the_policy(bench: Running) -> None:
    answers: list[Told] = [
        bench.ask("GET", "/"),
        bench.ask("GET", "/assets/bench.js"),
        bench.call("show"),
        bench.ask("GET", "/", headers={"host": "evil.example"}),
    ]
    for told in answers:
        policy = told.headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert "frame-ancestors 'none'" in policy
        assert told.headers["x-content-type-options"] == "nosniff"
        assert told.headers["referrer-policy"] == "no-referrer"
        assert told.headers["cache-control"] == "no-store"
        assert "server" not in told.headers


def test_it_listens_on_loopback_only(bench: Running) -> None:
    assert bench.served.socket.getsockname()[0] == "127.0.0.1"


def test_two_runs_have_two_tokens() -> None:
    assert Key(80, "a").cookie != Key(81, "a").cookie
    assert Key(80, "a").address.endswith("/?token=a")


def test_nothing_is_logged(bench: Running, capfd: pytest.CaptureFixture[str]) -> None:
    bench.call("write", base=bench.served.desk.version, text="secret-words = [")
    bench.call("nonsense", secret="secret-words")
    bench.ask("GET", "/secret-words", headers={"host": "evil.example"})
    said = capfd.readouterr()
    assert (said.out, said.err) == ("", "")
    bench.call("undo")
