"""What every frame answers, and what their figures must be.

A frame is read by the arc length ``s`` along its tube's centre line, mm. Its clock angles run
clockwise from 12; x right, y up, so the tangent is the outward normal turned clockwise by 90.
"""

from __future__ import annotations

from math import ceil, isfinite
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from mockup.errors import MockupError
from mockup.lengths import Unit, format_true

Floats = NDArray[np.float64]
Point = tuple[float, float]


class NotAFrame(MockupError, ValueError):
    """A frame that cannot be built, or a question that no frame answers.

    ``says`` may hold places {} for ``lengths`` in mm, which are told in the reader's own unit.

    >>> wrong = NotAFrame("a corner is at most {}", 63.5)
    >>> str(wrong), wrong.in_unit("in")
    ('a corner is at most 63.5 mm', 'a corner is at most 2 1/2 in')
    """

    def __init__(self, says: str, *lengths: float) -> None:
        super().__init__(says.format(*(f"{mm:g} mm" for mm in lengths)) if lengths else says)
        self._says, self._lengths = says, lengths

    def in_unit(self, unit: Unit) -> str:
        """What is wrong, every length in that unit."""
        if not self._lengths:
            return self._says
        return self._says.format(*(format_true(mm, unit) for mm in self._lengths))


class Frame(Protocol):
    """What every frame answers; any path with an arc length can join.

    ``tube`` is the tube's diameter and ``length`` that of its centre line, mm. On a ``closed``
    frame ``s`` runs on past the length, round and round; on an open one the ends are at 0 and
    ``length``.
    """

    @property
    def kind(self) -> str:
        """The word for it in a piece file."""

    @property
    def tube(self) -> float:
        """Diameter of the tube, mm."""

    @property
    def closed(self) -> bool:
        """Whether its end meets its start."""

    @property
    def length(self) -> float:
        """Length of the tube's centre line, mm."""

    def at(self, s: float) -> Point:
        """The point of the centre line at ``s``, mm."""

    def normal(self, s: float) -> Point:
        """The outward unit normal at ``s``, in the frame's plane."""

    def bend(self, s: float) -> float:
        """The curvature at ``s``, 1/mm: above zero where it turns clockwise, off the normal."""

    def s_at_deg(self, deg: float) -> float:
        """The arc length at a clock angle, mm."""

    def deg_at(self, s: float) -> float:
        """The clock angle at ``s``, degrees in [0, 360)."""

    def opening(self, place: str) -> tuple[float, float, float] | None:
        """The disc (cx, cy, radius) a panel "in front" or "inside" sits in; None without one."""

    def sample(self, step: float) -> Floats:
        """The centre line as a polyline (k, 2), points at most ``step`` mm apart along it."""


def sized(value: float, name: str) -> float:
    """``value`` itself, when it is finite and above zero; else ``NotAFrame`` naming it."""
    if not (isfinite(value) and value > 0):
        raise NotAFrame(f"a frame's {name} must be finite and above zero, not {value}")
    return value


def stations(length: float, step: float) -> Floats:
    """Arc lengths (k,) from 0 to ``length``, evenly and at most ``step`` mm apart.

    >>> stations(100.0, 40.0).round(1).tolist()
    [0.0, 33.3, 66.7, 100.0]
    """
    return np.linspace(0.0, length, max(2, ceil(length / sized(step, "step")) + 1))


def wrapped(deg: float) -> float:
    """The same angle in [-180, 180), degrees.

    >>> wrapped(270.0)
    -90.0
    """
    return (deg + 180.0) % 360.0 - 180.0
