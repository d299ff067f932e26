"""Curves without an arc length in closed form, measured once and walked by arc length."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot

import numpy as np

from mockup.packing.paths import Floats, NotAFrame, Point

Curve = Callable[[Floats], Floats]
"""From parameters (k,) to points or derivatives (k, 2)."""

_PANELS = 256
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(5)
_NEWTON = 3
# A speed below this share of the mean is a cusp: the curve stops and turns on the spot.
_CUSP = 1e-4


class Traced:
    """A smooth curve over the parameter 0 to 1 with its first and second derivative.

    Arc length by Gauss-Legendre over 256 panels (to about 1e-10 of a smooth curve's length),
    turned round by Newton's method. Raises ``NotAFrame`` for a curve with no length, or a cusp.

    >>> line = Traced(
    ...     lambda t: np.column_stack([3 * t, 4 * t]),
    ...     lambda t: np.column_stack([3 + 0 * t, 4 + 0 * t]),
    ...     lambda t: np.column_stack([0 * t, 0 * t]),
    ... )
    >>> round(line.length, 9), [round(each, 9) for each in line.at(2.5)]
    (5.0, [1.5, 2.0])
    """

    def __init__(self, curve: Curve, velocity: Curve, acceleration: Curve) -> None:
        self._curve, self._velocity, self._acceleration = curve, velocity, acceleration
        self._marks: Floats = np.linspace(0.0, 1.0, _PANELS + 1)
        panels = self._lengths(self._marks[:-1], self._marks[1:])
        self._table: Floats = np.concatenate([[0.0], np.cumsum(panels)])
        if not (np.isfinite(self.length) and self.length > 1e-9):
            raise NotAFrame("the path has no length")
        if self._speed(np.linspace(0.0, 1.0, 8 * _PANELS + 1)).min() < _CUSP * self.length:
            raise NotAFrame("the path has a cusp, where a tube would have to turn on the spot")

    @property
    def length(self) -> float:
        """Its arc length, mm."""
        return float(self._table[-1])

    def at(self, s: float) -> Point:
        """The point at ``s``; past an end, straight on along the tangent."""
        inside = min(max(s, 0.0), self.length)
        x, y = self.points(np.array([inside]))[0].tolist()
        if inside == s:
            return x, y
        hx, hy = self.heading(inside)
        return x + (s - inside) * hx, y + (s - inside) * hy

    def points(self, s: Floats) -> Floats:
        """The points at arc lengths (k,)."""
        return self._curve(self._parameters(s))

    def heading(self, s: float) -> Point:
        """The unit tangent at ``s``."""
        vx, vy = self._velocity(self._parameters(np.array([s])))[0].tolist()
        speed = hypot(vx, vy)
        return vx / speed, vy / speed

    def bend(self, s: float) -> float:
        """``(v x a) / |v|^3`` with the sign turned, since clockwise counts as above zero."""
        t = self._parameters(np.array([s]))
        (vx, vy), (ax, ay) = self._velocity(t)[0].tolist(), self._acceleration(t)[0].tolist()
        return float((ax * vy - vx * ay) / hypot(vx, vy) ** 3)

    def _speed(self, t: Floats) -> Floats:
        return np.asarray(np.hypot(*self._velocity(t).T))

    def _lengths(self, low: Floats, high: Floats) -> Floats:
        half = (high - low) / 2
        nodes = (low + half)[:, None] + half[:, None] * _NODES
        speeds = self._speed(nodes.ravel()).reshape(nodes.shape)
        return np.asarray(half * (speeds @ _WEIGHTS))

    def _parameters(self, s: Floats) -> Floats:
        """The parameters at arc lengths (k,), those past an end at that end."""
        inside = np.clip(s, 0.0, self.length)
        panel = np.searchsorted(self._table, inside, side="right") - 1
        panel = np.clip(panel, 0, _PANELS - 1)
        low, high = self._marks[panel], self._marks[panel + 1]
        wanted = inside - self._table[panel]
        share = wanted / (self._table[panel + 1] - self._table[panel])
        t = low + share * (high - low)
        for _ in range(_NEWTON):
            t = t - (self._lengths(low, t) - wanted) / self._speed(t)
            t = np.clip(t, low, high)
        return np.asarray(t)
