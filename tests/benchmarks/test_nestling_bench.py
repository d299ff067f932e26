"""Nestling two clusters against scipy's SLSQP on the same question, in one run.

uv run pytest tests/benchmarks/test_nestling_bench.py -s
"""

from __future__ import annotations

from itertools import product
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import minimize

from mockup.packing.clusters import offsets
from mockup.packing.nesting import ClusterShape, pitch
from tests.benchmarks.ratios import by_turns, tell

Floats = NDArray[np.float64]
SQUEEZE = 0.1
PAIRS = [
    (ClusterShape(a, d, 0.0), ClusterShape(b, e, turn))
    for a, b, (d, e), turn in product(
        (2, 3, 4, 5), (3, 4), ((114.3, 114.3), (120.0, 95.0)), (45.0, 20.0)
    )
]


def by_slsqp(a: ClusterShape, b: ClusterShape) -> float:
    """The least pitch at which no two balloons are nearer than their contact."""
    across = (
        offsets(a.count, a.diameter, a.turn_deg)[:, None]
        - offsets(b.count, b.diameter, b.turn_deg)[None]
    )
    aside = (across**2).sum(axis=2).ravel()
    contact = (1 - SQUEEZE) * (a.diameter + b.diameter) / 2

    def room(at: Floats) -> Floats:
        return np.asarray(aside + at[0] ** 2 - contact**2)

    def level(at: Floats) -> tuple[float, Floats]:
        return float(at[0]), np.ones(1)

    apart: Any = {
        "type": "ineq",
        "fun": room,
        "jac": lambda at: np.full((len(aside), 1), 2 * at[0]),
    }
    found = minimize(
        level,
        np.array([contact], dtype=np.float64),
        jac=True,
        bounds=[(0.0, np.inf)],
        constraints=apart,
        method="SLSQP",
        options={"ftol": 1e-9},
    )
    return float(found.x[0])


def test_nestling_against_slsqp() -> None:
    """Each pitch is reckoned anew: what the program remembers of earlier pairs is cleared."""
    for a, b in PAIRS:
        assert pitch(a, b, SQUEEZE) == pytest.approx(by_slsqp(a, b), abs=1e-3)

    def ours() -> None:
        pitch.cache_clear()
        for a, b in PAIRS:
            pitch(a, b, SQUEEZE)

    def theirs() -> None:
        for a, b in PAIRS:
            by_slsqp(a, b)

    ratio = by_turns(ours, theirs, rounds=9)
    tell(f"nestling {len(PAIRS)} pairs of clusters against SLSQP", ratio, 0.1)
