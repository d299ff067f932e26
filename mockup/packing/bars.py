"""Straight tubes."""

from __future__ import annotations

from typing import ClassVar

import numpy as np

from mockup.packing.paths import Floats, Point, sized, stations, wrapped
from mockup.records import dataclass


@dataclass(frozen=True)
class Straight:
    """A level bar of ``length`` along +x, its middle at the origin; ``s`` is 0 at its left end.

    The normal is +y throughout, as at the top of a very large ring. It has no clock, so the clock
    is laid along it evenly: 12 o'clock in the middle, 3 o'clock a quarter of the length to the
    right, and the ends at 6. Raises ``NotAFrame``.

    >>> bar = Straight(length=400.0, tube=12.0)
    >>> bar.at(0.0), bar.normal(0.0), bar.s_at_deg(90.0), bar.opening("inside")
    ((-200.0, 0.0), (0.0, 1.0), 300.0, None)
    """

    length: float
    tube: float
    kind: ClassVar[str] = "straight"
    closed: ClassVar[bool] = False

    def __post_init__(self) -> None:
        sized(self.length, "length")
        sized(self.tube, "tube")

    def at(self, s: float) -> Point:
        """The point of the centre line at ``s``, mm; past an end, where it would go on."""
        return s - self.length / 2, 0.0

    def normal(self, s: float) -> Point:  # noqa: ARG002 - the same everywhere on a straight bar
        """Straight up, wherever."""
        return 0.0, 1.0

    def bend(self, s: float) -> float:  # noqa: ARG002 - a straight bar is nowhere bent
        """None: it is straight."""
        return 0.0

    def s_at_deg(self, deg: float) -> float:
        """The arc length at a clock angle laid along the bar, mm in [0, length)."""
        return self.length * (0.5 + wrapped(deg) / 360.0)

    def deg_at(self, s: float) -> float:
        """The clock angle laid along the bar at ``s``, degrees in [0, 360)."""
        return (s / self.length - 0.5) * 360.0 % 360.0

    def opening(self, place: str) -> tuple[float, float, float] | None:  # noqa: ARG002 - it has none
        """A bar encloses nothing: None."""
        return None

    def sample(self, step: float) -> Floats:
        """The centre line (k, 2) from end to end."""
        x = stations(self.length, step) - self.length / 2
        return np.column_stack([x, np.zeros_like(x)])
