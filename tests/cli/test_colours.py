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


def test_a_book_ranks_by_what_its_bags_cost(run: Run, piece: Path) -> None:
    bag = '[[bag]]\nsize = "5in"\ncolour = "{}"\nfinish = "{}"\ncount = {}\nprice = {}\n'
    bags = [("deep teal", "gloss", 25, 9), ("oat", "matte", 25, 5), ("brass", "mirror", 10, 4)]
    piece.with_name("studio.toml").write_text("".join(bag.format(*b) for b in bags), "utf-8")
    orders = json.loads(run("colours", piece, "--json").out)["orders"]
    for order in orders["best"]:
        a, b, c = (order["balloons"][letter] for letter in "ABC")
        assert order["to_buy"] == 9 * -(-a // 25) + 5 * -(-b // 25) + 4 * -(-c // 10)
    costs = [order["to_buy"] for order in orders["best"]]
    assert costs == sorted(costs)


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
