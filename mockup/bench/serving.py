"""The server of one run. The page is served at once; the piece is read in meanwhile."""

from __future__ import annotations

from concurrent.futures import Future
from importlib import import_module
from pathlib import Path
from secrets import token_hex
from threading import Thread
from typing import TYPE_CHECKING

import uvicorn
from starlette.types import ASGIApp

from mockup.bench.address import Port, held
from mockup.bench.door import Door
from mockup.bench.shell import Shell

if TYPE_CHECKING:
    from mockup.bench.calls import Bench
    from mockup.bench.desk import Desk


class Served:
    """A server that is ready to run, at a port of its own or the one that is held for it."""

    def __init__(
        self, file: Path | None, folder: Path, port: int = 0, at: Port | None = None
    ) -> None:
        self.socket, self.key = at or held(port)
        run = token_hex(6)
        reading = _Reading(file, folder, self.key.token, run)
        self._bench = reading.bench
        self.app: ASGIApp = Door(Shell(reading.inside, self.key.token, run), self.key)
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
        self._bench.add_done_callback(self._read_in)
        reading.start()

    def _read_in(self, bench: Future[Bench]) -> None:
        if bench.exception():
            self.stop()

    @property
    def desk(self) -> Desk:
        """The piece on the bench, once it has been read in."""
        return self._bench.result().desk

    def run(self) -> None:
        """Serve until stopped; raises what kept the piece from being read in.

        Unsaved work is kept as a draft.
        """
        try:
            self.server.run(sockets=[self.socket])
        finally:
            self.socket.close()
            self.desk.keep_draft()
            if self.desk.seeking:
                self.desk.seeking.stop()

    def stop(self) -> None:
        """Ask the server to end."""
        self.server.should_exit = True


class _Reading(Thread):
    """Reads in the larger part of the program, then the piece; what goes wrong is handed on."""

    def __init__(self, file: Path | None, folder: Path, token: str, run: str) -> None:
        super().__init__(daemon=True, name="reading in")
        self.told = file, folder, token, run
        self.bench: Future[Bench] = Future()
        self.inside: Future[ASGIApp] = Future()

    def run(self) -> None:
        file, folder, token, run = self.told
        try:
            from mockup.bench.calls import Bench, app_of
            from mockup.bench.desk import Desk

            made = Bench(Desk(file, folder), token, run)
            made.look_ahead()
            app = app_of(made)
        except Exception as trouble:
            self.inside.set_exception(trouble)
            self.bench.set_exception(trouble)
            return
        self.inside.set_result(app)
        self.bench.set_result(made)
        import_module("tomlkit")  # the first change of the form needs it
