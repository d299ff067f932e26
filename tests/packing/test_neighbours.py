"""Who touches whom: a few by brute force, many by cells, both judged by a KD-tree."""

from __future__ import annotations

from math import nan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.spatial import KDTree

from mockup.packing import neighbours
from mockup.packing.inflation import NotASize
from mockup.packing.neighbours import overlaps, touching_pairs

Floats = NDArray[np.float64]

law = settings(max_examples=40, deadline=None)


def by_tree(centres: Floats, radii: Floats, reach: float) -> list[tuple[int, int]]:
    """The same question to scipy's KD-tree."""
    widest = 2 * float(radii.max()) + max(reach, 0.0) + 1e-9
    pairs = KDTree(centres).query_pairs(widest, output_type="ndarray")
    i, j = pairs.T
    near = np.linalg.norm(centres[i] - centres[j], axis=1) <= radii[i] + radii[j] + reach
    return sorted((int(i), int(j)) for i, j in pairs[near])


def cloud(seed: int, balloons: int, spread: float) -> tuple[Floats, Floats]:
    random = np.random.default_rng(seed)
    return random.normal(0.0, spread, (balloons, 3)), random.uniform(20.0, 80.0, balloons)


@law
@given(
    seed=st.integers(0, 2**32),
    balloons=st.integers(1, 300),
    spread=st.floats(10.0, 2000.0),
    reach=st.floats(-60.0, 60.0),
)
def test_the_same_contacts_as_a_kd_tree(
    seed: int, balloons: int, spread: float, reach: float
) -> None:
    centres, radii = cloud(seed, balloons, spread)
    found = touching_pairs(centres, radii, reach)
    assert [(int(i), int(j)) for i, j in found] == by_tree(centres, radii, reach)


@law
@given(seed=st.integers(0, 2**32), balloons=st.integers(1, 60), reach=st.floats(-60.0, 60.0))
def test_cells_and_brute_force_agree_for_a_few(seed: int, balloons: int, reach: float) -> None:
    centres, radii = cloud(seed, balloons, 150.0)
    few = neighbours._among_few(centres, radii, reach)
    assert np.array_equal(neighbours._among_many(centres, radii, reach), few)


@pytest.mark.parametrize("side", [3, 5, 6, 8])
def test_a_cubic_stack_touches_along_its_edges_only(side: int) -> None:
    # A simple cubic stack of side^3 touching spheres has 3 side^2 (side - 1) contacts.
    steps = np.arange(side) * 2.0
    stack = np.stack(np.meshgrid(steps, steps, steps), axis=-1).reshape(-1, 3)
    pairs = touching_pairs(stack, np.ones(side**3), 0.0)
    assert len(pairs) == 3 * side**2 * (side - 1)


def test_pairs_come_sorted_once_each_the_lower_first() -> None:
    pairs = touching_pairs(*cloud(7, 400, 200.0), 0.0)
    assert (pairs[:, 0] < pairs[:, 1]).all()
    assert np.array_equal(pairs, np.unique(pairs, axis=0))


@pytest.mark.parametrize("at_once", [1, 50, 10_000])
def test_the_size_of_a_batch_does_not_show(monkeypatch: pytest.MonkeyPatch, at_once: int) -> None:
    centres, radii = cloud(11, 250, 120.0)
    whole = touching_pairs(centres, radii, 0.0)
    monkeypatch.setattr(neighbours, "_AT_ONCE", at_once)
    assert np.array_equal(touching_pairs(centres, radii, 0.0), whole)


def test_candidates_are_held_in_batches() -> None:
    crowd = 3000  # all in one cell: four and a half million candidates
    low, high = np.arange(1, crowd + 1), np.full(crowd, crowd)
    sizes = [len(first) for first, _ in neighbours._candidates(low, high)]
    assert sum(sizes) == crowd * (crowd - 1) // 2
    assert max(sizes) <= neighbours._AT_ONCE


@pytest.mark.parametrize("balloons", [5, 200])
def test_balloons_in_one_place_and_balloons_far_away(balloons: int) -> None:
    together = np.zeros((balloons, 3))
    assert len(touching_pairs(together, np.ones(balloons), 0.0)) == balloons * (balloons - 1) // 2
    apart = np.arange(3.0 * balloons).reshape(-1, 3) ** 5
    assert len(touching_pairs(apart, np.full(balloons, 0.5), 0.0)) == 0


@pytest.mark.parametrize("balloons", [0, 1])
def test_nobody_to_touch(balloons: int) -> None:
    assert touching_pairs(np.zeros((balloons, 3)), np.ones(balloons), 0.0).shape == (0, 2)


def test_overlap_is_a_share_of_the_smaller_diameter() -> None:
    centres = np.array([[0.0, 0.0, 0.0], [0.0, 65.0, 0.0], [0.0, 0.0, 500.0]])
    radii = np.array([50.0, 25.0, 50.0])
    assert overlaps(centres, radii, np.array([[0, 1], [0, 2]])) == pytest.approx([0.2, -4.0])


def test_figures_that_are_none_are_refused() -> None:
    with pytest.raises(NotASize, match="2 centres need as many radii, not 1"):
        touching_pairs([[0, 0, 0], [1, 0, 0]], [1.0], 0.0)
    with pytest.raises(NotASize, match="finite"):
        touching_pairs([[0, 0, nan]], [1.0], 0.0)
