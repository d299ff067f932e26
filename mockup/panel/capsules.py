"""The shifts that bring a segment of a row too near to a disc, for many heights at once."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from mockup.panel.outline import Floats, Ints, Outline, chunks
from mockup.records import dataclass


@dataclass(frozen=True)
class Around:
    """What stands round a row: an opening of ``radius`` about (0, 0) and the discs in it.

    ``xy`` is (k, 2), ``reach`` (k,) their radii, all mm and all above 0.
    """

    radius: float
    xy: Floats
    reach: Floats


def around(radius: float, xy: Floats, reach: Floats) -> Around:
    """Only the discs that reach into the opening: no other can be nearer than its edge.

    >>> import numpy as np
    >>> len(around(100.0, np.array([[0.0, 90.0], [0.0, 120.0]]), np.array([15.0, 15.0])).reach)
    1
    """
    near = (reach > 0.0) & (np.hypot(xy[:, 0], xy[:, 1]) - reach < radius)
    return Around(radius, xy[near], reach[near])


@dataclass(frozen=True)
class Row:
    """A row of numerals made ready for many trials at other heights.

    Segments run from (x, y) by (dx, dy) with dx >= 0, all (s,) mm; ``fixed`` is the part of x that
    gaps make. Corners (c,) are the points of each numeral's convex hull: no other point of the
    row can be the first to meet the edge of a round opening.
    """

    outline: Outline
    x: Floats
    y: Floats
    dx: Floats
    dy: Floats
    corner_x: Floats
    corner_y: Floats
    corner_half: Floats
    corner_fixed: Floats


@dataclass(frozen=True)
class Trials:
    """Shares of the row's height and the clearances that are asked for at them, both (m,)."""

    share: Floats
    clearance: Floats


@dataclass(frozen=True)
class Span:
    """The shifts from ``low`` to ``high``, (m,) mm each, that are looked at in each trial."""

    low: Floats
    high: Floats


def row_of(outline: Outline) -> Row:
    """Turn every segment to run rightward and find the corners of each numeral.

    >>> from mockup.panel.numerals import numeral_row
    >>> from mockup.panel.outline import outline_of
    >>> row = row_of(outline_of(numeral_row("7", 100.0, {}, 0.0), [0.0]))
    >>> bool(row.dx.min() >= 0.0), sorted(set(row.corner_y.round(3).tolist()))
    (True, [-38.5, 38.5])
    """
    way = outline.ends - outline.starts
    left = way[:, 0] < 0.0
    x, y = np.where(left, outline.ends.T, outline.starts.T)
    dx, dy = np.where(left, -way.T, way.T)
    hulls = [_hull(outline, numeral) for numeral in sorted(set(outline.numerals.tolist()))]
    corner_x, corner_y = np.vstack([hull for hull, _ in hulls]).T.copy()
    own = np.repeat([first for _, first in hulls], [len(hull) for hull, _ in hulls])
    corner_half, corner_fixed = outline.half_widths[own], outline.fixed[own]
    return Row(outline, x, y, dx, dy, corner_x, corner_y, corner_half, corner_fixed)


def narrowed(row: Row, around: Around, trials: Trials, span: Span) -> tuple[Row, Around]:
    """Only the segments and discs that come nearer than the trials' clearances within ``span``.

    Beyond ``span`` or at a greater clearance the narrowed row knows nothing of what was left out.
    """
    discs, segments = np.zeros(len(around.xy), dtype=np.bool_), np.zeros(len(row.x), dtype=np.bool_)
    for rows in chunks(len(around.xy), len(row.x) * len(trials.share)):
        near = _near(_scaled(row, trials), around, rows, span)
        discs[rows] = near.any(axis=(0, 2))
        segments |= near.any(axis=(0, 1))
    segments[0] |= not segments.any()
    fewer = replace(
        row,
        outline=row.outline.only(segments),
        x=row.x[segments],
        y=row.y[segments],
        dx=row.dx[segments],
        dy=row.dy[segments],
    )
    return fewer, Around(around.radius, around.xy[discs], around.reach[discs])


def _hull(outline: Outline, numeral: int) -> tuple[Floats, int]:
    """The corners of a numeral's convex hull and its first segment."""
    groups = np.flatnonzero(outline.numerals == numeral)
    bounds = np.append(outline.groups, len(outline.starts))
    first, last = int(bounds[groups[0]]), int(bounds[groups[-1] + 1])
    points = np.vstack([outline.starts[first:last], outline.ends[first:last]])
    return np.array(_corners(sorted(set(map(tuple, points.tolist()))))), first


def _corners(points: list[tuple[float, ...]]) -> list[tuple[float, ...]]:
    """The corners of the convex hull of points sorted by x, then y (A. M. Andrew's chain, 1979)."""
    if len(points) < 3:
        return points
    return [*_chain(points)[:-1], *_chain(points[::-1])[:-1]]


def _chain(points: list[tuple[float, ...]]) -> list[tuple[float, ...]]:
    """One side of the hull: points that turn right are left out."""
    chain: list[tuple[float, ...]] = []
    for x, y in points:
        while len(chain) > 1:
            (ax, ay), (bx, by) = chain[-2], chain[-1]
            if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0:
                break
            chain.pop()
        chain.append((x, y))
    return chain


