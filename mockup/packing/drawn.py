"""Frames bent after a drawing: one path in the form SVG writes it (W3C SVG 2, 9.3 path data)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from math import comb, degrees
from typing import Any

import numpy as np

from mockup.packing.joined import LaidClock
from mockup.packing.legs import Leg, StraightLeg
from mockup.packing.paths import Floats, NotAFrame, Point, sized
from mockup.packing.traced import Curve, Traced
from mockup.records import dataclass

# Ends nearer than this share of the path's length have met.
_MET = 1e-6
# A corner that turns by more than this doubles back on itself, degrees.
_SHARPEST = 150.0
_MOST_SEGMENTS = 5000


@dataclass(frozen=True)
class DrawnPath(LaidClock):
    """The path ``line`` (SVG path data, y down) with its ``unit`` in mm, bent from a ``tube``.

    A closed path runs clockwise, so that its normals point outward, from where it was begun; its
    origin is the middle of its box. The origin of an open one is on its lowest level (of the
    tube's lower edge) under its middle. Raises ``NotAFrame`` for what is no single path, for one
    with no length, a cusp or a corner that doubles back, and for an open one where a
    ``must_close`` asks otherwise.

    >>> path = DrawnPath("M 0 0 H 300 A 100 100 0 0 1 300 200 H 0", 2.0, 10.0)
    >>> round(path.length, 3), path.closed
    (1828.319, False)
    """

    line: str
    unit: float
    tube: float
    must_close: float = 0.0
    kind = "path"

    def __post_init__(self) -> None:
        sized(self.unit, "unit")
        sized(self.tube, "tube")
        if self.must_close and not self.closed:
            raise NotAFrame("this path is open, and a closed one is asked for")
        for at, turn in self.corners:
            if abs(turn) > _SHARPEST:
                raise NotAFrame("the path doubles back on itself {} along it", round(at))

    @cached_property
    def _bows(self) -> tuple[Bow, ...]:
        bows = tuple(_bows_of(self.line))
        if not bows:
            raise NotAFrame("the path has no length")
        turned = tuple(bow.moved(self.unit, (0.0, 0.0)) for bow in bows)
        line = np.vstack([bow.points(np.linspace(0.0, 1.0, 65)) for bow in turned])
        low, high = line.min(axis=0), line.max(axis=0)
        closed = _gap(turned) <= _MET * float((high - low).max())
        if closed and _area(line) > 0:
            turned = tuple(bow.reversed() for bow in reversed(turned))
        middle = (low + high) / 2
        down = float(middle[1]) if closed else float(low[1]) - self.tube / 2
        return tuple(bow.moved_by(-float(middle[0]), -down) for bow in turned)

    @cached_property
    def closed(self) -> bool:  # type: ignore[override]  # a path decides itself, class by class others
        """Whether its end meets its start."""
        return _gap(self._bows) <= _MET * self.length

    def _legs(self) -> tuple[Leg, ...]:
        return tuple(bow.leg() for bow in self._bows)

    @cached_property
    def corners(self) -> tuple[tuple[float, float], ...]:
        """Where the path has corners: arc length, mm, and turn, degrees (clockwise above 0)."""
        found: list[tuple[float, float]] = []
        parts = self.parts
        after = [*parts[1:], parts[0]] if self.closed else parts[1:]
        for at, one, other in zip(self.ends, parts, after, strict=False):
            (ax, ay), (bx, by) = one.heading(one.length), other.heading(0.0)
            turn = degrees(float(np.arctan2(bx * ay - ax * by, ax * bx + ay * by)))
            if abs(turn) > 1.0:
                found.append((at, turn))
        return tuple(found)

    def opening(self, place: str) -> tuple[float, float, float] | None:
        """The largest disc inside a closed path; an open one encloses nothing."""
        return super().opening(place) if self.closed else None


@dataclass(frozen=True)
class Bow:
    """A Bezier curve by its control points; a straight line has two of them."""

    control: tuple[Point, ...]

    def moved(self, unit: float, by: Point) -> Bow:
        """From the drawing's units with y down to mm with y up."""
        return Bow(tuple((x * unit + by[0], -y * unit + by[1]) for x, y in self.control))

    def moved_by(self, dx: float, dy: float) -> Bow:
        """The curve moved, mm."""
        return Bow(tuple((x + dx, y + dy) for x, y in self.control))

    def reversed(self) -> Bow:
        """The same curve run the other way."""
        return Bow(self.control[::-1])

    def points(self, t: Floats) -> Floats:
        """Points at parameters 0 to 1, (k, 2)."""
        return _bezier(np.array(self.control), t)

    def leg(self) -> Leg:
        """The part of a frame that it makes."""
        if len(self.control) == 2:
            return StraightLeg(*self.control)
        points = np.array(self.control)
        first = np.diff(points, axis=0) * (len(points) - 1)
        second = np.diff(first, axis=0) * (len(first) - 1)
        return Traced(_curve(points), _curve(first), _curve(second))


def _curve(points: Floats) -> Curve:
    return lambda t: _bezier(points, t)


def _bezier(points: Floats, t: Floats) -> Floats:
    """Bernstein's form."""
    n = len(points) - 1
    powers = [comb(n, k) * t**k * (1.0 - t) ** (n - k) for k in range(n + 1)]
    return np.asarray(np.column_stack(powers) @ points)


def _gap(bows: Sequence[Bow]) -> float:
    (x0, y0), (x1, y1) = bows[0].control[0], bows[-1].control[-1]
    return float(np.hypot(x1 - x0, y1 - y0))


def _area(line: Floats) -> float:
    """Twice the area that a line runs round, above zero anticlockwise (the shoelace rule)."""
    x, y = line.T
    return float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum())


