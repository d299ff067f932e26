"""The pitch of clusters, against published antiprisms and what bending costs."""

from __future__ import annotations

import csv
from itertools import pairwise
from math import nan, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from mockup.packing.clusters import offsets
from mockup.packing.frames import Frame, Ring, Straight
from mockup.packing.inflation import NotASize
from mockup.packing.neighbours import touching_pairs
from mockup.packing.nesting import ClusterShape, crossing, equal_pitch, next_turn, pitch

law = settings(max_examples=60, deadline=None)

Floats = NDArray[np.float64]

# Source of the table: R. Klitzing, Polytopes, https://bendwavy.org/klitzing/incmats/nd-ap.htm
ANTIPRISMS = Path(__file__).parent.parent / "data" / "antiprism_and_ring.csv"

shapes = st.builds(ClusterShape, st.integers(1, 6), st.floats(50.0, 400.0), st.floats(0.0, 360.0))
squeezes = st.floats(-0.2, 0.4)


def antiprisms() -> list[dict[str, float]]:
    with ANTIPRISMS.open(encoding="utf-8", newline="") as table:
        rows = csv.DictReader(line for line in table if not line.startswith("#"))
        return [{name: float(figure) for name, figure in row.items()} for row in rows]


def nestled(count: int, diameter: float, clusters: int) -> list[ClusterShape]:
    run = [ClusterShape(count, diameter, 0.0)]
    while len(run) < clusters:
        run.append(ClusterShape(count, diameter, next_turn(run[-1])))
    return run


def tied(frame: Frame, run: list[ClusterShape], squeeze: float) -> tuple[Floats, NDArray[np.intp]]:
    """Centres (k, 3) of a run tied by the straight pitch from the frame's start, and owners."""
    gaps = [pitch(a, b, squeeze) for a, b in pairwise(run)]
    centres = []
    for shape, s in zip(run, np.cumsum([0.0, *gaps]), strict=True):
        axes = np.array([[*frame.normal(s), 0.0], [0.0, 0.0, 1.0]])
        spread = offsets(shape.count, shape.diameter, shape.turn_deg)
        centres.append(np.array([*frame.at(s), 0.0]) + spread @ axes)
    owner = np.repeat(np.arange(len(run)), [shape.count for shape in run])
    return np.concatenate(centres), owner


@pytest.mark.parametrize("row", antiprisms(), ids=lambda row: f"n={row['n']:.0f}")
def test_hard_clusters_stand_as_the_uniform_antiprism(row: dict[str, float]) -> None:
    count, expected = int(row["n"]), row["pitch_over_d"]
    assert equal_pitch(count, 1.0, 0.0) == pytest.approx(expected, abs=2e-9)
    first, second = nestled(count, 250.0, 2)
    assert pitch(first, second, 0.0) == pytest.approx(250.0 * expected, abs=1e-6)


@pytest.mark.parametrize("count", [3, 4, 5, 6])
def test_three_hard_rings_have_the_antiprisms_contacts(count: int) -> None:
    # n contacts in each ring and 2n between rings (the table's first line).
    centres, _ = tied(Straight(1000.0, 12.0), nestled(count, 100.0, 3), 0.0)
    radii = np.full(len(centres), 50.0)
    assert len(touching_pairs(centres, radii, 1e-9)) == count * 3 + 2 * count * 2
    assert len(touching_pairs(centres, radii, -1e-9)) == 0


def test_a_quad_pressed_by_a_tenth_sits_at_0_719_of_its_diameter() -> None:
    # The usual range of packed quads is 0.65 to 0.80 (common practice, no source).
    assert equal_pitch(4, 1.0, 0.1) == pytest.approx(0.719, abs=5e-4)


# Worked for this project: worst crossing of quads at a squeeze of 0.10, by ring radius over d.
@pytest.mark.parametrize(
    ("radius_share", "expected"),
    [(20.0, 0.12), (8.0, 0.14), (5.0, 0.17), (3.4, 0.20), (2.2, 0.25), (1.6, 0.30)],
)
def test_what_bending_costs(radius_share: float, expected: float) -> None:
    tube, diameter = 12.0, 114.3
    ring = Ring(2 * radius_share * diameter + tube, tube)
    centres, owner = tied(ring, nestled(4, diameter, 6), 0.1)
    worst, pair = crossing(centres, np.full(len(centres), diameter), owner)
    assert worst == pytest.approx(expected, abs=0.005)
    assert pair is not None
    assert owner[pair[0]] != owner[pair[1]]


