"""``mockup colours`` as it is typed."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]


def test_orders_and_colours_are_told(run: Run, piece: Path) -> None:
    ran = run("colours", piece, "--most", "3")
    assert ran.code == 0
    assert "orders of colours keep mirror and alternation" in ran.out
    assert ran.out.count("  buy ") == 3
    assert "Told apart best, from the palette harbour" in ran.out


def test_a_shortage_names_the_clusters(run: Run, piece: Path) -> None:
    data = json.loads(run("colours", piece, "--short", "A=6", "--json").out)
    (short,) = data["short"]
    assert short["clusters"] >= 2
    assert all(len(change["before"]) == len(change["after"]) for change in short["changes"])


def test_a_whole_ring_has_one_order(run: Run, samples: Path) -> None:
    data = json.loads(run("colours", samples / "winter-ring.toml", "--json").out)
    assert data["orders"]["count"] == 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--short", "Q=3"], "'Q' is no letter"),
        (["--short", "A"], "write A=6"),
        (["--short", "A=0"], "has no number"),
        (["--palette", "harbor"], "did you mean 'harbour'"),
        (["--at-hand", "B=x"], "--at-hand: 'B=x' has no number"),
    ],
)
def test_wrong_words_end_in_a_sentence(run: Run, piece: Path, words: list[str], says: str) -> None:
    ran = run("colours", piece, *words)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err


def test_a_shortage_beyond_reach_ends_with_1(run: Run, piece: Path) -> None:
    ran = run("colours", piece, "--short", "A=900")
    assert ran.code == 1
    assert "no change of colours makes up for" in ran.err
