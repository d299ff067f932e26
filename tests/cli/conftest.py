"""Running the command line in this process, as a user would."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from mockup.cli.main import main

SAMPLES = Path(__file__).parent.parent.parent / "samples"


@dataclass(frozen=True)
class Ran:
    """How a command ended and what it said."""

    code: int
    out: str
    err: str


Run = Callable[..., Ran]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """``run("check", path)`` gives the exit code, stdout and stderr."""

    def ran(*words: object) -> Ran:
        monkeypatch.setattr("sys.argv", ["mockup", *map(str, words)])
        code = 0
        try:
            main()
        except SystemExit as end:
            code = int(end.code or 0)
        said = capsys.readouterr()
        return Ran(code, said.out, said.err)

    return ran


@pytest.fixture
def samples() -> Path:
    """The folder of invented pieces."""
    return SAMPLES


@pytest.fixture
def piece(tmp_path: Path) -> Path:
    """A copy of the main sample in a folder of its own."""
    copy = tmp_path / "ruby.toml"
    copy.write_bytes((SAMPLES / "ruby-thirty.toml").read_bytes())
    return copy
