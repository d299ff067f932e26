"""Square and hexagon frames with rounded corners, lying on a flat side."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, floor, isfinite, pi, tan
from typing import ClassVar

from mockup.packing.joined import RayClock
from mockup.packing.legs import Leg, RoundLeg, StraightLeg
from mockup.packing.paths import NotAFrame, Point, sized
from mockup.records import dataclass


@dataclass(frozen=True)
class _Polygon(RayClock):
    """``outside`` is the height over the tube from flat to flat, ``corner`` the radius to which
    the tube's centre line is bent at each corner, mm."""

    outside: float
    corner: float
    tube: float
    closed: ClassVar[bool] = True
    sides: ClassVar[int]

    def __post_init__(self) -> None:
        sized(self.tube, "tube")
        if sized(self.outside, "outside measure") <= 2 * self.tube:
            raise NotAFrame("a tube of {} leaves no opening in {}", self.tube, self.outside)
        if not (isfinite(self.corner) and 0 < self.corner <= self.flat):
            says = "a corner's radius must be above zero and at most {}, not {}"
            raise NotAFrame(says, floor(self.flat), self.corner)

    @property
    def flat(self) -> float:
        """From the middle to the centre line of each side, mm: the apothem."""
        return (self.outside - self.tube) / 2

    def _legs(self) -> tuple[Leg, ...]:
        return tuple(self._round())

    def _round(self) -> Iterator[Leg]:
        """From the middle of the top clockwise: half a side, a corner, a side, ..."""
        turn = 360.0 / self.sides
        half = (self.flat - self.corner) * tan(pi / self.sides)
        yield StraightLeg((0.0, self.flat), (half, self.flat))
        for side in range(self.sides):
            yield self._corner(side, turn)
            ends = (-half, 0.0) if side == self.sides - 1 else (-half, half)
            along = [_turned((x, self.flat), (side + 1) * turn) for x in ends]
            yield StraightLeg(along[0], along[1])

    def _corner(self, side: int, turn: float) -> RoundLeg:
        out = (self.flat - self.corner) / cos(pi / self.sides)
        centre = _turned((0.0, out), (side + 0.5) * turn)
        return RoundLeg(centre, self.corner, side * turn, turn)


def _turned(point: Point, deg: float) -> Point:
    """A point turned clockwise round the origin."""
    c, s = cos(deg * pi / 180), cos((deg - 90.0) * pi / 180)
    return point[0] * c + point[1] * s, point[1] * c - point[0] * s


@dataclass(frozen=True)
class Square(_Polygon):
    """A square frame; ``s`` is 0 in the middle of the top side and grows clockwise.

    >>> frame = Square(outside=1020.0, corner=100.0, tube=20.0)
    >>> round(frame.length, 6) == round(4 * 800 + 2 * pi * 100, 6), frame.opening("inside")[2]
    (True, 490.0)
    """

    kind: ClassVar[str] = "square"
    sides: ClassVar[int] = 4


@dataclass(frozen=True)
class Hexagon(_Polygon):
    """A hexagon frame with a flat side on top and at the foot; ``s`` is 0 in the middle of the top.

    >>> frame = Hexagon(outside=1020.0, corner=100.0, tube=20.0)
    >>> [round(each, 6) for each in frame.at(frame.length / 2)]
    [0.0, -500.0]
    """

    kind: ClassVar[str] = "hexagon"
    sides: ClassVar[int] = 6
