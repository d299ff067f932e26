"""How fast balloons are placed and settled: times, ratios within one run, and how they grow.

Targets, beside a sort that takes about 18 ms: 100 balloons 30 ms, 1,000 in 0.5 s, 10,000 in 8 s.
"""

from __future__ import annotations

from collections.abc import Callable
from math import log
from time import process_time
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from pytest_benchmark.fixture import BenchmarkFixture
from scipy.optimize import minimize
from scipy.spatial import KDTree

from mockup.packing.balancing import forget
from mockup.packing.clusters import offsets
from mockup.packing.frames import Ring
from mockup.packing.neighbours import touching_pairs
from mockup.packing.nesting import ClusterShape, next_turn, pitch
from mockup.packing.settling import Settled, settle
from tests.benchmarks.ratios import NUMBERS, by_turns, once, tell

Floats = NDArray[np.float64]
Tied = tuple[Floats, Floats, Floats]

DIAMETER, TUBE, NECK = 114.3, 12.7, 0.3
TARGETS = {100: 1.7, 1_000: 28.0, 10_000: 450.0}


def placed(balloons: int) -> Tied:
    """Quads nestled over the top of a ring that they fill by three quarters."""
    clusters = balloons // 4
    shape, centres, knots = ClusterShape(4, DIAMETER, 45.0), [], []
    gap = pitch(shape, ClusterShape(4, DIAMETER, next_turn(shape)), 0.1)
    ring = Ring(clusters * gap / 0.75 / np.pi + 2 * TUBE, TUBE)
    for step in np.arange(clusters) - clusters // 2:
        s = step * gap
        axes = np.array([[*ring.normal(s), 0.0], [0.0, 0.0, 1.0]])
        knot = np.array([*ring.at(s), 0.0])
        centres.append(knot + offsets(4, DIAMETER, 45.0 * (step % 2)) @ axes)
        knots.append(np.tile(knot, (4, 1)))
    return np.concatenate(centres), np.full(4 * clusters, DIAMETER), np.concatenate(knots)


def place_and_settle(balloons: int) -> Settled:
    forget()
    return settle(*placed(balloons))


def energy_and_slope(flat: Floats, tied: Tied) -> tuple[float, Floats]:
    """The same energy for L-BFGS, with scipy's KD-tree and np.add.at in place of our own."""
    centres, (_, sizes, knots) = flat.reshape(-1, 3), tied
    pairs = KDTree(centres).query_pairs(float(sizes.max()), output_type="ndarray")
    gap = centres[pairs[:, 0]] - centres[pairs[:, 1]]
    apart = np.linalg.norm(gap, axis=1)
    overlap = np.maximum(sizes[pairs].sum(axis=1) / 2 - apart, 0.0)
    push = gap * (overlap / apart)[:, None]
    neck = centres - knots
    length = np.linalg.norm(neck, axis=1)
    stretch = np.maximum(length - sizes / 2, 0.0)
    slope = neck * (NECK * stretch / np.maximum(length, 1e-9))[:, None]
    np.add.at(slope, pairs[:, 0], -push)
    np.add.at(slope, pairs[:, 1], push)
    return float((overlap**2).sum() + NECK * (stretch**2).sum()) / 2, slope.ravel()


def by_lbfgs(tied: Tied) -> float:
    found = minimize(
        energy_and_slope,
        tied[0].ravel(),
        args=(tied,),
        jac=True,
        method="L-BFGS-B",
        options={"gtol": 1e-3 * DIAMETER / np.sqrt(3), "maxiter": 5000},
    )
    return float(found.fun)


def timed(
    benchmark: BenchmarkFixture, rounds: int, work: Callable[..., Any], *given: object
) -> tuple[Any, float]:
    """What the work gives, and the best of ``rounds`` times it took."""
    result = benchmark.pedantic(work, given, rounds=rounds, warmup_rounds=1)  # type: ignore[no-untyped-call]  # the plugin has no hints for it
    assert benchmark.stats is not None
    return result, float(benchmark.stats["min"])


def seconds(best_of: int, balloons: int) -> float:
    times = []
    for _ in range(best_of):
        start = process_time()
        place_and_settle(balloons)
        times.append(process_time() - start)
    return min(times)


@pytest.mark.benchmark(timer=process_time)
@pytest.mark.parametrize(("balloons", "rounds"), [(100, 20), (1_000, 5), (10_000, 1)])
def test_place_and_settle(benchmark: BenchmarkFixture, balloons: int, rounds: int) -> None:
    settled, best = timed(benchmark, rounds, place_and_settle, balloons)
    assert settled.at_rest
    yard = min(once(lambda: sorted(NUMBERS)) for _ in range(5))
    tell(f"placing and settling {balloons:,} over a sort", best / yard, TARGETS[balloons])


@pytest.mark.parametrize("balloons", [100, 400])
def test_against_l_bfgs_on_a_kd_tree(balloons: int) -> None:
    tied = placed(balloons)
    settled, least = settle(*tied), by_lbfgs(tied)
    ratio = by_turns(lambda: settle(*tied), lambda: by_lbfgs(tied), rounds=5)
    tell(f"energy of {balloons} settled over L-BFGS-B's", settled.energy_end / least, 1.02)
    tell(f"settling {balloons} quads against L-BFGS-B on a KD-tree", ratio, 1.0)


@pytest.mark.parametrize("balloons", [100, 1_000, 10_000])
def test_contacts_against_a_kd_tree(balloons: int) -> None:
    centres, sizes, _ = placed(balloons)
    ratio = by_turns(
        lambda: touching_pairs(centres, sizes / 2, 0.0),
        lambda: KDTree(centres).query_pairs(DIAMETER, output_type="ndarray"),
        rounds=9,
    )
    tell(f"contacts of {balloons:,} against scipy's KD-tree in C", ratio, 10.0)


def test_how_the_time_grows() -> None:
    small, large = seconds(5, 400), seconds(2, 4_000)
    exponent = log(large / small) / log(10.0)
    tell("placing and settling, 400 to 4,000, grows as n to the", exponent, 1.8, "")
