"""Points as SVG path data (SVG 1.1 section 8.3), written fast and short."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def number(value: float, places: int = 2) -> str:
    """A number for path data, without idle zeros.

    >>> number(12.50, 2), number(-0.001, 2), number(3.0)
    ('12.5', '0', '3')
    """
    return f"{round(value, places) + 0.0:g}" if abs(value) < 1000 else f"{value:.{places}f}"


@dataclass(frozen=True)
class Track:
    """Path data whose points can be moved: ``form`` has two ``%g`` for each of ``points`` (k, 2).

    >>> Track("M%g %gL%g %g", np.array([[0.0, 1.0], [2.5, 3.0]])).data(dx=1.0)
    'M1 1L3.5 3'
    """

    form: str
    points: Floats

    def data(self, dx: float = 0.0, dy: float = 0.0, places: int = 2) -> str:
        """The path data with every point moved by (dx, dy), rounded to ``places``."""
        moved = np.round(self.points + np.array([dx, dy]), places) + 0.0
        return self.form % tuple(moved.ravel().tolist())


def lines(points: Floats, closed: bool = False) -> Track:
    """A polyline through points (k, 2).

    >>> lines(np.array([[0.0, 0.0], [1.0, 2.0]]), closed=True).data()
    'M0 0L1 2Z'
    """
    return Track("M" + "L".join(["%g %g"] * len(points)) + "Z" * closed, points)


def joined(tracks: list[Track]) -> Track:
    """Several paths as one."""
    if not tracks:
        return Track("", np.zeros((0, 2)))
    return Track("".join(t.form for t in tracks), np.concatenate([t.points for t in tracks]))
