"""Path data, judged by fontTools' own reader of SVG paths and by the equation of a circle."""

from __future__ import annotations

from math import hypot

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.svgLib.path import parse_path
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.render.pathdata import bounding_box, steps

PATHS = [
    "M10 120 Q20 100 30 120 C40 140 50 100 60 120 L70 110 H80 V130 Z",
    "M 90 66 A 14 8 25 0 0 112 86 A 14 8 25 0 0 90 66 Z",
    "M0 0 A 5 5 0 1 1 8 0",
    "M0 0 A 50 20 -30 0 1 40 30",
    "M0 0 A 1 1 0 0 1 40 30",
    "M-3.5,2e1 1.5 30 L 4-5",
]


@pytest.mark.parametrize("data", PATHS)
def test_box_as_fonttools_finds_it(data: str) -> None:
    pen = BoundsPen(None)
    parse_path(data, pen)
    assert bounding_box(data) == pytest.approx(pen.bounds, abs=0.02)


@settings(max_examples=80, deadline=None)
@given(
    st.floats(0.5, 50.0),
    st.tuples(st.floats(-20, 20), st.floats(-20, 20)),
    st.tuples(st.floats(-20, 20), st.floats(-20, 20)),
    st.sampled_from([(large, sweep) for large in (0, 1) for sweep in (0, 1)]),
)
def test_arcs_stay_on_a_circle(
    r: float, start: tuple[float, float], end: tuple[float, float], flags: tuple[int, int]
) -> None:
    """SVG 1.1, F.6: the arc lies on a circle of radius r, or of half the distance if r is less."""
    apart = hypot(end[0] - start[0], end[1] - start[1])
    if apart < 0.1:
        return
    data = "M {} {} A {r} {r} 0 {} {} {} {}".format(*start, *flags, *end, r=r)
    radius = max(r, apart / 2)
    mid = [_at(curve, 0.5) for curve in _curves(data)]
    ends = [_at(curve, 1.0) for curve in _curves(data)]
    assert ends[-1] == pytest.approx(end)
    for a, b, c in zip([start, *ends], mid, ends, strict=False):
        assert _radius(a, b, c) == pytest.approx(radius, rel=2e-3)


def test_large_and_sweep_choose_among_four_arcs() -> None:
    """Sweep 1 turns clockwise on a sheet whose y runs down; large takes the longer way round."""
    boxes = {
        (large, sweep): bounding_box(f"M 0 0 A 10 10 0 {large} {sweep} 10 10")
        for large in (0, 1)
        for sweep in (0, 1)
    }
    assert boxes[0, 1] == pytest.approx((0, 0, 10, 10), abs=0.01)
    assert boxes[0, 0] == pytest.approx((0, 0, 10, 10), abs=0.01)
    assert boxes[1, 1] == pytest.approx((0, -10, 20, 10), abs=0.01)
    assert boxes[1, 0] == pytest.approx((-10, 0, 10, 20), abs=0.01)


@pytest.mark.parametrize(
    "data",
    ["L 1 2", "M 1", "M 1 2 l 3 4", "M 1 2 L nan 3", "M 1 2 Z 3", "M 1 2 S 1 2 3 4", "M1 2C"],
)
def test_what_the_record_does_not_allow_is_refused(data: str) -> None:
    with pytest.raises(ValueError, match="path"):
        steps(data)


def test_degenerate_arcs_are_straight() -> None:
    """SVG 1.1, F.6.2: no radius, a straight line; the same point, nothing."""
    assert steps("M 0 0 A 0 5 0 0 1 9 9")[-1] == ("L", (9.0, 9.0))
    assert bounding_box("M 3 4 A 5 5 0 1 1 3 4") == (3.0, 4.0, 3.0, 4.0)


Curve = tuple[tuple[float, float], tuple[float, ...]]


def _curves(data: str) -> list[Curve]:
    found: list[Curve] = []
    pen = (0.0, 0.0)
    for letter, numbers in steps(data):
        if letter == "C":
            found.append((pen, numbers))
        pen = (numbers[-2], numbers[-1])
    return found


def _at(curve: Curve, t: float) -> tuple[float, float]:
    (x0, y0), (x1, y1, x2, y2, x3, y3) = curve
    shares = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    x = sum(s * v for s, v in zip(shares, (x0, x1, x2, x3), strict=True))
    y = sum(s * v for s, v in zip(shares, (y0, y1, y2, y3), strict=True))
    return x, y


def _radius(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    """Radius of the circle through three points: the product of the sides over 4 areas."""
    sides = [hypot(p[0] - q[0], p[1] - q[1]) for p, q in ((a, b), (b, c), (c, a))]
    area = abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])) / 2
    return float(sides[0] * sides[1] * sides[2] / (4 * area))
