"""Closing a whole ring."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.packing.closing import (
    closing_options,
    diameter_to_close,
    squeeze_to_close,
    touching_singles,
)
from mockup.packing.frames import Ring
from mockup.packing.inflation import NotASize
from mockup.packing.neighbours import touching_pairs
from mockup.packing.nesting import equal_pitch

law = settings(max_examples=60, deadline=None)

kinds = st.integers(1, 6)
sizes = st.floats(50.0, 400.0)
squeezes = st.floats(-0.2, 0.25)


@law
@given(n=kinds, diameter=sizes, squeeze=squeezes, count=st.integers(1, 300))
def test_the_squeeze_that_closes_is_the_one_that_was_packed(
    n: int, diameter: float, squeeze: float, count: int
) -> None:
    length = count * equal_pitch(n, diameter, squeeze)
    assert squeeze_to_close(length, count, n, diameter) == pytest.approx(squeeze, abs=1e-9)
    assert diameter_to_close(length, count, n, squeeze) == pytest.approx(diameter, rel=1e-9)


@law
@given(n=kinds, diameter=sizes, length=st.floats(2000.0, 20_000.0), period=st.integers(1, 6))
def test_the_options_close_keep_the_parity_and_the_pattern(
    n: int, diameter: float, length: float, period: int
) -> None:
    options = closing_options(length, n, diameter, period=period)
    for one in options:
        assert one.count % period == 0
        assert n == 1 or one.count % 2 == 0
        assert one.count * equal_pitch(n, one.diameter, 0.1) == pytest.approx(length)
        assert one.count * equal_pitch(n, diameter, one.squeeze) == pytest.approx(length)
    assert options[0].count < options[1].count < options[2].count


@law
@given(n=kinds, diameter=sizes, length=st.floats(3000.0, 20_000.0))
def test_the_middle_option_needs_the_squeeze_nearest_to_the_usual(
    n: int, diameter: float, length: float
) -> None:
    misses = [abs(one.squeeze - 0.1) for one in closing_options(length, n, diameter)]
    assert min(misses) == misses[1]


def test_quads_of_four_and_a_half_inches_on_a_thirty_inch_ring() -> None:
    counts = [one.count for one in closing_options(Ring(762.0, 12.7).length, 4, 114.3)]
    assert counts == [26, 28, 30]


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6, 7, 12, 24])
def test_a_ring_of_touching_singles(count: int) -> None:
    # d = 2 R sin(pi/N): the edge of a regular N-gon of circumradius R (Euclid).
    radius, turn = 350.0, 2 * pi * np.arange(count) / count
    diameter = touching_singles(radius, count)
    assert diameter == pytest.approx(2 * radius * np.sin(pi / count))
    centres = radius * np.column_stack([np.sin(turn), np.cos(turn), np.zeros(count)])
    radii = np.full(count, diameter / 2)
    assert len(touching_pairs(centres, radii, 1e-9)) == (count if count > 2 else 1)
    assert len(touching_pairs(centres, radii, -1e-9)) == 0


@pytest.mark.parametrize(
    ("length", "count", "n", "diameter"),
    [(0.0, 4, 4, 100.0), (1000.0, 0, 4, 100.0), (1000.0, 4, 0, 100.0), (1000.0, 4, 4, -1.0)],
)
def test_what_cannot_close_is_refused(length: float, count: int, n: int, diameter: float) -> None:
    with pytest.raises(NotASize):
        squeeze_to_close(length, count, n, diameter)


def test_a_squeeze_that_lets_clusters_slip_through_one_another_is_refused() -> None:
    with pytest.raises(NotASize, match=r"clusters of 2 slip through one another from .* 0\.29"):
        closing_options(2000.0, 2, 100.0, squeeze=0.3)
    with pytest.raises(NotASize, match="two or more"):
        touching_singles(100.0, 1)