@law
@given(count=st.integers(1, 6), diameter=st.floats(50.0, 400.0), squeeze=squeezes)
def test_the_closed_form_of_equal_clusters_is_the_pitch(
    count: int, diameter: float, squeeze: float
) -> None:
    first, second = nestled(count, diameter, 2)
    expected = equal_pitch(count, diameter, squeeze)
    # Where the pitch falls to nothing its square still agrees to rounding.
    assert pitch(first, second, squeeze) ** 2 == pytest.approx(expected**2, abs=diameter**2 * 1e-12)


@law
@given(a=shapes, b=shapes, squeeze=squeezes)
def test_at_the_pitch_the_worst_pair_is_in_contact(
    a: ClusterShape, b: ClusterShape, squeeze: float
) -> None:
    gap = pitch(a, b, squeeze)
    across = offsets(a.count, a.diameter, a.turn_deg)[:, None] - offsets(
        b.count, b.diameter, b.turn_deg
    )
    apart = np.sqrt((across**2).sum(axis=2) + gap**2)
    slack = float(apart.min()) - (1 - squeeze) * (a.diameter + b.diameter) / 2
    assert slack == pytest.approx(0.0, abs=1e-6) if gap else slack >= -1e-6


@law
@given(a=shapes, b=shapes, squeeze=squeezes)
def test_the_pitch_is_the_same_either_way_round(
    a: ClusterShape, b: ClusterShape, squeeze: float
) -> None:
    assert pitch(a, b, squeeze) == pitch(b, a, squeeze)


@law
@given(a=shapes, b=shapes, squeeze=squeezes, scale=st.floats(0.1, 10.0))
def test_the_pitch_goes_with_the_sizes(
    a: ClusterShape, b: ClusterShape, squeeze: float, scale: float
) -> None:
    larger = (ClusterShape(one.count, one.diameter * scale, one.turn_deg) for one in (a, b))
    assert pitch(*larger, squeeze) ** 2 == pytest.approx(
        (scale * pitch(a, b, squeeze)) ** 2, rel=1e-9, abs=scale**2 * 1e-6
    )


@law
@given(a=shapes, b=shapes, least=squeezes, more=st.floats(0.0, 0.5))
def test_more_squeeze_never_needs_more_room(
    a: ClusterShape, b: ClusterShape, least: float, more: float
) -> None:
    assert pitch(a, b, least + more) <= pitch(a, b, least)


def test_half_a_place_on_for_the_next_cluster() -> None:
    assert [next_turn(ClusterShape(n, 100.0, 10.0)) for n in (1, 2, 3, 4, 5)] == [
        10.0, 100.0, 70.0, 55.0, 46.0,
    ]  # fmt: skip


def test_a_large_single_beside_a_small_one_touches_at_their_mean_diameter() -> None:
    # Both on the same side, centres 60 and 40 out: 100^2 = p^2 + 20^2.
    gap = pitch(ClusterShape(1, 120.0), ClusterShape(1, 80.0), 0.0)
    assert gap == pytest.approx(sqrt(100.0**2 - 20.0**2))


def test_crossing_does_not_count_balloons_of_one_cluster() -> None:
    centres, sizes = [[0, 0, 0], [90, 0, 0], [185, 0, 0]], [100, 100, 100]
    share, pair = crossing(centres, sizes)
    assert (round(share, 12), pair) == (0.10, (0, 1))
    share, pair = crossing(centres, sizes, [0, 0, 1])
    assert (round(share, 12), pair) == (0.05, (1, 2))
    assert crossing(centres, sizes, [0, 0, 0]) == (0.0, None)
    assert crossing([[0, 0, 0], [100, 0, 0]], [100, 100]) == (0.0, None)
    assert crossing([], []) == (0.0, None)


def test_what_cannot_nestle_is_refused() -> None:
    with pytest.raises(NotASize, match="squeeze"):
        pitch(ClusterShape(4, 100.0), ClusterShape(4, 100.0), 1.0)
    with pytest.raises(NotASize, match="turn_deg"):
        ClusterShape(4, 100.0, nan)
    with pytest.raises(NotASize, match="3 balloons need 3 cluster numbers, not 2"):
        crossing(np.eye(3), [1, 1, 1], [0, 1])
