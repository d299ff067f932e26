"""Settling: its answers against other judges, and what it refuses."""

from __future__ import annotations

from itertools import pairwise
from math import inf, nan

import numpy as np
import pytest
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import minimize
from scipy.spatial.distance import pdist, squareform

from mockup.errors import MockupError
from mockup.packing import balancing, forces
from mockup.packing.clusters import offsets
from mockup.packing.frames import Frame, Ring, Straight
from mockup.packing.nesting import ClusterShape, next_turn, pitch
from mockup.packing.settling import CannotSettle, settle

Floats = NDArray[np.float64]
Tied = tuple[Floats, Floats, Floats]

NECK = 0.3
BAR = Straight(4000.0, 12.7)


def tied(frame: Frame, count: int, diameters: list[float], squeeze: float) -> Tied:
    """A crescent: the first diameter in the middle, the others outward on both sides."""
    run = [ClusterShape(count, diameters[0], 180.0 / count)]
    for diameter in diameters[1:]:
        run.append(ClusterShape(count, diameter, next_turn(run[-1])))
    out = np.cumsum([0.0, *(pitch(a, b, squeeze) for a, b in pairwise(run))])
    sides = [(side * s, shape) for s, shape in zip(out, run, strict=True) for side in (1, -1)]
    middle = frame.s_at_deg(0.0)
    centres, knots = [], []
    for along, shape in sides[1:]:
        s = middle + along
        axes = np.array([[*frame.normal(s), 0.0], [0.0, 0.0, 1.0]])
        knot = np.array([*frame.at(s), 0.0])
        centres.append(knot + offsets(shape.count, shape.diameter, shape.turn_deg) @ axes)
        knots.append(np.repeat(knot[None], shape.count, axis=0))
    sizes = np.repeat([shape.diameter for _, shape in sides[1:]], count)
    return np.concatenate(centres), sizes, np.concatenate(knots)


def energy(centres: Floats, sizes: Floats, knots: Floats, neck: float = NECK) -> float:
    """The energy written out over all pairs, with scipy's distances and no neighbour list."""
    contact = np.add.outer(sizes, sizes)[np.triu_indices(len(sizes), 1)] / 2
    overlap = np.maximum(contact - pdist(centres), 0.0)
    stretch = np.maximum(np.linalg.norm(centres - knots, axis=1) - sizes / 2, 0.0)
    return float((overlap**2).sum() + neck * (stretch**2).sum()) / 2


def by_lbfgs(centres: Floats, sizes: Floats, knots: Floats) -> float:
    """The energy that scipy's L-BFGS comes down to from the same start."""

    def of(flat: NDArray[np.float64]) -> float:
        return energy(flat.reshape(-1, 3), sizes, knots)

    return float(minimize(of, np.ravel(centres), method="L-BFGS-B").fun)


SMALL = {
    "three quads on a bar": tied(BAR, 4, [120.0, 110.0], 0.10),
    "three trios on a ring": tied(Ring(762.0, 12.7), 3, [130.0, 100.0], 0.10),
    "five pairs on a small ring": tied(Ring(400.0, 12.7), 2, [120.0, 110.0, 90.0], 0.15),
}


@pytest.mark.parametrize("name", SMALL)
def test_l_bfgs_on_the_same_energy_comes_down_to_the_same(name: str) -> None:
    settled = settle(*SMALL[name], tolerance=1e-6)
    assert settled.at_rest
    assert settled.energy_end == pytest.approx(by_lbfgs(*SMALL[name]), rel=1e-4)
    assert settled.energy_end < 0.9 * settled.energy_start


@pytest.mark.parametrize("name", SMALL)
def test_the_figures_reported_are_those_of_the_balloons(name: str) -> None:
    centres, sizes, knots = SMALL[name]
    settled = settle(centres, sizes, knots)
    assert settled.energy_start == pytest.approx(energy(centres, sizes, knots))
    assert settled.energy_end == pytest.approx(energy(settled.centres, sizes, knots))
    shares = (np.add.outer(sizes, sizes) / 2 - squareform(pdist(settled.centres))) / np.minimum(
        *np.meshgrid(sizes, sizes)
    )
    np.fill_diagonal(shares, 0.0)
    assert settled.pressed == pytest.approx(shares.max())
    necks = np.stack([centres - knots, settled.centres - knots])
    before, after = necks / np.linalg.norm(necks, axis=2, keepdims=True)
    turned = np.degrees(np.arccos(np.clip((before * after).sum(axis=1), -1.0, 1.0)))
    assert settled.swing_deg == pytest.approx(turned, abs=1e-5)


@pytest.mark.parametrize("name", SMALL)
def test_no_force_is_left_over_the_tolerance(name: str) -> None:
    # The slope of the written-out energy, by central differences, is the force.
    centres, sizes, knots = SMALL[name]
    settled, step = settle(centres, sizes, knots), 1e-4
    slope = np.empty_like(centres)
    for index in np.ndindex(*centres.shape):
        aside = np.zeros_like(centres)
        aside[index] = step
        ahead, behind = (energy(settled.centres + d, sizes, knots) for d in (aside, -aside))
        slope[index] = (ahead - behind) / (2 * step)
    largest = np.linalg.norm(slope, axis=1).max()
    assert largest == pytest.approx(settled.largest_force, abs=1e-4)
    assert largest <= 1e-3 * sizes.mean() + 1e-4


