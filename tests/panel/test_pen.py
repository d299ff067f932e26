"""The pen: arcs that stay round in wide boxes, meet their extremes and join without a seam."""

from __future__ import annotations

from itertools import pairwise
from math import hypot, pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.panel.pen import SEGMENTS, Pen

radii = st.floats(0.5, 5.0)


@settings(deadline=None, max_examples=40)
@given(rx=radii, ry=radii)
def test_a_full_arc_is_a_round_cornered_box_of_its_radii(rx: float, ry: float) -> None:
    points = Pen().arc((1.0, 2.0), (rx, ry), 0, 360).stroke()
    assert points.min(axis=0) == pytest.approx((1.0 - rx, 2.0 - ry), abs=1e-12)
    assert points.max(axis=0) == pytest.approx((1.0 + rx, 2.0 + ry), abs=1e-12)
    r = min(rx, ry)
    off = np.maximum(np.abs(points - (1.0, 2.0)) - (rx - r, ry - r), 0.0)
    assert np.hypot(off[:, 0], off[:, 1]) == pytest.approx(r)
    length = sum(hypot(*(b - a)) for a, b in pairwise(points))
    assert length == pytest.approx(2 * pi * r + 4 * (max(rx, ry) - r), rel=2e-3)


def test_an_arc_may_run_either_way() -> None:
    there = Pen().arc((0.0, 0.0), (2.0, 1.0), 30, 200).stroke()
    back = Pen().arc((0.0, 0.0), (2.0, 1.0), 200, 30).stroke()
    assert np.abs(there - back[::-1]).max() < 1e-12


def test_a_circle_has_the_promised_segments() -> None:
    assert len(Pen().arc((0.0, 0.0), (1.0, 1.0), 0, 360).stroke()) == SEGMENTS + 1


def test_a_curve_ends_where_it_should_and_follows_its_cubic() -> None:
    points = Pen().to(0.0, 0.0).curve((0.0, 1.0), (1.0, 2.0), (2.0, 2.0)).stroke()
    assert points[0].tolist() == [0.0, 0.0]
    assert points[-1].tolist() == [2.0, 2.0]
    t = np.linspace(0.0, 1.0, len(points))
    assert points[:, 0] == pytest.approx(3 * t**2 * (1 - t) + 2 * t**3)


def test_no_two_points_of_a_stroke_are_the_same() -> None:
    points = Pen().to(1.0, 0.0).to(1.0, 0.0).arc((0.0, 0.0), (1.0, 1.0), 0, 90).stroke()
    assert np.abs(np.diff(points, axis=0)).sum(axis=1).min() > 1e-9
