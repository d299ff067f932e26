"""Running the command line in processes of their own, in surroundings that a test chooses."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
SAMPLES = ROOT / "samples"

SEVERAL = """
import contextlib, io, json, locale, sys
with contextlib.suppress(locale.Error):
    locale.setlocale(locale.LC_ALL, "")
from mockup.cli.main import main
for number, words in enumerate(json.loads(sys.argv[1])):
    said = io.TextIOWrapper(io.BytesIO(), "utf-8")
    sys.argv = ["mockup", *words]
    with contextlib.redirect_stdout(said):
        try:
            main()
        except SystemExit as end:
            assert not end.code, (words, end.code)
    said.flush()
    with open(f"said-{number}.txt", "wb") as out:
        out.write(said.buffer.getvalue())
"""
"""Runs several commands in one process and keeps what each said; the C library's locale is set
too, as a program that embeds this one might have done."""


def environment(**changed: str | None) -> dict[str, str]:
    """This process's environment with some variables set, or taken out (None)."""
    kept = {**os.environ, **{name: value for name, value in changed.items() if value is not None}}
    return {name: value for name, value in kept.items() if changed.get(name, "") is not None}


def run(
    words: Sequence[object],
    folder: Path,
    env: Mapping[str, str] | None = None,
    *,
    timeout: float = 120.0,
) -> subprocess.CompletedProcess[str]:
    """One command in ``folder``, whatever it ends with."""
    return subprocess.run(
        [sys.executable, "-m", "mockup", *map(str, words)],
        cwd=folder,
        env=None if env is None else dict(env),
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=timeout,
        check=False,
    )


def run_all(
    commands: Sequence[Sequence[str]], folder: Path, env: Mapping[str, str]
) -> dict[str, bytes]:
    """Several commands in one process: what each said, and every file that stands afterwards."""
    before = {path for path in folder.rglob("*") if path.is_file()}
    done = subprocess.run(
        [sys.executable, "-c", SEVERAL, json.dumps(commands)],
        cwd=folder,
        env=dict(env),
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=300,
        check=False,
    )
    if done.returncode:
        raise AssertionError(done.stderr)
    made = (path for path in sorted(folder.rglob("*")) if path.is_file() and path not in before)
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in made}
