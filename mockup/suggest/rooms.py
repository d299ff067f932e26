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

from mockup.panel.capsules import around, row_of
from mockup.panel.numerals import numeral_row
from mockup.panel.outline import least_clearance, outline_of
from mockup.panel.shifts import clearances

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
_At = Callable[[Ints], Floats]

STEP = 4.0
_COARSE, _FINE = 25, 9
# Of shifts that are about as good the one nearest to none is taken, as in the exact fit.
_TIE = 0.25
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
        """The distance from points to the row's outline, mm, below 0 inside it."""
        last = len(self.field) - 2
        u, v = (x - self.low) / STEP, (y - self.low) / STEP
        i = np.clip(np.floor(v), 0, last).astype(np.intp)
        j = np.clip(np.floor(u), 0, last).astype(np.intp)
        u, v = np.clip(u - j, 0.0, 1.0), np.clip(v - i, 0.0, 1.0)
        flat, at, row = self.field.ravel(), i * len(self.field) + j, len(self.field)
        low = flat[at] * (1 - u) + flat[at + 1] * u
        high = flat[at + row] * (1 - u) + flat[at + row + 1] * u
        return np.asarray(low * (1 - v) + high * v)


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

    ``raised`` fixes the shift; without it shifts up to half the radius are looked at.
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
    shifts = np.linspace(-0.5, 0.5, _COARSE) * radius if raised is None else np.array([raised])
    row, empty = row_of(outline), around(radius, _NONE, np.zeros(0))
    fine = _every_shift(shifts) if raised is None else shifts
    edge = clearances(row, empty, fine)
    return NumeralMap(radius, field, float(marks[0]), fine, edge, raised is not None)


def _every_shift(coarse: Floats) -> Floats:
    """All shifts that may be tried: between two coarse ones ``_FINE`` - 1 steps."""
    return np.linspace(coarse[0], coarse[-1], (len(coarse) - 1) * (_FINE - 1) // 2 + 1)


@dataclass(frozen=True)
class Room:
    """What each option leaves, (m,) mm: clearance to all that blocks, and to what is in front.

    Below 0 by how much the numerals do not fit; ``front`` below 0 where they tuck behind.
    """

    solid: Floats
    front: Floats


def room(numerals: NumeralMap, xy: Floats, blocked: Floats, silhouettes: Floats) -> Room:
    """The room at the best shift, for discs at ``xy`` (2, k, m) of two sets of radii (k, m)."""
    reach = np.hypot(xy[0], xy[1]) - np.maximum(blocked, silhouettes)
    near = (reach < numerals.radius).any(axis=1)
    x, y, blocked, silhouettes = xy[0, near], xy[1, near], blocked[near], silhouettes[near]
    hidden = blocked <= 0.0

    def solid_at(shift: Ints) -> Floats:
        clear = numerals.clearance(x, y - numerals.shifts[shift]) - blocked
        least = np.where(hidden, np.inf, clear).min(axis=0, initial=np.inf)
        return np.asarray(np.minimum(least, numerals.edge[shift]))

    best, solid = _climbed(len(numerals.shifts), solid_at, xy.shape[2])
    front = numerals.clearance(x, y - numerals.shifts[best]) - silhouettes
    least = np.where(silhouettes <= 0.0, np.inf, front).min(axis=0, initial=np.inf)
    return Room(solid, least)


def _climbed(shifts: int, solid_at: _At, options: int) -> tuple[Ints, Floats]:
    """The best shift of each option: coarse steps first, then all round the best of them."""
    stride = max(1, (_FINE - 1) // 2)
    best = np.full(options, shifts // 2)
    value = solid_at(best)
    middle = shifts // 2
    for each in sorted(range(0, shifts, stride), key=lambda one: (abs(one - middle), one)):
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
