"""A row of numerals as line segments with a half width: what contact is decided from.

Distances run from a point to the centre-line, less half the stroke, so they are exact for the
sampled centre-line; no polygon is involved.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from mockup.panel.numerals import NumeralShape
from mockup.records import dataclass

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

AT_ONCE = 200_000
"""Pairs of a point and a segment that are worked on together: bounds the memory."""


@dataclass(frozen=True)
class Outline:
    """The centre-lines of a row as ``starts`` and ``ends``, each (s, 2) mm.

    ``half_widths`` (s,) is half the stroke and ``fixed`` (s,) the part of x that does not grow
    with the height (the gaps). Segments are sorted into groups, one for the upper and one for the
    lower half of each numeral: ``groups`` (g,) are their first segments, ``numerals`` (g,) whose
    they are.
    """

    starts: Floats
    ends: Floats
    half_widths: Floats
    fixed: Floats
    groups: Ints
    numerals: Ints

    def raised(self, by: float) -> Outline:
        """The row moved up by ``by`` mm."""
        up = np.array([0.0, by])
        rest = (self.half_widths, self.fixed, self.groups, self.numerals)
        return Outline(self.starts + up, self.ends + up, *rest)

    def only(self, kept: NDArray[np.bool_]) -> Outline:
        """The segments that are ``kept`` (s,), at least one, in their groups."""
        counts = np.diff(np.append(self.groups, len(self.starts)))
        group = np.repeat(np.arange(len(self.groups)), counts)[kept]
        first = np.flatnonzero(np.diff(group, prepend=-1))
        starts, ends, numerals = self.starts[kept], self.ends[kept], self.numerals[group[first]]
        half_widths, fixed = self.half_widths[kept], self.fixed[kept]
        return Outline(starts, ends, half_widths, fixed, first, numerals)


def outline_of(shapes: Sequence[NumeralShape], fixed_x: Sequence[float]) -> Outline:
    """The segments of placed numerals; ``fixed_x`` is the part of each one's x made by gaps.

    >>> from mockup.panel.numerals import numeral_row
    >>> outline = outline_of(numeral_row("17", 100.0, {}, 0.0), [0.0, 0.0])
    >>> len(outline.starts), outline.groups.tolist(), outline.numerals.tolist()
    (6, [0, 2, 3, 5], [0, 0, 1, 1])
    """
    strokes = [_cut(stroke, shape.y) for shape in shapes for stroke in shape.strokes]
    starts = np.vstack([stroke[:-1] for stroke in strokes])
    ends = np.vstack([stroke[1:] for stroke in strokes])
    own = np.repeat(np.arange(len(shapes)), [len(shape.strokes) for shape in shapes])
    owner = np.repeat(own, [len(stroke) - 1 for stroke in strokes])
    lower = (starts[:, 1] + ends[:, 1]) / 2 < np.array([shape.y for shape in shapes])[owner]
    group = 2 * owner + lower
    order = np.argsort(group, kind="stable")
    first = np.flatnonzero(np.diff(group[order], prepend=-1))
    half_widths = np.array([shape.half_width for shape in shapes])[owner]
    fixed = np.asarray(fixed_x, dtype=np.float64)[owner]
    lines = (starts[order], ends[order], half_widths[order], fixed[order])
    return Outline(*lines, first, group[order][first] // 2)


def _cut(stroke: Floats, y: float) -> Floats:
    """The polyline with a point more wherever it crosses the height ``y``."""
    over = stroke[:, 1] - y
    crossing = np.flatnonzero(over[:-1] * over[1:] < 0.0)
    share = (over[crossing] / (over[crossing] - over[crossing + 1]))[:, None]
    points = stroke[crossing] + share * (stroke[crossing + 1] - stroke[crossing])
    return np.insert(stroke, crossing + 1, points, axis=0)


@dataclass(frozen=True)
class Nearest:
    """For k points and the g groups of an outline: how near they come.

    ``clearance`` (k, g) is the distance from the point to the outline, below 0 inside it;
    ``on_line`` (k, g, 2) the nearest point of the centre-line.
    """

    clearance: Floats
    on_line: Floats


def nearest(points: Floats, outline: Outline) -> Nearest:
    """Where the groups of ``outline`` come nearest to each of ``points`` (k, 2), mm.

    >>> from mockup.panel.numerals import numeral_row
    >>> bar = outline_of(numeral_row("I", 100.0, {}, 0.0), [0.0])
    >>> nearest(np.array([[30.0, 20.0]]), bar).on_line[0].round(6).tolist()
    [[0.0, 20.0], [0.0, 0.0]]
    """
    k, g = len(points), len(outline.groups)
    clearance, on_line = np.empty((k, g)), np.empty((k, g, 2))
    bounds = [*outline.groups.tolist(), len(outline.starts)]
    for rows in chunks(k, len(outline.starts)):
        squared, t = _squared(points[rows], outline)
        for i in range(g):
            best = squared[:, bounds[i] : bounds[i + 1]].argmin(axis=1) + bounds[i]
            here = np.arange(len(best))
            along = (outline.ends - outline.starts)[best] * t[here, best, None]
            on_line[rows, i] = outline.starts[best] + along
            clearance[rows, i] = np.sqrt(squared[here, best]) - outline.half_widths[bounds[i]]
    return Nearest(clearance, on_line)


def least_clearance(points: Floats, outline: Outline) -> Floats:
    """The distance from each of ``points`` (k, 2) to the outline, (k,) mm, below 0 inside it.

    >>> from mockup.panel.numerals import numeral_row
    >>> bar = outline_of(numeral_row("I", 100.0, {}, 0.0), [0.0])
    >>> least_clearance(np.array([[30.0, 20.0], [0.0, 0.0]]), bar).round(6).tolist()
    [18.5, -11.5]
    """
    least = np.empty(len(points))
    for rows in chunks(len(points), len(outline.starts)):
        squared = _squared(points[rows], outline)[0]
        by_group = np.sqrt(np.minimum.reduceat(squared, outline.groups, axis=1))
        least[rows] = (by_group - outline.half_widths[outline.groups]).min(axis=1)
    return least


def chunks(count: int, width: int) -> Iterator[slice]:
    """Slices of ``count`` rows so that rows times ``width`` stays within ``AT_ONCE``.

    >>> list(chunks(3, AT_ONCE // 2))
    [slice(0, 2, None), slice(2, 3, None)]
    """
    size = max(1, AT_ONCE // max(1, width))
    for start in range(0, count, size):
        yield slice(start, min(count, start + size))


def _squared(points: Floats, outline: Outline) -> tuple[Floats, Floats]:
    """Squared distance of points to segments, (k, s), and how far along each (0 to 1)."""
    dx, dy = (outline.ends - outline.starts).T
    share = 1.0 / (dx * dx + dy * dy)
    away_x = points[:, 0, None] - outline.starts[:, 0]
    away_y = points[:, 1, None] - outline.starts[:, 1]
    t = away_x * (dx * share)
    t += away_y * (dy * share)
    np.clip(t, 0.0, 1.0, out=t)
    away_x -= t * dx
    away_y -= t * dy
    away_x *= away_x
    away_y *= away_y
    away_x += away_y
    return away_x, t
