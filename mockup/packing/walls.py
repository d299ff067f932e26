"""Upright frames with a mesh in them: what a flat wall of balloons is tied to."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import ClassVar

from mockup.packing.joined import RayClock
from mockup.packing.legs import Leg, RoundLeg, StraightLeg
from mockup.packing.paths import NotAFrame, Point, sized
from mockup.records import dataclass

# Uprights stand no further apart than this, mm (common practice, no source: 8 ft panels).
_BETWEEN_FEET = 2438.4


@dataclass(frozen=True)
class Wall(RayClock):
    """A level oblong ``width`` x ``height`` mm over its tube, its middle at the origin.

    ``s`` is 0 in the middle of the top and grows clockwise; the tube is bent to its own diameter
    at the corners. A mesh fills it, so it has no opening. Raises ``NotAFrame``.

    >>> wall = Wall(width=2000.0, height=1000.0, tube=20.0)
    >>> wall.at(0.0), wall.opening("inside"), wall.feet
    ((0.0, 490.0), None, (-990.0, 990.0))
    """

    width: float
    height: float
    tube: float
    kind: ClassVar[str] = "wall"
    closed: ClassVar[bool] = True

    def __post_init__(self) -> None:
        sized(self.tube, "tube")
        for name, long in (("width", self.width), ("height", self.height)):
            if sized(long, name) <= 4 * self.tube:
                raise NotAFrame(f"a wall's {name} must be over four tubes, not {{}}", long)

    @property
    def half(self) -> Point:
        """From the middle to the centre line of an upright and of the top, mm."""
        return (self.width - self.tube) / 2, (self.height - self.tube) / 2

    @property
    def feet(self) -> tuple[float, ...]:
        """Where its uprights stand, x in mm: at both ends, and between them at most 8 ft apart."""
        x = self.half[0]
        parts = max(1, ceil(2 * x / _BETWEEN_FEET))
        return tuple(-x + 2 * x * k / parts for k in range(parts + 1))

    def opening(self, place: str) -> tuple[float, float, float] | None:  # noqa: ARG002 - it has none
        """None: the mesh fills it."""
        return None

    def _legs(self) -> tuple[Leg, ...]:
        return tuple(self._round())

    def _round(self) -> Iterator[Leg]:
        """From the middle of the top clockwise: half a side, a corner, a side, ..."""
        (x, y), bend = self.half, self.tube
        yield StraightLeg((0.0, y), (x - bend, y))
        yield RoundLeg((x - bend, y - bend), bend, 0.0, 90.0)
        yield StraightLeg((x, y - bend), (x, bend - y))
        yield RoundLeg((x - bend, bend - y), bend, 90.0, 90.0)
        yield StraightLeg((x - bend, -y), (bend - x, -y))
        yield RoundLeg((bend - x, bend - y), bend, 180.0, 90.0)
        yield StraightLeg((-x, bend - y), (-x, y - bend))
        yield RoundLeg((bend - x, y - bend), bend, 270.0, 90.0)
        yield StraightLeg((bend - x, y), (0.0, y))
