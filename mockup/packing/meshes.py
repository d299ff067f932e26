"""Balloons of one size over a flat mesh: a cell for each, on a square or a staggered grid.

Pressed balloons lie ``(1 - squeeze) d`` apart. On the square grid that is the pitch both ways; on
the staggered one every other row is moved by half a pitch and has one balloon less, and the rows
lie ``sqrt(3)/2`` of the pitch apart, so that each balloon touches six. Inside the grid every
balloon is pressed alike from all sides: it lies as it is tied, and nothing needs settling.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import acos, pi, sqrt

import numpy as np
from numpy.typing import NDArray

from mockup.packing.inflation import above_zero
from mockup.packing.nesting import contact_share
from mockup.records import dataclass

Floats = NDArray[np.float64]
_SIX_ROWS = sqrt(3.0) / 2


@dataclass(frozen=True)
class Mesh:
    """``columns`` x ``rows`` cells of balloons of ``diameter`` (mm), the grid's middle at (0, 0).

    ``columns`` is that of the first row, which is the top one; on a ``staggered`` mesh every
    second row has one cell less.

    >>> mesh = Mesh(3, 2, 100.0, 0.1, staggered=True)
    >>> mesh.lengths, mesh.pitch, round(mesh.row_pitch, 3)
    ((3, 2), 90.0, 77.942)
    """

    columns: int
    rows: int
    diameter: float
    squeeze: float
    staggered: bool = False

    @property
    def pitch(self) -> float:
        """From balloon to balloon along a row, mm."""
        return pitches(self.diameter, self.squeeze, self.staggered)[0]

    @property
    def row_pitch(self) -> float:
        """From row to row, mm."""
        return pitches(self.diameter, self.squeeze, self.staggered)[1]

    @property
    def lengths(self) -> tuple[int, ...]:
        """How many cells each row has, from the top."""
        return tuple(self.columns - (k % 2 if self.staggered else 0) for k in range(self.rows))

    @property
    def count(self) -> int:
        """How many cells there are in all."""
        return sum(self.lengths)

    @property
    def width(self) -> float:
        """Over the outermost balloons, mm."""
        return (self.columns - 1) * self.pitch + self.diameter

    @property
    def height(self) -> float:
        """Over the outermost balloons, mm."""
        return (self.rows - 1) * self.row_pitch + self.diameter

    def row(self, number: int) -> Floats:
        """The middles (k, 2) of the cells of a row counted from the top, from the left, mm."""
        length = self.lengths[number]
        x = (np.arange(length) - (length - 1) / 2) * self.pitch
        y = ((self.rows - 1) / 2 - number) * self.row_pitch
        return np.column_stack([x, np.full(length, y)])

    def cells(self) -> Iterator[tuple[int, int, float, float]]:
        """Row and column from 0, and x and y of every cell, row by row from the top left."""
        for number in range(self.rows):
            for column, (x, y) in enumerate(self.row(number).tolist()):
                yield number, column, x, y


def pitches(diameter: float, squeeze: float, staggered: bool) -> tuple[float, float]:
    """From balloon to balloon along a row and from row to row, mm; raises ``NotASize``.

    >>> pitches(100.0, 0.0, False), pitches(200.0, 0.0, True)
    ((100.0, 100.0), (200.0, 173.20508075688772))
    """
    along = contact_share(squeeze) * above_zero(diameter, "diameter")
    return along, along * (_SIX_ROWS if staggered else 1.0)


def fitting(
    width: float, height: float, diameter: float, squeeze: float, *, staggered: bool, by: int = 1
) -> Mesh:
    """The mesh of that pitch whose balloons come nearest to covering ``width`` x ``height`` mm.

    Columns and rows are multiples of ``by``: 2 where quads take two cells either way.

    >>> mesh = fitting(1000.0, 500.0, 100.0, 0.0, staggered=False)
    >>> mesh.columns, mesh.rows
    (10, 5)
    """
    along, down = pitches(diameter, squeeze, staggered)

    def nearest(over: float, pitch: float) -> int:
        return max(by, by * round(((over - diameter) / pitch + 1) / by))

    return Mesh(nearest(width, along), nearest(height, down), diameter, squeeze, staggered)


def covered_share(squeeze: float, *, staggered: bool) -> float:
    """The share of the face, far from its edges, that balloons hide from the front.

    A cell is a square or a regular hexagon of apothem ``(1 - squeeze) d / 2``; a balloon hides the
    part of its disc that lies in it, as the rest of it lies before its neighbours. Without squeeze
    pi/4 and pi/(2 sqrt 3), the densities of the square and the hexagonal packing.

    >>> round(covered_share(0.0, staggered=False), 6), round(covered_share(0.0, staggered=True), 6)
    (0.785398, 0.9069)
    """
    sides = 6 if staggered else 4
    apothem = contact_share(squeeze) / 2
    cell = (2 * sqrt(3.0) if staggered else 4.0) * apothem**2
    if apothem >= 0.5:
        return pi / 4 / cell
    corner = (2 / sqrt(3.0) if staggered else sqrt(2.0)) * apothem
    if corner <= 0.5:
        return 1.0
    beyond = 0.25 * acos(2 * apothem) - apothem * sqrt(0.25 - apothem**2)
    return (pi / 4 - sides * beyond) / cell
