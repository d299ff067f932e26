"""CIEDE2000 against the published test pairs, and the laws of a difference."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.colour.difference import ciede2000, difference
from mockup.colour.srgb import Triple

DATA = Path(__file__).parent.parent / "data"
LAB = st.tuples(st.floats(0, 100), st.floats(-128, 127), st.floats(-128, 127))


def pairs() -> list[dict[str, str]]:
    lines = (DATA / "ciede2000_sharma34.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(lines[1:]))


def side(row: dict[str, str], which: str) -> Triple:
    return (float(row["L" + which]), float(row["a" + which]), float(row["b" + which]))


def test_all_34_pairs_are_there() -> None:
    assert [int(row["pair"]) for row in pairs()] == list(range(1, 35))


@pytest.mark.parametrize("row", pairs(), ids=lambda row: f"pair {row['pair']}")
def test_published_pair(row: dict[str, str]) -> None:
    # Source: Sharma, Wu, Dalal, Color Research & Application 30(1), 2005, Table 1 (four decimals).
    # Pair 14 turns on a hue difference of exactly 180 degrees: scalar atan2 gets it right.
    first, second = side(row, "1"), side(row, "2")
    assert ciede2000(first, second) == pytest.approx(float(row["dE00"]), abs=1e-4)


@given(LAB, LAB)
def test_a_difference_has_no_order_and_no_sign(first: Triple, second: Triple) -> None:
    there, back = ciede2000(first, second), ciede2000(second, first)
    assert there >= 0
    assert there == pytest.approx(back, rel=1e-9, abs=1e-6)


@given(LAB)
def test_the_same_colour_is_no_different(colour: Triple) -> None:
    assert ciede2000(colour, colour) == 0


def test_black_and_white_are_a_hundred_apart() -> None:
    # Source: with no chroma the formula leaves dL / S_L, and S_L is 1 at L = 50.
    assert difference("#000000", "#ffffff") == pytest.approx(100, abs=1e-6)
