"""Which balloons touch: brute force for a few, a grid of cells for many."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mockup.packing.inflation import NotASize

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

# Where the two ways take about the same time, and how many candidates are held at once.
_FEW = 150
_AT_ONCE = 100_000
# Cells a side: three sides of 2^20 cells still number within 63 bits.
_MOST_CELLS = 2.0**20
# Half the columns round a cell: with the cell's own, every pair of cells is met once.
_COLUMNS = ((0, 1), (1, -1), (1, 0), (1, 1))


def touching_pairs(centres: ArrayLike, radii: ArrayLike, reach: float) -> Indices:
    """Pairs of spheres whose skins are at most ``reach`` apart, shape (m, 2).

    ``centres`` (k, 3), ``radii`` (k,) and ``reach`` in one unit; a ``reach`` below zero asks for
    an overlap of at least that. Each pair once, the lower index first, sorted. Raises
    ``NotASize`` for lengths that differ or figures that are not finite.

    >>> touching_pairs([[0, 0, 0], [9, 0, 0], [30, 0, 0]], [5, 5, 5], 0.0).tolist()
    [[0, 1]]
    """
    points, sizes = _checked(centres, radii, reach)
    if len(points) <= _FEW:
        return _among_few(points, sizes, reach)
    return _among_many(points, sizes, reach)


def overlaps(centres: Floats, radii: Floats, pairs: Indices) -> Floats:
    """How far each pair overlaps, as a share of its smaller diameter, shape (m,).

    Below zero where the two are apart.

    >>> overlaps(np.array([[0.0, 0, 0], [9, 0, 0]]), np.array([5.0, 5]), np.array([[0, 1]]))
    array([0.1])
    """
    i, j = pairs[:, 0], pairs[:, 1]
    gap = centres[i] - centres[j]
    apart = np.sqrt((gap * gap).sum(axis=1))
    return np.asarray((radii[i] + radii[j] - apart) / (2 * np.minimum(radii[i], radii[j])))


def _checked(centres: ArrayLike, radii: ArrayLike, reach: float) -> tuple[Floats, Floats]:
    points = np.asarray(centres, dtype=np.float64).reshape(-1, 3)
    sizes = np.asarray(radii, dtype=np.float64).reshape(-1)
    if len(points) != len(sizes):
        raise NotASize(f"{len(points)} centres need as many radii, not {len(sizes)}")
    if not (np.isfinite(points).all() and np.isfinite(sizes).all() and np.isfinite(reach)):
        raise NotASize("centres, radii and reach must be finite")
    return points, sizes


def _among_few(points: Floats, sizes: Floats, reach: float) -> Indices:
    every = np.arange(len(points))
    near = _near(points.T[:, :, None], sizes[:, None], points.T[:, None, :], sizes[None], reach)
    near &= every[:, None] < every[None, :]
    return np.argwhere(near)


def _near(p: Floats, p_size: Floats, q: Floats, q_size: Floats, reach: float) -> NDArray[np.bool_]:
    limit = p_size + q_size + reach
    x, y, z = p[0] - q[0], p[1] - q[1], p[2] - q[2]
    return np.asarray((x * x + y * y + z * z <= limit * limit) & (limit >= 0))


def _among_many(points: Floats, sizes: Floats, reach: float) -> Indices:
    """Cells as wide as the farthest contact: partners lie in a balloon's cell or those round it.

    Cells are numbered with z fastest, so that the three cells of a neighbouring column are one
    stretch of the sorted numbers, found by bisection: n log n, and memory bounded by taking the
    candidates in batches.
    """
    keys, column, row = _cells(points, max(2 * float(sizes.max()) + reach, 0.0))
    order = np.argsort(keys, kind="stable")
    keys, axes, sizes = keys[order], np.ascontiguousarray(points[order].T), sizes[order]
    found = [
        (first[near], second[near])
        for low, high in _stretches(keys, column, row)
        for first, second in _candidates(low, high)
        for near in (_near(axes[:, first], sizes[first], axes[:, second], sizes[second], reach),)
    ]
    first, second = (np.concatenate(side) for side in zip(*found, strict=True))
    return _sorted_pairs(order[first], order[second])


def _cells(points: Floats, reach: float) -> tuple[Indices, int, int]:
    """Each point's cell number, and the step of the number from column to column and row to row."""
    low = points.min(axis=0)
    span = points.max(axis=0) - low
    edge = max(reach, float(span.max()) / _MOST_CELLS) or 1.0
    cells = np.floor((points - low) / edge).astype(np.intp)
    # One empty cell between columns and rows keeps a stretch from running into the next one.
    column, high = (int(cells[:, axis].max()) + 2 for axis in (2, 1))
    row = column * high
    return cells @ np.array([row, column, 1], dtype=np.intp), column, row


def _stretches(keys: Indices, column: int, row: int) -> Iterator[tuple[Indices, Indices]]:
    yield np.arange(1, len(keys) + 1), np.searchsorted(keys, keys + 1, side="right")
    for rows, columns in _COLUMNS:
        middle = keys + (rows * row + columns * column)
        yield np.searchsorted(keys, middle - 1), np.searchsorted(keys, middle + 1, side="right")


def _candidates(low: Indices, high: Indices) -> Iterator[tuple[Indices, Indices]]:
    """Every (position, partner) with ``low <= partner < high`` of the position, in batches."""
    counts = np.maximum(high - low, 0)
    ends = np.cumsum(counts)
    start = 0
    while start < len(low):
        before = int(ends[start - 1]) if start else 0
        stop = max(start + 1, int(np.searchsorted(ends, before + _AT_ONCE, side="right")))
        batch = counts[start:stop]
        first = np.repeat(np.arange(start, stop), batch)
        begins = low[start:stop] - (ends[start:stop] - batch) + before
        yield first, np.repeat(begins, batch) + np.arange(len(first))
        start = stop


def _sorted_pairs(first: Indices, second: Indices) -> Indices:
    low, high = np.minimum(first, second), np.maximum(first, second)
    order = np.lexsort((high, low))
    return np.column_stack([low[order], high[order]])
