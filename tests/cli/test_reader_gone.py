"""A reader that goes before all is said, as ``head`` does: the end is quiet, and no good news.

POSIX has a program that writes into a pipe without a reader ended by SIGPIPE (write(), EPIPE),
which a shell tells as 128 and the signal's number, 13: what ``yes | head -1`` gives under pipefail.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.trust.running import SAMPLES, environment

SHELL = 128 + 13
RUBY = SAMPLES / "ruby-thirty.toml"
HUNDRED = SAMPLES / "club-hundred.toml"
FAILS = SAMPLES / "two-checks-fail.toml"


def left(
    words: list[str], folder: Path, *, after: int, told: bool = False, unbuffered: str | None = None
) -> tuple[int, str]:
    """What a command ends with whose reader takes ``after`` bytes and goes, and what it says.

    ``told`` leads its stderr into the same pipe; ``unbuffered`` is PYTHONUNBUFFERED.
    """
    read, write = os.pipe()
    command = [sys.executable, "-m", "mockup", *words]
    with subprocess.Popen(
        command,
        cwd=folder,
        env=environment(PYTHONUNBUFFERED=unbuffered),
        stdout=write,
        stderr=write if told else subprocess.PIPE,
        encoding="utf-8",
    ) as running:
        os.close(write)
        if after:
            os.read(read, after)
        os.close(read)
        said = running.communicate(timeout=60)[1]
    return running.returncode, said or ""


@pytest.mark.parametrize(
    "words",
    [
        ["buy", str(RUBY)],
        ["check", str(FAILS)],
        ["layout", str(RUBY), "--json"],
        ["--help"],
    ],
    ids=lambda words: " ".join(Path(word).name for word in words),
)
def test_a_reader_that_went_is_no_trouble_and_no_answer(words: list[str], tmp_path: Path) -> None:
    assert left(words, tmp_path, after=0) == (SHELL, "")


@pytest.mark.parametrize("unbuffered", [None, "1"])
def test_a_reader_may_go_in_the_middle(unbuffered: str | None, tmp_path: Path) -> None:
    """More than a pipe holds (64 KB on Linux), so that some is still to be said when it goes.

    Without a buffer Python drops what a pipe does not take at once, and ends as though all is well.
    """
    words = ["layout", str(HUNDRED), "--json"]
    assert left(words, tmp_path, after=100, unbuffered=unbuffered) == (SHELL, "")


@pytest.mark.parametrize("words", [["check", "nowhere.toml"], ["no-such-command"]])
def test_the_reader_of_what_went_wrong_may_go_as_well(words: list[str], tmp_path: Path) -> None:
    assert left(words, tmp_path, after=0, told=True)[0] == SHELL
