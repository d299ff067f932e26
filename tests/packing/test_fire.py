"""The relaxation engine by itself, on springs whose rest is known."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from mockup.packing.fire import Inertia, largest, relax

Floats = NDArray[np.float64]


def moved_by(inertia: Inertia, push: Floats) -> Floats:
    inertia.feel(push)
    return inertia.move()


law = settings(max_examples=60, deadline=None)


def as_it_is(rows: Floats) -> Floats:
    return rows


@law
@given(seed=st.integers(0, 2**32), stiffest=st.floats(1.0, 1e4), points=st.integers(1, 20))
def test_springs_come_to_rest_where_they_hang(seed: int, stiffest: float, points: int) -> None:
    random = np.random.default_rng(seed)
    rest, start = random.normal(0.0, 100.0, (2, 3, points))
    springs = random.uniform(0.02, 1.0, (3, points)) * stiffest

    def pull(places: Floats) -> Floats:
        pulled: Floats = springs * (rest - places)
        return pulled

    found, steps = relax(
        start, pull, as_it_is, stiffness=stiffest, still=1e-6 * stiffest, max_steps=5000
    )
    assert steps < 5000
    assert largest(pull(found)) <= 1e-6 * stiffest


def test_it_takes_no_more_steps_than_it_may() -> None:
    start = np.full((3, 1), 100.0)
    found, steps = relax(start, np.negative, as_it_is, stiffness=1.0, still=1e-9, max_steps=3)
    assert steps == 3
    assert 0.0 < largest(found) < largest(start)


def test_what_is_at_rest_takes_none() -> None:
    start = np.array([[1e-4], [0.0], [0.0]])
    found, steps = relax(start, np.negative, as_it_is, stiffness=1.0, still=1e-3, max_steps=9)
    assert (steps, found.tolist()) == (0, start.tolist())


def test_a_balloon_that_nothing_presses_does_not_drift_on() -> None:
    inertia = Inertia((3, 2), 1.0)
    inertia.velocity[:] = 5.0
    push = np.array([[1.0, 0.0], [1.0, 0.0], [1.0, 0.0]])
    moved = moved_by(inertia, push)
    assert moved[:, 0].min() > 0.0
    assert moved[:, 1].tolist() == [0.0, 0.0, 0.0]


def test_going_uphill_stops_everything() -> None:
    inertia = Inertia((3, 1), 1.0)
    inertia.velocity[:] = -5.0
    time, push = inertia.time, np.ones((3, 1))
    moved = moved_by(inertia, push)
    assert inertia.time == time / 2
    assert moved == pytest.approx(push * inertia.time**2)
