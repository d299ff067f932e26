"""How much room many options leave a row of numerals, from a map of distances to it.

The row is the same in all options, so its distances are worked out once, on a fine grid; after that
a balloon's clearance at a shift of the row is one look-up. Looking up between grid points is
right to half a step, so that answers here are near, and exact ones are left to ``panel.fit``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from mockup.panel.capsules import Around, Row, around, row_of
from mockup.panel.numerals import numeral_row
from mockup.panel.outline import least_clearance, outline_of
from mockup.panel.shifts import clearances

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
_At = Callable[[Ints], Floats]

STEP = 4.0
_OUT = 40.0
_STRIDE, _LEAST_STEPS, _LONGEST = 4, 24, 7.0
# Of shifts that are about as good the one nearest to none is taken, as in the exact fit.
_TIE = 0.25
# The exact fit may choose any shift that is within this of the best, mm.
_AS_GOOD = 6.0
_NONE = np.zeros((0, 2))


@dataclass(frozen=True)
class NumeralMap:
    """Distances to the outline of a row at rest, on a grid of ``STEP`` mm about (0, 0).

    ``field`` is (n, n), by y and then x; ``low`` the coordinate of its first row and column.
    ``edge`` (s,) is the clearance to the opening's edge at each of ``shifts`` (s,), mm.
    """

    radius: float
    field: Floats
    low: float
    shifts: Floats
    edge: Floats
    fixed: bool

    def clearance(self, x: Floats, y: Floats) -> Floats:
        """The distance from points to the row's outline, mm, below 0 inside it.

        Above and below the grid it is told a little long, so that nothing is refused for it.
        """
        beyond = np.maximum(np.abs(y) + self.low, 0.0)
        last = len(self.field) - 2
        u, v = (x - self.low) / STEP, (y - self.low) / STEP
        i = np.clip(np.floor(v), 0, last).astype(np.intp)
        j = np.clip(np.floor(u), 0, last).astype(np.intp)
        u, v = np.clip(u - j, 0.0, 1.0), np.clip(v - i, 0.0, 1.0)
        flat, at, row = self.field.ravel(), i * len(self.field) + j, len(self.field)
        low = flat[at] * (1 - u) + flat[at + 1] * u
        high = flat[at + row] * (1 - u) + flat[at + row + 1] * u
        return np.asarray(low * (1 - v) + high * v + beyond)


def numeral_map(
    text: str,
    height: float,
    widths: Mapping[str, float],
    gap: float,
    *,
    radius: float,
    raised: float | None,
) -> NumeralMap:
    """The map of a row of ``height`` (filled) in an opening of ``radius``, mm.

    ``raised`` fixes the shift; without it all are looked at that keep the row in the opening, or
    out of it by no more than ``_OUT`` mm.
    """
    return _mapped(text, height, tuple(sorted(widths.items())), gap, (radius, raised))


@lru_cache(maxsize=8)
def _mapped(
    text: str,
    height: float,
    widths: tuple[tuple[str, float], ...],
    gap: float,
    opening: tuple[float, float | None],
) -> NumeralMap:
    radius, raised = opening
    shapes = numeral_row(text, height, dict(widths), gap)
    outline = outline_of(shapes, [0.0] * len(shapes))
    half = int(np.ceil(1.25 * radius / STEP))
    marks = np.arange(-half, half + 1) * STEP
    grid = np.stack(np.meshgrid(marks, marks), axis=-1).reshape(-1, 2)
    field = least_clearance(grid, outline).reshape(len(marks), len(marks))
    row, empty = row_of(outline), around(radius, _NONE, np.zeros(0))
    shifts = _every_shift(row, empty) if raised is None else np.array([raised])
    edge = clearances(row, empty, shifts)
    return NumeralMap(radius, field, float(marks[0]), shifts, edge, raised is not None)


def _every_shift(row: Row, empty: Around) -> Floats:
    """All shifts that may be tried: those looked at first, and ``_STRIDE`` - 1 between two."""
    wide = np.linspace(-1.0, 1.0, 201) * empty.radius
    held = np.abs(wide[clearances(row, empty, wide) >= -_OUT])
    far = float(held.max(initial=empty.radius / 8))
    steps = _STRIDE * max(_LEAST_STEPS, int(np.ceil(2 * far / (_STRIDE * _LONGEST))))
    return np.linspace(-far, far, steps + 1)


@dataclass(frozen=True)
class Room:
    """What each option leaves, (m,) mm: clearance to all that blocks, and to what is in front.

    Below 0 by how much the numerals do not fit. Shifts of the row that are about as good may leave
    unlike room in front: ``front`` is the least of it (below 0 where they tuck behind), ``most``
    the most.
    """

    solid: Floats
    front: Floats
    most: Floats


def room(
    numerals: NumeralMap, xy: Floats, blocked: Floats, silhouettes: Floats, wanted: float
) -> Room:
    """The room at the best shift, for discs at ``xy`` (2, k, m) of two sets of radii (k, m).

    Other shifts are asked for their room in front where there is less of it than ``wanted``, mm,
    and of the other not.
    """
    reach = np.hypot(xy[0], xy[1]) - np.maximum(blocked, silhouettes)
    near = (reach < numerals.radius).any(axis=1)
    discs = _Discs(numerals, xy[:, near], blocked[near], silhouettes[near])
    best, solid = _climbed(len(numerals.shifts), discs.solid, xy.shape[2])
    least = discs.front(best)
    most = least.copy()
    held = np.flatnonzero((least < wanted) & (solid >= wanted))
    if len(held) and not numerals.fixed:
        low, high = discs.only(held).fronts(solid[held] - _AS_GOOD)
        least[held] = np.minimum(least[held], low)
        most[held] = np.maximum(most[held], high)
    return Room(solid, least, most)


@dataclass(frozen=True)
class _Discs:
    """What stands round the row in m options: what it blocks, and what it hides."""

    numerals: NumeralMap
    xy: Floats
    blocked: Floats
    silhouettes: Floats

    def only(self, which: Ints) -> _Discs:
        """Some of the options."""
        blocked, hidden = self.blocked[:, which], self.silhouettes[:, which]
        return _Discs(self.numerals, self.xy[:, :, which], blocked, hidden)

    def solid(self, shift: Ints) -> Floats:
        """The clearance to what blocks and to the opening's edge at one shift of each, (m,)."""
        return np.minimum(self._clear(shift, self.blocked), self.numerals.edge[shift])

    def front(self, shift: Ints) -> Floats:
        """The clearance to what is in front, (m,)."""
        return self._clear(shift, self.silhouettes)

    def _clear(self, shift: Ints, radii: Floats) -> Floats:
        y = self.xy[1] - self.numerals.shifts[shift]
        clear = self.numerals.clearance(self.xy[0], y) - radii
        return np.asarray(np.where(radii <= 0.0, np.inf, clear).min(axis=0, initial=np.inf))

    def fronts(self, level: Floats) -> tuple[Floats, Floats]:
        """The least and the most room in front at the shifts that leave ``level`` (m,) or more.

        Infinite where none of those looked at, every second one, does.
        """
        least, most = np.full((2, len(level)), np.inf)
        most *= -1.0
        for each in range(0, len(self.numerals.shifts), 2):
            shift = np.full(len(level), each)
            good = self.solid(shift) >= level
            front = self.front(shift)
            least = np.where(good, np.minimum(least, front), least)
            most = np.where(good, np.maximum(most, front), most)
        return least, most


