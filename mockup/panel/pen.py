"""A pen that draws the centre-line of a rounded stroke from lines, arcs and cubic curves."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import atan2, ceil, copysign, cos, inf, pi, radians, sin

import numpy as np
from numpy.typing import NDArray

Stroke = NDArray[np.float64]
"""One polyline, shape (k, 2), x right and y up."""

SEGMENTS = 64
"""Segments of a full turn: four times a whole number, so that an arc meets its extremes."""
_SAME = 1e-9


class Pen:
    """Draws one stroke; every call goes on from where the last one ended.

    >>> stroke = Pen().to(0, 0).to(1, 0).arc((1, 1), (1, 1), -90, 0).stroke()
    >>> stroke.shape, stroke[-1].tolist()
    ((18, 2), [2.0, 1.0])
    """

    def __init__(self) -> None:
        self._points: list[tuple[float, float]] = []

    def to(self, x: float, y: float) -> Pen:
        """A straight line to (x, y); the first call starts the stroke there."""
        self._add(x, y)
        return self

    def arc(
        self,
        centre: tuple[float, float],
        radii: tuple[float, float],
        start_deg: float,
        end_deg: float,
    ) -> Pen:
        """An arc round ``centre`` that reaches ``radii`` to the sides and up.

        Degrees anticlockwise from the x axis. It is circular with the smaller of both radii and
        goes straight for the rest, so that it stays round when a box is wide. A line joins it.
        """
        for x, y in _arc_points(radii, start_deg, end_deg):
            self._add(centre[0] + x, centre[1] + y)
        return self

    def curve(
        self, first: tuple[float, float], second: tuple[float, float], end: tuple[float, float]
    ) -> Pen:
        """A cubic Bezier curve with the control points ``first`` and ``second``."""
        legs = np.array([self._points[-1], first, second, end], dtype=np.float64)
        t = np.linspace(0.0, 1.0, _curve_segments(legs) + 1)[1:, None]
        weights = np.hstack([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3])
        for x, y in weights @ legs:
            self._add(float(x), float(y))
        self._points[-1] = end
        return self

    def stroke(self) -> Stroke:
        """The polyline drawn so far, shape (k, 2)."""
        return np.array(self._points, dtype=np.float64)

    def _add(self, x: float, y: float) -> None:
        last = self._points[-1] if self._points else (inf, inf)
        if abs(x - last[0]) + abs(y - last[1]) > _SAME:
            self._points.append((x, y))


def _arc_points(
    radii: tuple[float, float], start: float, end: float
) -> Iterator[tuple[float, float]]:
    """Points of the arc; at a quarter turn also the middle of the straight part beside it."""
    r = min(radii)
    flat = (radii[0] - r, radii[1] - r)
    angles = _angles(start, end)
    way = 1.0 if end >= start else -1.0
    for i, angle in enumerate(angles):
        x, y = r * _cos(angle), r * _cos(angle - 90.0)
        for side in _sides(angle, way if i else 0.0, way if i < len(angles) - 1 else 0.0):
            yield x + flat[0] * _sign(_cos(side)), y + flat[1] * _sign(_cos(side - 90.0))


def _sides(angle: float, before: float, after: float) -> tuple[float, ...]:
    """The angle, at a quarter turn between one just before it and one just after."""
    return (angle - before, angle, angle + after) if angle % 90.0 == 0.0 else (angle,)


def _sign(value: float) -> float:
    return 0.0 if value == 0.0 else copysign(1.0, value)


def _angles(start: float, end: float) -> list[float]:
    """Both ends and, between them, every whole step, which takes in the quarter turns."""
    step = 360.0 / SEGMENTS
    low, high = min(start, end), max(start, end)
    between = [step * k for k in range(ceil(low / step), ceil(high / step))]
    angles = [low, *(a for a in between if low < a < high), high]
    return angles if end >= start else angles[::-1]


def _cos(degrees: float) -> float:
    """A cosine that is exact at the quarter turns and the same on both sides of the y axis."""
    folded = abs((degrees + 180.0) % 360.0 - 180.0)
    return -sin(radians(folded - 90.0)) if folded > 45.0 else cos(radians(folded))


def _curve_segments(legs: Stroke) -> int:
    """Enough segments for how far the curve turns, at least four."""
    steps = [(dx, dy) for dx, dy in np.diff(legs, axis=0) if abs(dx) + abs(dy) > 0.0]
    turn = sum(
        abs(atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1])) for a, b in pairwise(steps)
    )
    return max(4, ceil(SEGMENTS * turn / (2 * pi) - _SAME))
