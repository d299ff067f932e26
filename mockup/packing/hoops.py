"""Tubes bent round the origin: the whole ring, and a part of one."""

from __future__ import annotations

from math import cos, degrees, isfinite, radians, sin, tau
from typing import ClassVar

import numpy as np

from mockup.packing.paths import Floats, NotAFrame, Point, sized, stations, wrapped
from mockup.records import dataclass

IN_FRONT, INSIDE = "in front", "inside"


@dataclass(frozen=True)
class _Round:
    """A tube bent round the origin: ``outside`` is the diameter over the tube, mm."""

    outside: float
    tube: float

    def __post_init__(self) -> None:
        sized(self.tube, "tube")
        if sized(self.outside, "outside diameter") <= 2 * self.tube:
            raise NotAFrame("a tube of {} leaves no opening in {}", self.tube, self.outside)

    @property
    def radius(self) -> float:
        """Radius of the centre line, mm."""
        return (self.outside - self.tube) / 2

    def opening(self, place: str) -> tuple[float, float, float] | None:
        """The disc to the tube's outer edge ("in front") or its inner edge ("inside").

        >>> Ring(762.0, 12.0).opening("inside")
        (0.0, 0.0, 369.0)
        """
        if place not in (IN_FRONT, INSIDE):
            raise NotAFrame(f"a panel sits '{IN_FRONT}' or '{INSIDE}', not '{place}'")
        return 0.0, 0.0, self.outside / 2 - (self.tube if place == INSIDE else 0.0)

    def bend(self, s: float) -> float:  # noqa: ARG002 - a ring is bent alike all round
        """One over the radius of the centre line, 1/mm."""
        return 1.0 / self.radius

    def _along(self, angles: Floats) -> Floats:
        return self.radius * np.column_stack([np.sin(angles), np.cos(angles)])


@dataclass(frozen=True)
class Ring(_Round):
    """A whole ring; ``s`` is 0 at 12 o'clock and grows clockwise. Raises ``NotAFrame``.

    >>> ring = Ring(outside=212.0, tube=12.0)
    >>> ring.radius, round(ring.length, 3), ring.at(0.0), ring.normal(0.0)
    (100.0, 628.319, (0.0, 100.0), (0.0, 1.0))
    """

    kind: ClassVar[str] = "ring"
    closed: ClassVar[bool] = True

    @property
    def length(self) -> float:
        """Once round the centre line, mm."""
        return tau * self.radius

    def at(self, s: float) -> Point:
        """The point of the centre line at ``s``, mm."""
        x, y = self.normal(s)
        return self.radius * x, self.radius * y

    def normal(self, s: float) -> Point:
        """The unit vector away from the centre at ``s``."""
        return sin(s / self.radius), cos(s / self.radius)

    def s_at_deg(self, deg: float) -> float:
        """The arc length at a clock angle, mm in [0, length)."""
        return self.radius * radians(deg % 360.0)

    def deg_at(self, s: float) -> float:
        """The clock angle at ``s``, degrees in [0, 360)."""
        return degrees(s / self.radius) % 360.0

    def sample(self, step: float) -> Floats:
        """The centre line (k, 2) from 12 o'clock round to 12 o'clock again."""
        return self._along(stations(self.length, step) / self.radius)


@dataclass(frozen=True)
class Arc(_Round):
    """A part of a ring, clockwise from ``start_deg`` to ``end_deg``; ``s`` is 0 at the start.

    Equal angles (or a whole turn between them) mean all the way round, with two ends that do not
    join. Raises ``NotAFrame``.

    >>> arc = Arc(outside=212.0, tube=12.0, start_deg=270.0, end_deg=90.0)
    >>> round(arc.span_deg, 6), round(arc.length, 3), round(arc.s_at_deg(0.0), 3)
    (180.0, 314.159, 157.08)
    """

    start_deg: float
    end_deg: float
    kind: ClassVar[str] = "arc"
    closed: ClassVar[bool] = False

    def __post_init__(self) -> None:
        super().__post_init__()
        if not (isfinite(self.start_deg) and isfinite(self.end_deg)):
            raise NotAFrame("an arc's start and end must be finite angles")

    @property
    def span_deg(self) -> float:
        """How far it runs round the clock, degrees in (0, 360]."""
        return (self.end_deg - self.start_deg) % 360.0 or 360.0

    @property
    def length(self) -> float:
        """Length of the centre line, mm."""
        return self.radius * radians(self.span_deg)

    def _angle(self, s: float) -> float:
        # From the middle outward, so that an arc over 12 o'clock is mirrored to the last digit.
        middle = radians((self.start_deg + self.span_deg / 2) % 360.0)
        return middle + (s - self.length / 2) / self.radius

    def at(self, s: float) -> Point:
        """The point of the centre line at ``s``, mm; past an end, where it would go on."""
        x, y = self.normal(s)
        return self.radius * x, self.radius * y

    def normal(self, s: float) -> Point:
        """The unit vector away from the centre at ``s``."""
        return sin(self._angle(s)), cos(self._angle(s))

    def s_at_deg(self, deg: float) -> float:
        """The arc length at a clock angle, mm: below 0 or over the length off the arc's ends."""
        middle = self.start_deg + self.span_deg / 2
        return self.length / 2 + self.radius * radians(wrapped(deg - middle))

    def deg_at(self, s: float) -> float:
        """The clock angle at ``s``, degrees in [0, 360)."""
        return degrees(self._angle(s)) % 360.0

    def sample(self, step: float) -> Floats:
        """The centre line (k, 2) from end to end."""
        return self._along(self._angle(0.0) + stations(self.length, step) / self.radius)
