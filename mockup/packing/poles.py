"""Upright poles: the spine of a column, and the pole of a stand."""

from __future__ import annotations

from typing import ClassVar

from mockup.packing.joined import LaidClock
from mockup.packing.legs import Leg, StraightLeg
from mockup.packing.paths import NotAFrame, sized
from mockup.records import dataclass


@dataclass(frozen=True)
class Pole(LaidClock):
    """An upright pole from the floor (y = 0) to ``height``, mm; ``s`` grows upward.

    Its ends are round, so the centre line stops half a tube short of both. Seen from the front
    its normal points to the left. It encloses nothing. Raises ``NotAFrame``.

    >>> pole = Pole(height=1800.0, tube=20.0)
    >>> pole.length, pole.at(0.0), pole.normal(5.0), pole.opening("inside")
    (1780.0, (0.0, 10.0), (-1.0, 0.0), None)
    """

    height: float
    tube: float
    kind: ClassVar[str] = "pole"

    def __post_init__(self) -> None:
        sized(self.tube, "tube")
        if sized(self.height, "height") <= 2 * self.tube:
            raise NotAFrame("a pole of {} is too short for its tube", self.height)

    def _legs(self) -> tuple[Leg, ...]:
        half = self.tube / 2
        return (StraightLeg((0.0, half), (0.0, self.height - half)),)

    def opening(self, place: str) -> tuple[float, float, float] | None:  # noqa: ARG002 - it has none
        """A pole encloses nothing: None."""
        return None


@dataclass(frozen=True)
class Post(LaidClock):
    """A stretch of upright pole at ``x`` between two heights, mm; ``s`` grows upward from ``low``.

    Seen from the front its normal points to the left, as a pole's. It encloses nothing. Raises
    ``NotAFrame``.

    >>> post = Post(x=0.0, low=-600.0, high=-300.0, tube=20.0)
    >>> post.length, post.at(50.0), post.normal(0.0)
    (300.0, (0.0, -550.0), (-1.0, 0.0))
    """

    x: float
    low: float
    high: float
    tube: float
    kind: ClassVar[str] = "post"

    def __post_init__(self) -> None:
        sized(self.tube, "tube")
        sized(self.high - self.low, "height")

    def _legs(self) -> tuple[Leg, ...]:
        return (StraightLeg((self.x, self.low), (self.x, self.high)),)

    def opening(self, place: str) -> tuple[float, float, float] | None:  # noqa: ARG002 - it has none
        """A pole encloses nothing: None."""
        return None
