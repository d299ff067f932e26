"""Parts of a bent tube whose arc length is exact: straight legs and round bends."""

from __future__ import annotations

from math import cos, hypot, pi, radians, sin
from typing import Protocol

import numpy as np

from mockup.packing.paths import Floats, Point
from mockup.records import dataclass


class Leg(Protocol):
    """One part of a tube's centre line, by the arc length ``s`` from its start, mm."""

    @property
    def length(self) -> float:
        """Its length, mm."""

    def at(self, s: float) -> Point:
        """The point at ``s``; past an end, where it would go on."""

    def points(self, s: Floats) -> Floats:
        """The points (k, 2) at arc lengths (k,) that lie on it."""

    def heading(self, s: float) -> Point:
        """The unit tangent at ``s``."""

    def bend(self, s: float) -> float:
        """The curvature at ``s``, 1/mm: above zero where it turns clockwise."""


@dataclass(frozen=True)
class StraightLeg:
    """From ``start`` to ``end``, mm.

    >>> leg = StraightLeg((0.0, 0.0), (3.0, 4.0))
    >>> leg.length, leg.at(2.5), leg.bend(1.0)
    (5.0, (1.5, 2.0), 0.0)
    """

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """From end to end, mm."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    def at(self, s: float) -> Point:
        """The point at ``s``."""
        x, y = self.heading(s)
        return self.start[0] + s * x, self.start[1] + s * y

    def points(self, s: Floats) -> Floats:
        """The points at arc lengths (k,)."""
        return np.asarray(np.array(self.start) + s[:, None] * np.array(self.heading(0.0)))

    def heading(self, s: float) -> Point:  # noqa: ARG002 - the same all along a straight leg
        """The way it runs."""
        long = self.length
        return (self.end[0] - self.start[0]) / long, (self.end[1] - self.start[1]) / long

    def bend(self, s: float) -> float:  # noqa: ARG002 - the same all along a straight leg
        """None."""
        return 0.0


@dataclass(frozen=True)
class RoundLeg:
    """A circular bend: clockwise by ``sweep_deg`` (below zero: the other way) round ``centre``.

    ``start_deg`` is the clock angle of its start as seen from the centre.

    >>> bend = RoundLeg((0.0, 0.0), 10.0, 0.0, 90.0)
    >>> round(bend.length, 4), [round(each, 6) for each in bend.at(bend.length)], bend.bend(0.0)
    (15.708, [10.0, 0.0], 0.1)
    """

    centre: Point
    radius: float
    start_deg: float
    sweep_deg: float

    @property
    def length(self) -> float:
        """Along the bend, mm."""
        return self.radius * abs(self.sweep_deg) * pi / 180

    @property
    def _way(self) -> float:
        return 1.0 if self.sweep_deg >= 0 else -1.0

    def _angle(self, s: float) -> float:
        return radians(self.start_deg) + self._way * s / self.radius

    def at(self, s: float) -> Point:
        """The point at ``s``."""
        angle = self._angle(s)
        return (
            self.centre[0] + self.radius * sin(angle),
            self.centre[1] + self.radius * cos(angle),
        )

    def points(self, s: Floats) -> Floats:
        """The points at arc lengths (k,)."""
        angle = radians(self.start_deg) + self._way * s / self.radius
        around = np.column_stack([np.sin(angle), np.cos(angle)])
        return np.asarray(np.array(self.centre) + self.radius * around)

    def heading(self, s: float) -> Point:
        """The unit tangent at ``s``."""
        angle = self._angle(s)
        return self._way * cos(angle), -self._way * sin(angle)

    def bend(self, s: float) -> float:  # noqa: ARG002 - a round bend is bent alike all along
        """One over the radius, with the sign of the turn."""
        return self._way / self.radius
