"""Whole commands against the floor of what they must import, in one run; ratios, not times.

uv run pytest tests/benchmarks/test_commands_bench.py -s
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
from pathlib import Path
from statistics import median

import pytest

from tests.benchmarks.ratios import tell

ROOT = Path(__file__).parent.parent.parent
SAMPLE = str(ROOT / "samples/ruby-thirty.toml")
# Enough that a lucky run of either side, seen once in about ten, does not decide the ratio.
ROUNDS = 25
# No goal was given for a proof: its goals stand about a quarter above what was measured first.
DRAWING = "import click, numpy, shapely, cairocffi, fontTools.ttLib"


def seconds(*words: str) -> float:
    """Processor time of one process, user and system together."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    # Compiled modules are kept, as they are on a user's machine; one thread, so that the
    # processor time of idle library threads does not blur the ratio.
    env = {**os.environ, "OPENBLAS_NUM_THREADS": "1"}
    env.pop("PYTHONDONTWRITEBYTECODE", None)
    subprocess.run([sys.executable, *words], check=True, capture_output=True, cwd=ROOT, env=env)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def ratio(words: list[str], floor: list[str]) -> float:
    """The median of many pairs run one after the other, so that a slow moment slows both."""
    seconds(*words)
    seconds(*floor)
    return median(seconds(*words) / seconds(*floor) for _ in range(ROUNDS))


@pytest.mark.parametrize(
    ("name", "words", "floor", "goal"),
    [
        ("check", ["check", SAMPLE], "import click, numpy, shapely", 1.5),
        ("fit", ["fit", SAMPLE], "import click, numpy, shapely", 1.5),
        ("--help", ["--help"], "import click", 2.0),
        ("proof to SVG", ["proof", SAMPLE, "-o", "{out}/p.svg"], DRAWING, 3.0),
        ("proof to PDF", ["proof", SAMPLE, "-o", "{out}/p.pdf"], DRAWING, 4.0),
    ],
)
def test_a_command_stays_near_its_imports(
    tmp_path: Path, name: str, words: list[str], floor: str, goal: float
) -> None:
    said = [word.format(out=tmp_path) for word in words]
    found = ratio(["-m", "mockup", *said], ["-c", floor])
    tell(f"mockup {name} over a process that runs '{floor}'", found, goal)
