"""Where on a sheet a further drawing finds room, clear of everything that stands there already."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor

import numpy as np
from numpy.typing import NDArray

from mockup.render.record import Item, Point, Sheet
from mockup.render.sheets.areas import Area
from mockup.render.sheets.inked import inked

_CELL = 1.0
Cells = NDArray[np.int64]


@dataclass(frozen=True)
class Room:
    """A sheet with the area of it that a drawing may take, and what stands in that already.

    ``views`` are the boxes of the drawings, ``words`` what is written beside them.
    """

    sheet: Sheet
    area: Area
    views: tuple[Area, ...]
    words: tuple[Item, ...]

    @property
    def taken(self) -> tuple[Area, ...]:
        """The boxes of all that stands there."""
        return (*self.views, *inked(self.words))

    def with_items(self, *items: Item) -> Room:
        """The same with more drawn on the sheet."""
        return replace(self, sheet=replace(self.sheet, items=(*self.sheet.items, *items)))


@dataclass(frozen=True)
class FreeSpots:
    """The free places of a room, ``white`` mm away from all that is taken.

    ``counts`` has the taken cells above and left of each corner of a grid of one millimetre, so
    that four of them tell whether a box is free however large it is (a summed-area table: Crow,
    SIGGRAPH 1984).
    """

    area: Area
    counts: Cells

    def spot(self, size: Point, near: Point) -> Point | None:
        """The top left corner of the free box of ``size`` whose middle is nearest to ``near``.

        >>> room, taken = Area(0, 0, 100, 50), [Area(30, 0, 40, 50)]
        >>> free_spots(room, taken, 4.0).spot((20, 10), (80.0, 25.0))
        (74.0, 20.0)
        >>> free_spots(room, taken, 4.0).spot((28, 10), (80.0, 25.0)) is None
        True
        """
        wide, tall = (ceil(each / _CELL - 1e-9) for each in size)
        if wide >= self.counts.shape[0] or tall >= self.counts.shape[1]:
            return None
        c = self.counts
        inside = c[wide:, tall:] - c[:-wide, tall:] - c[wide:, :-tall] + c[:-wide, :-tall]
        x, y = np.nonzero(inside == 0)
        if not len(x):
            return None
        left, top = self.area.x + x * _CELL, self.area.y + y * _CELL
        far = np.hypot(left + size[0] / 2 - near[0], top + size[1] / 2 - near[1]).round(6)
        best = int(far.argmin())
        return float(left[best]), float(top[best])


def free_spots(area: Area, taken: Sequence[Area], white: float) -> FreeSpots:
    """The free places of ``area``; a cell that is taken in part is taken."""
    cells = np.zeros((floor(area.width / _CELL), floor(area.height / _CELL)), dtype=np.int64)
    for each in taken:
        grown = each.inset(-white)
        left, right = (max(0.0, x - area.x) for x in (grown.x, grown.right))
        top, foot = (max(0.0, y - area.y) for y in (grown.y, grown.bottom))
        cells[_from(left) : _to(right), _from(top) : _to(foot)] = 1
    counts = np.zeros((cells.shape[0] + 1, cells.shape[1] + 1), dtype=np.int64)
    counts[1:, 1:] = cells.cumsum(axis=0).cumsum(axis=1)
    return FreeSpots(area, counts)


def _from(along: float) -> int:
    return floor(along / _CELL + 1e-9)


def _to(along: float) -> int:
    return ceil(along / _CELL - 1e-9)


def nearest_spots(size: Point, near: Point, free: Sequence[FreeSpots]) -> Iterator[Point]:
    """The spot of each of ``free`` that has one."""
    for each in free:
        spot = each.spot(size, near)
        if spot is not None:
            yield spot
