"""Heart frames: two round lobes, a rounded notch between them and a rounded tip."""

from __future__ import annotations

from math import acos, atan2, degrees, floor, hypot, sqrt
from typing import ClassVar

from mockup.packing.joined import RayClock
from mockup.packing.legs import Leg, RoundLeg, StraightLeg
from mockup.packing.paths import NotAFrame, sized
from mockup.records import dataclass

# Each lobe's radius as a share of the width of the centre line.
_LOBE = 0.27


@dataclass(frozen=True)
class Heart(RayClock):
    """``width`` and ``height`` overall, the notch and the tip bent to the radius ``corner``, mm.

    The origin is the middle of its height. ``s`` is 0 at the bottom of the notch and grows
    clockwise. Made of circular bends and straight lines, so its length is exact. Raises
    ``NotAFrame``.

    >>> heart = Heart(width=1020.0, height=1020.0, corner=60.0, tube=20.0)
    >>> round(heart.at(heart.length / 2)[1], 6), heart.opening("inside")[0]
    (-500.0, 0.0)
    """

    width: float
    height: float
    corner: float
    tube: float
    kind: ClassVar[str] = "heart"
    closed: ClassVar[bool] = True

    def __post_init__(self) -> None:
        for value, name in (
            (self.tube, "tube"),
            (self.width, "width"),
            (self.height, "height"),
            (self.corner, "corner"),
        ):
            sized(value, name)
        if self.width <= 4 * self.tube or self.height <= 4 * self.tube:
            raise NotAFrame("a tube of {} is too thick for this heart", self.tube)
        if not 0.6 <= self.height / self.width <= 1.7:
            raise NotAFrame("a heart is between 0.6 and 1.7 times as high as it is wide")
        if self.corner > self.lobe / 2:
            raise NotAFrame("a heart's corner must be at most {} here", floor(self.lobe / 2))

    @property
    def lobe(self) -> float:
        """Radius of each lobe, mm."""
        return _LOBE * (self.width - self.tube)

    def _legs(self) -> tuple[Leg, ...]:
        r, rc = self.lobe, self.corner
        c = (self.width - self.tube) / 2 - r
        top = (self.height - self.tube) / 2
        lobe, tip = (c, top - r), (0.0, -top + rc)
        notch = (0.0, lobe[1] + sqrt((r + rc) ** 2 - c * c))
        leaving = degrees(atan2(-notch[0] + lobe[0], lobe[1] - notch[1]))
        touching = _tangent_clock(lobe, r, tip, rc)
        onto = leaving - 180.0
        ends = [
            (at[0] + s * _east(touching), at[1] + s * _north(touching))
            for at, s in ((lobe, r), (tip, rc))
        ]
        left = [(-x, y) for x, y in ends]
        return (
            RoundLeg(notch, rc, 180.0, leaving - 180.0),
            RoundLeg(lobe, r, onto, touching - onto),
            StraightLeg(ends[0], ends[1]),
            RoundLeg(tip, rc, touching, 360.0 - 2 * touching),
            StraightLeg(left[1], left[0]),
            RoundLeg((-lobe[0], lobe[1]), r, -touching, touching - onto),
            RoundLeg(notch, rc, -leaving, leaving - 180.0),
        )


def _tangent_clock(
    one: tuple[float, float], radius: float, other: tuple[float, float], small: float
) -> float:
    """The clock angle at which the line that touches both circles on their right touches them."""
    dx, dy = other[0] - one[0], other[1] - one[1]
    return degrees(atan2(dx, dy)) % 360.0 - degrees(acos((radius - small) / hypot(dx, dy)))


def _east(deg: float) -> float:
    return RoundLeg((0.0, 0.0), 1.0, deg, 0.0).at(0.0)[0]


def _north(deg: float) -> float:
    return RoundLeg((0.0, 0.0), 1.0, deg, 0.0).at(0.0)[1]
