"""Where the next balloon of a garland belongs: in the largest gap, or the deepest valley."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

# How far a balloon is pressed into those it rests on, as a share of both radii.
_PRESS = 0.12


class Valleys:
    """A grid over the garland, seen from the front, for balloons of a few radii.

    ``height[c]`` is the z at which a balloon of radius ``radii[c]`` would rest on what lies there
    already (-inf where on nothing), ``gap`` how far the nearest silhouette is, mm (below 0 where
    covered; at most the largest radius), ``skin`` the z of the nearest skin to the viewer. Cells
    are ``step`` mm apart.
    """

    def __init__(self, box: tuple[Floats, Floats], step: float, radii: Sequence[float]) -> None:
        low, high = box
        self.radii = tuple(radii)
        self.x: Floats = np.arange(low[0], high[0] + step, step)
        self.y: Floats = np.arange(low[1], high[1] + step, step)
        shape = len(self.y), len(self.x)
        self.height: list[Floats] = [np.full(shape, -np.inf) for _ in radii]
        self.gap: Floats = np.full(shape, max(radii))
        self.skin: Floats = np.full(shape, -np.inf)

    @property
    def cells(self) -> Floats:
        """The middle of every cell (rows * columns, 2), mm."""
        x, y = np.meshgrid(self.x, self.y)
        return np.column_stack([x.ravel(), y.ravel()])

    def clear(self) -> None:
        """Take everything out again."""
        for height in self.height:
            height[:] = -np.inf
        self.gap[:] = max(self.radii)
        self.skin[:] = -np.inf

    def add(self, centre: Floats, radius: float) -> None:
        """Lay a balloon down at ``centre`` (3,)."""
        x, y, z = centre.tolist()
        reach = radius + max(self.radii)
        at = _span(self.y, y - reach, y + reach), _span(self.x, x - reach, x + reach)
        off = (self.y[at[0]] - y)[:, None] ** 2 + (self.x[at[1]] - x) ** 2
        self.gap[at] = np.minimum(self.gap[at], np.sqrt(off) - radius)
        swell = radius * radius - off
        front = np.where(swell > 0, z + np.sqrt(np.maximum(swell, 0.0)), -np.inf)
        self.skin[at] = np.maximum(self.skin[at], front)
        for own, height in zip(self.radii, self.height, strict=True):
            rise = ((1.0 - _PRESS) * (radius + own)) ** 2 - off
            rests = np.where(rise > 0, z + np.sqrt(np.maximum(rise, 0.0)), -np.inf)
            height[at] = np.maximum(height[at], rests)

    def best(self, radius: int, allowed: Flags, rough: Floats) -> tuple[int, int] | None:
        """The cell of the largest gap that is left, or else of the deepest valley; None for none.

        ``rough`` is added to the heights, so that equals are not taken row by row.
        """
        if not allowed.any():
            return None
        open_ = np.where(allowed, self.gap, -np.inf)
        if open_.max() > 0.0:
            return _cell(np.argmax(open_ + 1e-3 * rough), open_)
        deep = np.where(allowed, self.height[radius] + rough, np.inf)
        return _cell(np.argmin(deep), deep)

    def point(self, cell: tuple[int, int], radius: int, least: float) -> Floats:
        """Where a balloon comes to rest over a cell, its centre no further back than ``least``."""
        height = float(self.height[radius][cell])
        return np.array([self.x[cell[1]], self.y[cell[0]], max(height, least)])


def _cell(flat: np.intp, like: Floats) -> tuple[int, int]:
    row, column = divmod(int(flat), like.shape[1])
    return row, column


def _span(marks: Floats, low: float, high: float) -> slice:
    return slice(int(np.searchsorted(marks, low)), int(np.searchsorted(marks, high)))
