"""``mockup close`` as it is typed."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]


def test_it_marks_the_count_that_closes_best(run: Run) -> None:
    ran = run("close", "--ring", "30in", "--fill", "4")
    assert ran.code == 0
    row = next(line for line in ran.out.splitlines() if "closes best" in line)
    assert row.split()[5] == "28"


def test_a_file_gives_its_ring_and_its_fill(run: Run, samples: Path) -> None:
    ran = run("close", samples / "winter-ring.toml", "--json")
    data = json.loads(ran.out)
    assert data["kind"] == "quad"
    assert [row["clusters"] for row in data["rows"] if row["best"]] == [32]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ([], "name a piece file, or write --ring 30in"),
        (["--ring", "30"], "--ring: '30' has no unit"),
        (["--ring", "30in", "--stretch", "2ft"], "keep one"),
        (["--ring", "30in", "--fill", "some"], "neither strokes nor a size"),
        (["--ring", "30in", "--fill", "0"], "out of reach"),
        (["--ring", "30in", "--squeeze", "90%"], "write a share from 0% to 40%"),
        (["--ring", "30in", "--count", "13"], "write 12 or 14"),
        (["--ring", "1in"], "thicker than a quarter"),
    ],
)
def test_wrong_words_end_in_a_sentence(run: Run, words: list[str], says: str) -> None:
    ran = run("close", *words)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err


def test_an_arc_does_not_close(run: Run, samples: Path) -> None:
    ran = run("close", samples / "garden-arc.toml")
    assert ran.code == 2
    assert "does not close; write --stretch" in ran.err
