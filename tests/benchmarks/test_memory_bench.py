"""Peak memory: whole commands against the libraries they need, and what a balloon costs.

uv run pytest tests/benchmarks/test_memory_bench.py -s

No standard says how much is much: the goals stand about a quarter above what was measured first
(check 1.28, a proof 1.9 to 2.1 times its libraries), so that a growth of memory is noticed.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tracemalloc
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.benchmarks.ratios import tell
from tests.benchmarks.test_growth_bench import checks, drawing, settling

ROOT = Path(__file__).parent.parent.parent
SAMPLE = str(ROOT / "samples/ruby-thirty.toml")
MEASURED = """
import resource, subprocess, sys
subprocess.run(sys.argv[1:], check=True, stdout=subprocess.DEVNULL)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
"""


def peak(folder: Path, *words: str) -> float:
    """The most memory that a process held at once, as the system counts it (resident)."""
    env = {**os.environ, "OPENBLAS_NUM_THREADS": "1"}
    told = subprocess.run(
        [sys.executable, "-c", MEASURED, sys.executable, *words],
        cwd=folder,
        env=env,
        check=True,
        capture_output=True,
        text=True,
    )
    return float(told.stdout)


@pytest.mark.parametrize(
    ("name", "words", "floor", "goal"),
    [
        ("check", ["check", SAMPLE], "import click, numpy, shapely", 1.6),
        (
            "proof to PDF",
            ["proof", SAMPLE, "-o", "p.pdf"],
            "import click, numpy, shapely, cairocffi, fontTools.ttLib",
            2.5,
        ),
        (
            "proof to PNG",
            ["proof", SAMPLE, "-o", "p.png"],
            "import click, numpy, shapely, cairocffi, fontTools.ttLib",
            2.5,
        ),
    ],
)
def test_a_command_holds_little_more_than_its_libraries(
    tmp_path: Path, name: str, words: list[str], floor: str, goal: float
) -> None:
    ratio = peak(tmp_path, "-m", "mockup", *words) / peak(tmp_path, "-c", floor)
    tell(f"peak memory of {name} over a process that runs '{floor}'", ratio, goal)


def kilobytes(work: Callable[[int], Callable[[], object]], count: int) -> float:
    """The most that Python held for a job on a fresh piece, beyond what was there before."""
    work(80)()
    job = work(count)
    tracemalloc.start()
    try:
        job()
        return tracemalloc.get_traced_memory()[1] / 1000
    finally:
        tracemalloc.stop()


@pytest.mark.parametrize(
    ("name", "work", "count", "goal"),
    [
        ("settling", settling, 2_000, 4.0),
        ("checks", checks, 800, 2.0),
        ("drawing", drawing, 800, 40.0),
    ],
)
def test_what_a_balloon_costs(
    name: str, work: Callable[[int], Callable[[], object]], count: int, goal: float
) -> None:
    each = kilobytes(work, count) / count
    tell(f"peak memory of {name}, {count:,} balloons", each, goal, "KB each")
