"""Spirals: a tube wound outward in its plane, each turn as far from the last as the one before."""

from __future__ import annotations

from math import isfinite, pi
from typing import ClassVar

import numpy as np

from mockup.packing.joined import LaidClock
from mockup.packing.legs import Leg
from mockup.packing.paths import Floats, NotAFrame, sized
from mockup.packing.traced import Traced
from mockup.records import dataclass


@dataclass(frozen=True)
class Spiral(LaidClock):
    """An Archimedean spiral of so many ``turns``, clockwise outward to its end at 6 o'clock.

    ``outside`` is twice the reach of the tube's outer edge at that end, ``inner`` twice the
    reach of the centre line where it begins, mm. ``s`` is 0 at the inner end. Its turns leave no
    opening for a panel. Raises ``NotAFrame``.

    >>> spiral = Spiral(outside=1020.0, inner=200.0, turns=2.0, tube=20.0)
    >>> round(spiral.at(spiral.length)[1], 6), spiral.step
    (-500.0, 200.0)
    """

    outside: float
    inner: float
    turns: float
    tube: float
    kind: ClassVar[str] = "spiral"

    def __post_init__(self) -> None:
        for value, name in (
            (self.tube, "tube"),
            (self.outside, "outside measure"),
            (self.inner, "inner measure"),
        ):
            sized(value, name)
        if not (isfinite(self.turns) and 0.25 <= self.turns <= 20):
            raise NotAFrame(f"a spiral has between 0.25 and 20 turns, not {self.turns:g}")
        if self.outside - self.tube <= self.inner:
            raise NotAFrame("a spiral's outside must be larger than its inner measure")
        if self.turns > 1 and self.step <= self.tube:
            raise NotAFrame("the turns of this spiral touch: take fewer of them, or a larger one")

    @property
    def step(self) -> float:
        """From one turn to the next, mm."""
        return ((self.outside - self.tube) - self.inner) / 2 / self.turns

    def _legs(self) -> tuple[Leg, ...]:
        swept, first = 2 * pi * self.turns, self.inner / 2
        grown = (self.outside - self.tube) / 2 - first

        def radius(t: Floats) -> tuple[Floats, Floats, Floats]:
            angle = swept * (t - 1.0) + pi
            return first + grown * t, np.sin(angle), np.cos(angle)

        def curve(t: Floats) -> Floats:
            r, s, c = radius(t)
            return np.column_stack([r * s, r * c])

        def velocity(t: Floats) -> Floats:
            r, s, c = radius(t)
            return np.column_stack([grown * s + swept * r * c, grown * c - swept * r * s])

        def acceleration(t: Floats) -> Floats:
            r, s, c = radius(t)
            along, across = 2 * grown * swept, swept * swept * r
            return np.column_stack([along * c - across * s, -along * s - across * c])

        return (Traced(curve, velocity, acceleration),)

    def opening(self, place: str) -> tuple[float, float, float] | None:  # noqa: ARG002 - it has none
        """A spiral has no opening: None."""
        return None
