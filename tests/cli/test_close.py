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
        (["--ring", "30in", "--count", "2"], "too few to close: the fewest are 4"),
        (["--ring", "30in", "--count", "100"], "would be pressed by 42%, and 25% is most"),
        (["--ring", "30in", "--period", "70"], "no count of clusters filled to 4 strokes"),
        (["--stretch", "100cm", "--count", "3"], "would leave gaps of 15 7/8 in"),
        (["--stretch", "100cm", "--count", "3"], "write 12 to 14, or '--fill \"27 3/8 in\"'"),
        (["--stretch", "1/2in"], "write a smaller fill, or a longer length"),
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


@pytest.mark.parametrize("option", ["--ring=20in", "--kind=pair", "--tube=1in", "--unit=cm"])
def test_what_the_file_says_is_not_said_again(run: Run, samples: Path, option: str) -> None:
    ran = run("close", samples / "winter-ring.toml", option)
    assert (ran.code, ran.out) == (2, "")
    assert f"'{option.partition('=')[0]}' cannot go with a piece file" in ran.err


def test_a_stretch_is_filled_with_the_files_clusters(run: Run, samples: Path) -> None:
    ran = run("close", samples / "garden-arc.toml", "--stretch", "40in", "--json")
    data = json.loads(ran.out)
    assert (data["length"], data["step"]) == (1016.0, 1)
    asked = ["--period", "3", "--json"]
    ran = run("close", samples / "garden-arc.toml", "--stretch", "60in", *asked)
    assert all(row["clusters"] % 3 == 0 for row in json.loads(ran.out)["rows"])


def test_clusters_that_stand_apart_are_told_by_their_gaps(run: Run) -> None:
    """What the touching clusters and their gaps come to is the stretch."""
    words = ["--stretch", "100cm", "--count", "11", "--squeeze", "0%", "--fill", "4"]
    ran = run("close", *words)
    assert "gaps of 1/8 in  " in ran.out
    assert "-" not in ran.out.replace("<-", "").replace("half-place", "")
    row = next(r for r in json.loads(run("close", *words, "--json").out)["rows"] if r["wished"])
    antiprism = 0.840896  # height of the uniform square antiprism over its edge (Klitzing)
    assert 10 * (row["gap"] + antiprism * row["fill"]) == pytest.approx(1000.0, abs=0.1)
