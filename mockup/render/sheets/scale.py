"""Scales of ISO 5455: the largest that fits is chosen and printed, never refitted silently."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.errors import MockupError
from mockup.render.record import Point

SCALES = (1, 2, 5, 10, 20, 50, 100)
"""Preferred reductions 1 : n of ISO 5455, the largest drawing first."""


class DoesNotFit(MockupError):
    """A piece that does not fit its paper at the scale that was asked for."""


def scale_words(scale: int) -> str:
    """The scale as it is printed.

    >>> scale_words(10)
    '1:10'
    """
    return f"1:{scale}"


def require_preferred(scale: int) -> int:
    """``scale`` itself, when it is a preferred one; otherwise ``DoesNotFit`` names those."""
    if scale not in SCALES:
        known = ", ".join(map(scale_words, SCALES))
        raise DoesNotFit(f"a scale of 1:{scale} is not a preferred one; write one of {known}")
    return scale


@dataclass(frozen=True)
class Scaled:
    """A view's mm at 1 : ``scale`` on a sheet, its own origin landing at ``origin``.

    >>> Scaled(10, (100.0, 100.0)).at(50.0, 20.0)
    (105.0, 98.0)
    """

    scale: int
    origin: Point = (0.0, 0.0)

    def at(self, right: float, up: float) -> Point:
        """The sheet point of a point ``right`` and ``up`` of the view's origin, mm."""
        return (self.origin[0] + right / self.scale, self.origin[1] - up / self.scale)