def _bows_of(line: str) -> Iterator[Bow]:
    """The curves of one path; elliptical arcs as cubic curves of under a 40th of a turn."""
    import svgelements as svg

    try:
        path = svg.Path(line)
    except (ValueError, IndexError, TypeError, AttributeError) as wrong:
        raise NotAFrame(f"'{line[:40]}' is no SVG path") from wrong
    if len(path) > _MOST_SEGMENTS:
        raise NotAFrame(f"the path has {len(path):,} parts; {_MOST_SEGMENTS:,} are the most")
    drawn = False
    for part in path:
        if isinstance(part, svg.Move):
            if drawn:
                raise NotAFrame("the drawing has several lines: a frame is one line without breaks")
            continue
        drawn = True
        yield from _bows_of_part(part)


def _bows_of_part(part: Any) -> Iterator[Bow]:
    import svgelements as svg

    if isinstance(part, svg.Arc):
        pieces = max(1, int(abs(float(part.sweep)) / (np.pi / 24)) + 1)
        for cubic in part.as_cubic_curves(pieces):
            yield from _bows_of_part(cubic)
        return
    names = ("start", "control", "control1", "control2", "end")
    points = [getattr(part, name, None) for name in names]
    control = tuple((float(p.x), float(p.y)) for p in points if p is not None)
    if len(set(control)) > 1:
        if not np.isfinite(np.array(control)).all():
            raise NotAFrame("the path has a point that is no finite figure")
        yield Bow(_straightened(control))


def _straightened(control: tuple[Point, ...]) -> tuple[Point, ...]:
    """A straight line by its two ends alone, even where it was drawn as a curve."""
    ends = np.array([control[0], control[-1]])
    way = ends[1] - ends[0]
    long = float(np.hypot(*way))
    if len(control) == 2 or long == 0.0:
        return control
    toward = np.array(control[1:-1]) - ends[0]
    off = np.abs(toward[:, 0] * way[1] - toward[:, 1] * way[0]) / long
    along = toward @ way / long
    straight = bool((off < 1e-9 * long).all() and (along >= 0).all() and (along <= long).all())
    return (control[0], control[-1]) if straight else control
