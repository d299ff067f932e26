"""What the README says is true: its commands run, and its picture is the sample's own drawing."""

from __future__ import annotations

import os
import re
import shlex
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

from mockup.cli.main import COMMANDS, main
from mockup.design.reading import design_from_text
from tests.render import golden

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```(\w*)\n(.*?)```", README, re.DOTALL)
LINES = [
    line.strip()
    for kind, block in BLOCKS
    if not kind
    for line in block.splitlines()
    if line.startswith("uv run mockup ")
]


@pytest.fixture
def ran(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Callable[[str], int]:
    """Run one line of the README in a scratch folder that holds the samples."""
    (tmp_path / "samples").mkdir()
    for sample in (ROOT / "samples").glob("*.toml"):
        (tmp_path / "samples" / sample.name).write_bytes(sample.read_bytes())
    monkeypatch.chdir(tmp_path)

    def run(line: str) -> int:
        monkeypatch.setattr("sys.argv", shlex.split(line.removeprefix("uv run ")))
        try:
            main()
        except SystemExit as end:
            return int(end.code or 0)
        return 0

    return run


@pytest.mark.parametrize("line", LINES)
def test_every_command_shown_runs(ran: Callable[[str], int], line: str) -> None:
    assert ran(line) == 0


def test_every_command_named_exists() -> None:
    named = set(re.findall(r"mockup ([a-z]+)\b", README))
    assert named - {"is", "everywhere"} <= set(COMMANDS)


def test_the_piece_shown_reads() -> None:
    (piece,) = [block for kind, block in BLOCKS if kind == "toml"]
    tomllib.loads(piece)
    assert len(piece.splitlines()) < 25
    assert design_from_text(piece, "readme.toml").panel is not None


def test_the_picture_is_the_samples_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    picture = ROOT / "samples/pictures/ruby-thirty.svg"
    drawn = tmp_path / "drawn.svg"
    monkeypatch.chdir(ROOT)
    words = ["mockup", "proof", "samples/ruby-thirty.toml", "-o", str(drawn)]
    monkeypatch.setattr("sys.argv", words)
    main()
    svg = drawn.read_text(encoding="utf-8")
    if os.environ.get(golden.STORE) == "1":
        picture.write_text(svg, encoding="utf-8", newline="\n")
    stored = golden.canonical(picture.read_text(encoding="utf-8"))
    assert golden.differences(stored, golden.canonical(svg)) == []
