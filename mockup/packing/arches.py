"""Arches: half an ellipse on two straight legs."""

from __future__ import annotations

from math import isfinite, pi
from typing import ClassVar

import numpy as np

from mockup.packing.joined import RayClock
from mockup.packing.legs import Leg, StraightLeg
from mockup.packing.paths import Floats, NotAFrame, Point, sized
from mockup.packing.traced import Curve, Traced
from mockup.records import dataclass


@dataclass(frozen=True)
class Arch(RayClock):
    """``width`` and ``height`` overall, the half-ellipse standing on ``legs`` high, mm.

    The floor is y = 0 and the middle x = 0; ``s`` is 0 at the left foot and runs over the crown.
    The tube's ends are round, so the centre line stops half a tube above the floor. The clock is
    read from where the ellipse springs: 9 and 3 o'clock are its two springing points, the legs
    lie below them. Raises ``NotAFrame``.

    >>> arch = Arch(width=2020.0, height=1510.0, legs=500.0, tube=20.0)
    >>> arch.at(0.0), [round(each, 6) for each in arch.at(arch.s_at_deg(0.0))]
    ((-1000.0, 10.0), [0.0, 1500.0])
    """

    width: float
    height: float
    legs: float
    tube: float
    kind: ClassVar[str] = "arch"

    def __post_init__(self) -> None:
        for value, name in ((self.tube, "tube"), (self.width, "width"), (self.height, "height")):
            sized(value, name)
        if not (isfinite(self.legs) and self.legs >= 0):
            raise NotAFrame(f"an arch's legs must be zero or more, not {self.legs}")
        if self.across <= self.tube or self.rise <= self.tube:
            raise NotAFrame("an arch must be wider than its tube and higher than its legs")

    @property
    def across(self) -> float:
        """Half the width of the centre line, mm: the ellipse's semi-axis across."""
        return (self.width - self.tube) / 2

    @property
    def springing(self) -> float:
        """The height at which the ellipse begins, mm."""
        return max(self.legs, self.tube / 2)

    @property
    def rise(self) -> float:
        """From the springing to the crown of the centre line, mm: the other semi-axis."""
        return self.height - self.tube / 2 - self.springing

    @property
    def middle(self) -> Point:
        """The middle of the clock face: of the ellipse."""
        return 0.0, self.springing

    def _legs(self) -> tuple[Leg, ...]:
        a, y, foot = self.across, self.springing, self.tube / 2
        up = StraightLeg((-a, foot), (-a, y))
        return up, self._ellipse(), StraightLeg((a, y), (a, foot))

    def _ellipse(self) -> Traced:
        a, b, y = self.across, self.rise, self.springing

        def turned(scale: float, quarter: int) -> Curve:
            def curve(t: Floats) -> Floats:
                angle = pi * t - pi / 2 + quarter * pi / 2
                x = scale * a * np.sin(angle)
                return np.column_stack([x, scale * b * np.cos(angle) + (y if not quarter else 0)])

            return curve

        return Traced(turned(1.0, 0), turned(pi, 1), turned(pi * pi, 2))