@pytest.mark.parametrize("count", [3, 4, 5])
def test_with_weak_necks_hard_clusters_on_a_bar_stay_the_antiprism(count: int) -> None:
    centres, sizes, knots = tied(BAR, count, [100.0] * 4, 0.0)
    moved = []
    for weak in (1e-2, 1e-3, 1e-4):
        settled = settle(centres, sizes, knots, neck_stiffness=weak, tolerance=1e-8)
        assert settled.at_rest
        moved.append(np.linalg.norm(settled.centres - centres, axis=1).max())
    # The weaker the necks the less moves, in proportion: nothing in the limit.
    assert moved[0] < 2.0
    assert moved[1] < 0.2 * moved[0]
    assert moved[2] < 0.2 * moved[1]


def test_balloons_that_do_not_touch_stay_to_the_last_bit() -> None:
    centres = [[0.1, 0.2, 0.3], [150.7, 0.0, 0.0]]
    settled = settle(centres, [100.0, 100.0], centres)
    assert settled.centres.tolist() == centres
    assert (settled.steps, settled.at_rest, settled.pressed) == (0, True, 0.0)
    assert settled.swing_deg.tolist() == [0.0, 0.0]


def test_settled_balloons_settle_no_further() -> None:
    centres, sizes, knots = SMALL["three quads on a bar"]
    once = settle(centres, sizes, knots)
    again = settle(once.centres, sizes, knots)
    assert again.steps == 0
    assert np.array_equal(again.centres, once.centres)


def test_a_stretched_neck_alone_draws_its_balloon_to_the_knot() -> None:
    settled = settle([[0.0, 90.0, 0.0]], [100.0], [[0.0, 0.0, 0.0]], tolerance=1e-6)
    assert settled.centres[0] == pytest.approx([0.0, 50.0, 0.0], abs=1e-3)


def test_balloons_in_one_place_push_in_no_direction() -> None:
    settled = settle(np.zeros((2, 3)), [100.0, 100.0], np.zeros((2, 3)))
    assert settled.centres.tolist() == [[0.0, 0.0, 0.0]] * 2
    assert settled.pressed == 1.0


def test_when_the_steps_run_out_it_says_so() -> None:
    centres, sizes, knots = tied(Ring(762.0, 12.7), 4, [114.3] * 4, 0.10)
    for few in (0, 1, 5, 20):
        settled = settle(centres, sizes, knots, max_steps=few)
        assert not settled.at_rest
        assert settled.steps <= few
        assert settled.energy_end <= settled.energy_start


def test_a_motion_that_went_uphill_is_not_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    def scatter(points: Floats, *_: object, **__: object) -> tuple[Floats, int]:
        return points * 3.0, 7

    monkeypatch.setattr(balancing, "relax", scatter)
    centres, sizes, knots = SMALL["three quads on a bar"]
    settled = settle(centres, sizes, knots, max_steps=8)
    assert settled.energy_end == settled.energy_start
    assert np.array_equal(settled.centres, centres)
    assert not settled.at_rest


def test_very_stiff_necks_still_come_to_rest() -> None:
    centres, sizes, knots = SMALL["three quads on a bar"]
    settled = settle(centres, sizes, knots, neck_stiffness=1e6)
    assert settled.at_rest
    assert settled.energy_end < settled.energy_start


def test_rest_is_judged_by_who_is_near_now(monkeypatch: pytest.MonkeyPatch) -> None:
    # A neck draws the first balloon onto one that is out of reach of the list seen at the start.
    monkeypatch.setattr(forces, "_LOOK_EVERY", 10**9)
    centres = np.array([[0.0, 0.0, 0.0], [400.0, 0.0, 0.0]])
    knots = np.array([[390.0, 0.0, 0.0], [400.0, 0.0, 0.0]])
    settled = settle(centres, [100.0, 100.0], knots)
    assert settled.at_rest
    assert 339.0 < settled.centres[0, 0] < settled.centres[1, 0] - 99.5


def test_nothing_to_settle() -> None:
    settled = settle([], [], [])
    assert settled.centres.shape == (0, 3)
    assert settled.at_rest


@pytest.mark.parametrize(
    ("centres", "diameters", "knots", "says"),
    [
        ([[0, 0, 0]], [100.0, 100.0], [[0, 0, 0]], "1 centres, 2 diameters, 1 knots"),
        ([[0, 0, nan]], [100.0], [[0, 0, 0]], "finite"),
        ([[0, 0, 0]], [inf], [[0, 0, 0]], "finite"),
        ([[0, 0, 0]], [0.0], [[0, 0, 0]], "above zero"),
    ],
)
def test_balloons_that_are_none_are_refused(
    centres: ArrayLike, diameters: ArrayLike, knots: ArrayLike, says: str
) -> None:
    with pytest.raises(CannotSettle, match=says):
        settle(centres, diameters, knots)


@pytest.mark.parametrize(
    "figures", [{"neck_stiffness": -0.1}, {"tolerance": 0.0}, {"max_steps": -1}]
)
def test_figures_that_make_no_sense_are_refused_by_name(figures: dict[str, int]) -> None:
    with pytest.raises(MockupError, match=next(iter(figures))):
        settle([[0, 0, 0]], [100.0], [[0, 0, 0]], **figures)
