"""What is asked of every pair of balloons stays affordable for thousands of them."""

from __future__ import annotations

import tracemalloc

import numpy as np
import pytest
from numpy.typing import NDArray

from mockup.render.necks import showing

Floats = NDArray[np.float64]


def heap(count: int, seed: int = 7) -> tuple[Floats, Floats, Floats, Floats]:
    """Necks and balloons thrown together: starts, ends, centres, radii."""
    chance = np.random.default_rng(seed)
    side = 40.0 * count ** (1 / 3)
    centres = chance.uniform(0.0, side, (count, 3))
    radii = chance.uniform(5.0, 30.0, count)
    way = chance.normal(size=(count, 3))
    way /= np.linalg.norm(way, axis=1)[:, None]
    starts = centres + way * (0.97 * radii)[:, None]
    return starts, centres + way * (1.5 * radii)[:, None], centres, radii


def looked_at_one_by_one(starts: Floats, ends: Floats, centres: Floats, radii: Floats) -> list[int]:
    """The necks with one of three points that the front of no balloon lies before."""
    seen = []
    for at, (start, end) in enumerate(zip(starts, ends, strict=True)):
        for share in (0.25, 0.6, 0.95):
            x, y, z = start + share * (end - start)
            rise = radii**2 - (centres[:, 0] - x) ** 2 - (centres[:, 1] - y) ** 2
            over = rise > 0
            if not (centres[over, 2] + np.sqrt(rise[over]) > z).any():
                seen.append(at)
                break
    return seen


@pytest.mark.parametrize("count", [1, 5, 60, 400])
def test_the_necks_that_show_are_those_that_nothing_hides(count: int) -> None:
    thrown = heap(count)
    assert showing(*thrown) == looked_at_one_by_one(*thrown)


def test_thousands_of_necks_take_no_table_of_all_pairs() -> None:
    """A table of all pairs of 4,000 balloons would hold 128 MB."""
    thrown = heap(4000)
    tracemalloc.start()
    try:
        assert showing(*thrown)
        assert tracemalloc.get_traced_memory()[1] < 40e6
    finally:
        tracemalloc.stop()
