"""The table of ``mockup close`` against Euclid's polygon, the antiprism and its own laws."""

from __future__ import annotations

import csv
from dataclasses import replace
from math import pi, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.design.model import Kind, Pump
from mockup.design.wishes_closing import ClosingWish
from mockup.design.wishes_fills import Fill
from mockup.errors import FaultsFound
from mockup.suggest.closing import closing_table, exact_diameter, squeeze_needed, step_of

TABLE = Path(__file__).parents[1] / "data" / "antiprism_and_ring.csv"
KINDS: dict[int, Kind] = {2: "pair", 3: "trio", 4: "quad", 5: "five"}


def wish(kind: Kind = "quad", *, squeeze: float = 0.1, period: int = 1) -> ClosingWish:
    radius = 374.65
    return ClosingWish(
        length=2 * pi * radius,
        closed=True,
        radius=radius,
        kind=kind,
        fills=(Fill(114.3, 4.0),),
        squeeze=squeeze,
        period=period,
        wanted=None,
        pump=Pump(),
        unit="in",
    )


@pytest.mark.parametrize("count", [6, 12, 24, 41])
def test_singles_touch_across_the_chord(count: int) -> None:
    """Side of a regular N-gon in a circle of radius R: 2 R sin(pi/N) (Euclid)."""
    asked = wish("single", squeeze=0.0)
    chord = 2 * asked.radius * sin(pi / count)
    assert exact_diameter(asked, count) == pytest.approx(chord, abs=1e-9)
    assert squeeze_needed(asked, Fill(chord), count) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("n", [2, 3, 4, 5])
def test_unpressed_clusters_close_at_the_antiprisms_pitch(n: int) -> None:
    """R. Klitzing, Polytopes: height of the uniform n-antiprism, as in the table's first line."""
    with TABLE.open(encoding="utf-8") as lines:
        rows = csv.DictReader(line for line in lines if not line.startswith("#"))
        pitch = {int(row["n"]): float(row["pitch_over_d"]) for row in rows}[n]
    asked = wish(KINDS[n], squeeze=0.0)
    assert exact_diameter(asked, 30) == pytest.approx(asked.length / 30 / pitch, rel=1e-8)


def test_the_fill_that_is_exact_closes_at_the_usual_squeeze() -> None:
    for row in closing_table(wish()).rows:
        needed = squeeze_needed(wish(), Fill(row.exact), row.count)
        assert needed == pytest.approx(0.1, abs=1e-12)


@given(st.integers(1, 9), st.sampled_from(["pair", "trio", "quad", "five"]))
def test_counts_are_even_and_keep_the_colours(period: int, kind: Kind) -> None:
    asked = wish(kind, period=period)
    rows = closing_table(asked).rows
    assert all(row.count % 2 == 0 and row.count % period == 0 for row in rows)
    assert sum(row.best for row in rows) == 1


def test_the_best_is_nearer_to_the_usual_squeeze_than_its_neighbours() -> None:
    rows = closing_table(wish()).rows
    best = next(row for row in rows if row.best)
    assert all(abs(best.squeeze - 0.1) <= abs(row.squeeze - 0.1) for row in rows)
    assert [row.count for row in rows] == [best.count - 2, best.count, best.count + 2]


def test_a_stretch_counts_its_gaps() -> None:
    asked = replace(wish(), closed=False, length=1000.0, radius=0.0)
    assert step_of(asked) == 1
    ten = exact_diameter(asked, 11)
    assert ten == pytest.approx(exact_diameter(replace(asked, length=2000.0), 21))


def test_an_odd_wish_is_refused_with_its_neighbours() -> None:
    with pytest.raises(FaultsFound, match="steps of 2; write 12 or 14"):
        closing_table(replace(wish(), wanted=13))


def test_a_squeeze_at_which_clusters_slip_through_is_refused() -> None:
    with pytest.raises(FaultsFound, match="lighter squeeze"):
        closing_table(wish("pair", squeeze=0.35))
