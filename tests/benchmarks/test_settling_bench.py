"""Settling the samples against scipy's L-BFGS-B on the same energy, with a list of its own pairs.

uv run pytest tests/benchmarks/test_settling_bench.py -s
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import minimize
from scipy.spatial import KDTree

from mockup.design.reading import read_design
from mockup.packing.settling import settle
from mockup.piece.assemble import assemble
from tests.benchmarks.ratios import by_turns, tell

Floats = NDArray[np.float64]
SAMPLES = Path(__file__).parent.parent.parent / "samples"
NECK = 0.3


def tied(name: str) -> tuple[Floats, Floats, Floats]:
    """Centres before settling, diameters and knots of a sample."""
    balloons = assemble(read_design(SAMPLES / f"{name}.toml")).balloons
    return (
        np.array([b.placed for b in balloons]),
        np.array([b.diameter for b in balloons]),
        np.array([b.knot for b in balloons]),
    )


def by_scipy(start: Floats, sizes: Floats, knots: Floats) -> float:
    """The least energy that L-BFGS-B finds; its pairs are listed once, with a diameter to spare."""
    pairs = KDTree(start).query_pairs(2 * float(sizes.max()), output_type="ndarray")
    first, second = pairs[:, 0], pairs[:, 1]
    reach = (sizes[first] + sizes[second]) / 2

    def energy(flat: Floats) -> tuple[float, Floats]:
        centres = flat.reshape(-1, 3)
        gap = centres[first] - centres[second]
        apart = np.sqrt((gap**2).sum(axis=1))
        over = np.maximum(reach - apart, 0.0)
        push = gap * (over / np.maximum(apart, 1e-9))[:, None]
        neck = centres - knots
        long = np.sqrt((neck**2).sum(axis=1))
        stretch = np.maximum(long - sizes / 2, 0.0)
        slope = neck * (NECK * stretch / np.maximum(long, 1e-9))[:, None]
        for axis in range(3):
            slope[:, axis] -= np.bincount(first, push[:, axis], len(sizes))
            slope[:, axis] += np.bincount(second, push[:, axis], len(sizes))
        return float((over**2).sum() + NECK * (stretch**2).sum()) / 2, slope.ravel()

    found = minimize(
        energy,
        start.ravel(),
        jac=True,
        method="L-BFGS-B",
        options={"gtol": 1e-3 * float(sizes.min()) / np.sqrt(3), "maxiter": 5000},
    )
    return float(found.fun)


@pytest.mark.parametrize("name", ["ruby-thirty", "winter-ring"])
def test_settling_a_sample_against_l_bfgs(name: str) -> None:
    start, sizes, knots = tied(name)
    settled, least = settle(start, sizes, knots), by_scipy(start, sizes, knots)
    assert settled.at_rest
    assert settled.energy_end == pytest.approx(least, rel=0.02)
    ratio = by_turns(
        lambda: settle(start, sizes, knots), lambda: by_scipy(start, sizes, knots), rounds=9
    )
    tell(f"settling {name}, {len(sizes)} balloons, against L-BFGS-B", ratio, 1.0)
