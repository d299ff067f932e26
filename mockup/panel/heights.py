"""The largest height at which a row of numerals fits."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.panel.capsules import Around, Row, Trials, narrowed
from mockup.panel.outline import Floats
from mockup.panel.shifts import edge_shifts, free_shifts

COARSE = 16
"""Heights tried from the largest that the empty opening holds downward, in equal steps."""
ROUNDS, PARTS = 4, 7
"""After that the step that holds the answer is cut into parts, so many times: to 1/2401 of it."""
_TRIED_AT_ONCE = 4
_EDGE_ROUNDS, _EDGE_PARTS = 4, 32


def largest_height(row: Row, height: float, around: Around) -> float:
    """The largest height, mm, at which the row is free of discs and edge at its own best shift.

    ``row`` is the row at ``height``; widths grow with the height, gaps do not. The answer fits
    and lies within 1/38,000 of the largest height that the empty opening holds below one that
    does not. A taller fit in a narrow band further up (a numeral that just encloses a balloon) may
    be passed over. 0 where none fits.

    >>> from mockup.panel.capsules import around, row_of
    >>> from mockup.panel.numerals import numeral_row
    >>> from mockup.panel.outline import outline_of
    >>> bar = row_of(outline_of(numeral_row("I", 100.0, {}, 0.0), [0.0]))
    >>> empty = around(200.0, np.empty((0, 2)), np.empty(0))
    >>> round(largest_height(bar, 100.0, empty), 1)
    400.0
    """
    most = _largest_in_opening(row, around.radius, 4 * around.radius / height)
    steps = _fitting_steps(row, around, most) if most > 0.0 else COARSE
    if steps == COARSE:
        return most * height
    low, high = most * steps / COARSE, most * (steps + 1) / COARSE
    row, around = _what_still_counts(row, around, low, high)
    for _ in range(ROUNDS):
        shares = np.linspace(low, high, PARTS + 1)
        first = _last(_fits(row, around, shares[1:-1]))
        low, high = float(shares[first]), float(shares[first + 1])
    return low * height


def _fitting_steps(row: Row, around: Around, most: float) -> int:
    """The most of ``COARSE`` equal steps up to the share ``most`` at which the row fits, or 0."""
    for top in range(COARSE, 0, -_TRIED_AT_ONCE):
        steps = np.arange(top - _TRIED_AT_ONCE, top) + 1
        last = _last(_fits(row, around, most * steps / COARSE))
        if last:
            return int(steps[last - 1])
    return 0


def _last(fits: NDArray[np.bool_]) -> int:
    """How many there are up to the last that fits."""
    found = np.flatnonzero(fits)
    return int(found[-1]) + 1 if len(found) else 0


def _fits(row: Row, around: Around, shares: Floats) -> NDArray[np.bool_]:
    """Whether the row finds a place at each share of its height, (m,)."""
    free = free_shifts(row, around, Trials(shares, np.zeros_like(shares)))
    return np.bincount(free.trial, minlength=len(shares)) > 0


def _what_still_counts(row: Row, around: Around, low: float, high: float) -> tuple[Row, Around]:
    """Segments and discs that can meet at a share of the height between ``low`` and ``high``.

    Between both, a point of the row moves by no more than the row's growth, nor does its stroke.
    """
    grown = np.hypot(row.corner_x, row.corner_y) + row.corner_half
    least, spare = np.array([low]), np.array([(high - low) * float(grown.max())])
    span = edge_shifts(row, around.radius, Trials(least, -spare))
    return narrowed(row, around, Trials(least, spare), span)


def _largest_in_opening(row: Row, radius: float, most: float) -> float:
    """The largest share of the row's height that the empty opening holds (smaller always fits)."""
    low, high = 0.0, most
    for _ in range(_EDGE_ROUNDS):
        shares = np.linspace(low, high, _EDGE_PARTS + 1)
        span = edge_shifts(row, radius, Trials(shares[1:], np.zeros(_EDGE_PARTS)))
        first = int((span.low < span.high).sum())
        low, high = float(shares[first]), float(shares[min(first + 1, _EDGE_PARTS)])
    return low
