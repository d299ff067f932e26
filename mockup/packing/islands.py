"""Which balloons hang together: islands, that nothing joins."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Indices = NDArray[np.intp]

# An island is worth a run of its own from this share of all balloons on.
_LEAST_SHARE = 1 / 5


def islands(pairs: Indices, count: int) -> list[Indices]:
    """The indices of each set of ``count`` balloons that ``pairs`` (m, 2) lead through, rising.

    Small sets are taken together. Every balloon is in one set; sets come by their lowest index.

    >>> row = np.column_stack([np.arange(59), np.arange(1, 60)])
    >>> [one.tolist()[:2] for one in islands(np.vstack([row, row + 60]), 120)]
    [[0, 1], [60, 61]]
    """
    named = _lowest(pairs, count)
    sizes = np.bincount(named, minlength=count)[named]
    small = sizes < _LEAST_SHARE * count
    if small.any():
        named = np.where(small, np.argmax(small), named)
    # np.unique would read in numpy's masked arrays, which takes longer than all of this.
    lowest = np.flatnonzero(np.bincount(named, minlength=1))
    return [np.flatnonzero(named == one) for one in lowest]


def _lowest(pairs: Indices, count: int) -> Indices:
    """For each of ``count`` balloons the lowest index that ``pairs`` lead to."""
    named = np.arange(count)
    while True:
        ends = named[pairs]
        low = ends.min(axis=1)
        shorter = named.copy()
        # The lower name goes to the name it was met under, then from that to all who bear it.
        np.minimum.at(shorter, ends.ravel(), np.repeat(low, 2))
        shorter = shorter[shorter]
        if np.array_equal(shorter, named):
            return named
        named = shorter
