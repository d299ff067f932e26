"""Points sorted into the squares of a grid, so that a disc asks only those that it may reach."""

from __future__ import annotations

from collections.abc import Iterable
from math import floor

Point2 = tuple[float, float]

# Two points just a square's width apart must not land two squares apart by rounding.
_HAIR = 1e-9


class Squares:
    """Points by the square they lie in; squares are ``reach`` wide (mm, above zero).

    >>> Squares([(0.0, 0.0), (9.0, 0.0), (40.0, 0.0)], 10.0).around(12.0, 3.0)
    [0, 1]
    """

    def __init__(self, points: Iterable[Point2], reach: float) -> None:
        self._edge = reach * (1.0 + _HAIR)
        self._lie: dict[tuple[int, int], list[int]] = {}
        for index, (x, y) in enumerate(points):
            self._lie.setdefault(self._square(x, y), []).append(index)

    def around(self, x: float, y: float) -> list[int]:
        """The indices, in order, of every point nearer than ``reach``, and of some beyond it."""
        column, row = self._square(x, y)
        found = [
            index
            for i in (column - 1, column, column + 1)
            for j in (row - 1, row, row + 1)
            for index in self._lie.get((i, j), ())
        ]
        found.sort()
        return found

    def _square(self, x: float, y: float) -> tuple[int, int]:
        return floor(x / self._edge), floor(y / self._edge)
