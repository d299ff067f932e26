"""The table of every ratio with its goal, at the end; RATIOS=file keeps it as Markdown."""

from __future__ import annotations

import os

# Idle threads of a library spin, and would be counted as its processor time.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from pathlib import Path

import pytest

from tests.benchmarks.ratios import ROWS, table


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    if not ROWS:
        return
    lines = table(ROWS)
    terminalreporter.section("ratios, each measured beside its yardstick in this run")
    for line in lines:
        terminalreporter.write_line(line)
    if file := os.environ.get("RATIOS"):
        Path(file).write_text("\n".join(lines) + "\n", "utf-8")
