"""The walk-through of a whole job: every command in it works as it is written."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from mockup.cli.main import mockup

REPOSITORY = Path(__file__).parents[2]
WALK = REPOSITORY / "samples" / "jobs" / "README.md"


def commands() -> list[str]:
    lines = WALK.read_text(encoding="utf-8").splitlines()
    return [line.strip() for line in lines if line.strip().startswith("mockup ")]


def test_every_command_of_the_walk_through_works(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    samples = WALK.parents[1]
    shutil.copytree(samples, tmp_path / "samples", ignore=shutil.ignore_patterns("pictures"))
    monkeypatch.chdir(tmp_path)
    written: list[str] = []
    assert len(commands()) == 11
    for line in commands():
        words = shlex.split(line)
        done = CliRunner().invoke(mockup, words[1:])
        assert done.exit_code == 0, (line, done.output, done.exception)
        written += re.findall(r"(?<!jobs/)(?:alder|larkspur)-[a-z]+\.\w+(?= |$)", line)
    outs = [name for name in written if not name.endswith(".toml")]
    assert len(outs) == 10
    assert all((tmp_path / name).stat().st_size > 400 for name in outs)


def test_no_two_runs_differ(tmp_path: Path) -> None:
    job = WALK.parent / "alder-table-ring.toml"
    runs: list[list[bytes]] = []
    for run in ("one", "other"):
        folder = tmp_path / run
        folder.mkdir()
        outs = [folder / f"build.{ending}" for ending in ("pdf", "html")]
        words = ["build", job, *(word for out in outs for word in ("-o", out))]
        assert CliRunner().invoke(mockup, [str(word) for word in words]).exit_code == 0
        runs.append([out.read_bytes() for out in outs])
    assert runs[0] == runs[1]