def ruled_out(row: Row, around: Around, trials: Trials, span: Span) -> tuple[Ints, Floats, Floats]:
    """Trial, start and end of every interval of shifts that is ruled out, cut to ``span``, mm.

    A disc of radius 10 beside a bar 100 high and 23 wide, straight above its end:

    >>> from mockup.panel.numerals import numeral_row
    >>> from mockup.panel.outline import outline_of
    >>> row = row_of(outline_of(numeral_row("I", 100.0, {}, 0.0), [0.0]))
    >>> one = Trials(np.ones(1), np.zeros(1))
    >>> above = around(200.0, np.array([[0.0, 100.0]]), np.array([10.0]))
    >>> _, start, end = ruled_out(row, above, one, Span(np.array([-150.0]), np.array([150.0])))
    >>> float(start.min().round(6)), float(end.max().round(6))
    (40.0, 150.0)
    """
    lines = _scaled(row, trials)
    rows = chunks(len(around.xy), lines.x.size)
    parts = [_intervals(lines, around, some, span) for some in rows]
    which = np.concatenate([np.empty(0, dtype=np.intp), *(part[0] for part in parts)])
    starts = np.concatenate([np.empty(0), *(part[1] for part in parts)])
    ends = np.concatenate([np.empty(0), *(part[2] for part in parts)])
    low, high = span.low[which], span.high[which]
    return which, _between(starts, low, high), _between(ends, low, high)


@dataclass(frozen=True)
class _Lines:
    """Segments at the height of each trial, (m, s) mm; ``limit`` is half stroke and clearance."""

    x: Floats
    y: Floats
    dx: Floats
    dy: Floats
    limit: Floats


def _scaled(row: Row, trials: Trials) -> _Lines:
    share, fixed = trials.share[:, None], row.outline.fixed
    limit = share * row.outline.half_widths + trials.clearance[:, None]
    x = share * (row.x - fixed) + fixed
    return _Lines(x, share * row.y, share * row.dx, share * row.dy, limit)


def _near(lines: _Lines, around: Around, rows: slice, span: Span) -> NDArray[np.bool_]:
    """The boxes that come into each other's way: (m, k, s) of trial, disc and segment."""
    xy, reach = around.xy[rows], around.reach[rows]
    spare = np.where(span.high > span.low, span.high - span.low, -np.inf)[:, None] / 2
    middle = (span.low + span.high)[:, None] / 2
    tall = lines.limit + np.abs(lines.dy) / 2 + spare
    near = _within(xy[:, 1], reach, lines.y + lines.dy / 2 + middle, tall)
    near &= _within(xy[:, 0], reach, lines.x + lines.dx / 2, lines.limit + lines.dx / 2)
    return near


def _intervals(
    lines: _Lines, around: Around, rows: slice, span: Span
) -> tuple[Ints, Floats, Floats]:
    near = _near(lines, around, rows, span)
    trial, pair = np.divmod(np.flatnonzero(near), near[0].size)
    disc, segment = np.divmod(pair, near.shape[2])
    at, disc = trial * near.shape[2] + segment, disc + rows.start
    start, end, crossed = _capsules(
        around.xy[disc, 0] - lines.x.ravel()[at],
        around.xy[disc, 1] - lines.y.ravel()[at],
        lines.dx.ravel()[at],
        lines.dy.ravel()[at],
        lines.limit.ravel()[at] + around.reach[disc],
    )
    return trial[crossed], start[crossed], end[crossed]


def _within(place: Floats, reach: Floats, middle: Floats, half: Floats) -> NDArray[np.bool_]:
    """Whether discs (k,) come within ``half`` of ``middle`` (m, s) on one axis: (m, k, s)."""
    apart = place[:, None] - middle[:, None, :]
    np.abs(apart, out=apart)
    apart -= reach[:, None]
    return apart < half[:, None, :]


def _capsules(
    across: Floats, up: Floats, dx: Floats, dy: Floats, limit: Floats
) -> tuple[Floats, Floats, NDArray[np.bool_]]:
    """Start and end of the shifts at which points lie within ``limit`` of segments; if they do.

    A point is (across, up) from its segment's start. The upright line through it leaves the
    capsule on the offset of the segment or on the round of an end: where
    t dy + sqrt(limit^2 - (across - t dx)^2) is greatest for t in [0, 1].
    """
    length = np.hypot(dx, dy)
    lean = limit * dy / length
    run = np.maximum(dx, 1e-12 * length)
    over, in_over = _leaves(across, (across + lean) / run, dx, dy, limit)
    under, in_under = _leaves(across, (across - lean) / run, dx, -dy, limit)
    return up - over, up + under, in_over & in_under & (limit > 0.0)


def _leaves(
    across: Floats, t: Floats, dx: Floats, dy: Floats, limit: Floats
) -> tuple[Floats, NDArray[np.bool_]]:
    """How far over its start the upright line leaves a capsule, and whether it meets it."""
    t = _between(t, 0.0, 1.0)
    square = limit * limit - (across - t * dx) ** 2
    return t * dy + np.sqrt(np.maximum(square, 0.0)), square > 0.0


def _between(values: Floats, low: Floats | float, high: Floats | float) -> Floats:
    """``np.clip`` without the checks that take most of its time on short arrays."""
    return np.asarray(np.minimum(np.maximum(values, low), high))
