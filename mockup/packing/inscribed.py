"""The largest disc inside a closed line: where a panel finds the most room."""

from __future__ import annotations

import numpy as np

from mockup.packing.paths import Floats

_GRID, _ROUNDS, _CLOSER = 25, 12, 0.35
# Of middles with the same room, the one nearest to the box's middle is taken.
_SAME = 1e-6


def largest_disc(line: Floats) -> tuple[float, float, float] | None:
    """Centre and radius (cx, cy, radius) of the largest disc within a closed polyline (k, 2).

    The line is closed from its last point to its first. The distance to the line is sought on a
    grid that closes in on the best place so far. None where nothing is enclosed.

    >>> square = np.array([[0.0, 0.0], [0.0, 4.0], [4.0, 4.0], [4.0, 0.0]])
    >>> [round(each, 6) for each in largest_disc(square)]
    [2.0, 2.0, 2.0]
    """
    low, high = line.min(axis=0), line.max(axis=0)
    centre, reach = (low + high) / 2, (high - low) / 2
    best = centre
    for _ in range(_ROUNDS):
        share = np.linspace(-1.0, 1.0, _GRID)
        x, y = np.meshgrid(best[0] + share * reach[0], best[1] + share * reach[1])
        spots = np.column_stack([x.ravel(), y.ravel()])
        room = np.where(_within(spots, line), _distances(spots, line), 0.0)
        if room.max() <= 0:
            return None
        near = np.flatnonzero(room >= room.max() - _SAME * float(reach.max()))
        off = ((spots[near] - centre) ** 2).sum(axis=1)
        best, reach = spots[near[int(np.argmin(off))]], reach * _CLOSER
    radius = float(_distances(best[None], line)[0])
    return float(best[0]) + 0.0, float(best[1]) + 0.0, radius


def _distances(spots: Floats, line: Floats) -> Floats:
    """From each spot (m, 2) to the nearest point of the closed line, (m,)."""
    start, way = line, np.roll(line, -1, axis=0) - line
    long = np.maximum((way * way).sum(axis=1), 1e-18)
    toward = spots[:, None, :] - start[None]
    share = np.clip((toward * way).sum(axis=2) / long, 0.0, 1.0)
    off = toward - share[:, :, None] * way
    return np.asarray(np.sqrt((off * off).sum(axis=2).min(axis=1)))


def _within(spots: Floats, line: Floats) -> Floats:
    """Whether each spot lies inside, by the even-odd rule."""
    (x0, y0), (x1, y1) = line.T, np.roll(line, -1, axis=0).T
    x, y = spots[:, :1], spots[:, 1:]
    rises = (y0 <= y) != (y1 <= y)
    level = np.where(y1 == y0, 1.0, y1 - y0)
    crosses = rises & (x < x0 + (y - y0) * (x1 - x0) / level)
    return np.asarray(crosses.sum(axis=1) % 2 == 1)