def _climbed(shifts: int, solid_at: _At, options: int) -> tuple[Ints, Floats]:
    """The best shift of each option: coarse steps first, then all round the best of them."""
    best = np.full(options, shifts // 2)
    value = solid_at(best)
    middle = shifts // 2
    for each in sorted(range(0, shifts, _STRIDE), key=lambda one: (abs(one - middle), one)):
        best, value = _better(best, value, np.full(options, each), solid_at)
    for off in (-2, 2, -1, 1):
        best, value = _better(best, value, np.clip(best + off, 0, shifts - 1), solid_at)
    return best, value


def _better(best: Ints, value: Floats, tried: Ints, solid_at: _At) -> tuple[Ints, Floats]:
    found = solid_at(tried)
    higher = found > value + _TIE
    return np.where(higher, tried, best), np.where(higher, found, value)


def window_heights(radius: float, xy: Floats, blocked: Floats) -> Floats:
    """Height of the window through the centre, (m,) mm, as ``panel.window`` measures it.

    ``xy`` (2, k, m) about the opening's centre, ``blocked`` (k, m) the blocked radii.
    """
    rest = blocked**2 - xy[0] ** 2
    half = np.sqrt(np.maximum(rest, 0.0))
    hit = (rest > 0.0) & (blocked > 0.0)
    up = np.where(hit & (xy[1] > 0), xy[1] - half, radius).min(axis=0, initial=radius)
    down = np.where(hit & (xy[1] < 0), -xy[1] - half, radius).min(axis=0, initial=radius)
    covered = (np.hypot(xy[0], xy[1]) < blocked).any(axis=0)
    return np.where(covered, 0.0, np.minimum(up, radius) + np.minimum(down, radius))
