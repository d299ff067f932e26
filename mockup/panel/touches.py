"""Where numerals and balloons touch, tuck or come nearest."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from mockup.panel.outline import Floats, Nearest, Outline, nearest
from mockup.records import dataclass

Point = tuple[float, float]


@dataclass(frozen=True)
class Touch:
    """A numeral and a balloon that overlap by ``depth`` mm; ``at`` is the numeral's deepest point.

    ``balloon`` and ``numeral`` count from 0 in the lists that were given and placed.
    """

    balloon: int
    numeral: int
    depth: float
    at: Point


@dataclass(frozen=True)
class Contacts:
    """A placed row among k balloons with centres ``xy`` (k, 2): the distances all answers rest on.

    ``edge`` (g,) is the clearance of each half numeral to the edge of the opening, ``farthest``
    (g, 2) the point of its outline that comes nearest to it.
    """

    outline: Outline
    xy: Floats
    near: Nearest
    edge: Floats
    farthest: Floats

    def clearances(self, radii: Floats) -> Floats:
        """Clearance of discs of ``radii`` (k,) to each half numeral, (k, g); inf for radius 0."""
        solid = (radii > 0.0)[:, None]
        return np.where(solid, self.near.clearance - radii[:, None], np.inf)

    def least(self, radii: Floats) -> float:
        """The least clearance of any numeral to any disc, mm; inf where there is none."""
        return float(self.clearances(radii).min(initial=np.inf))

    def touches(self, radii: Floats, rounding: float) -> tuple[Touch, ...]:
        """Every disc and numeral that overlap by more than ``rounding``, by balloon, numeral."""
        return tuple(self._deeper(self.clearances(radii), -rounding))

    def covering(self, depths: Floats) -> tuple[Touch, ...]:
        """For each balloon that covers the centre by ``depths`` > 0: the numeral nearest to it."""
        covering = np.flatnonzero(depths > 0.0)
        groups = self.near.clearance[covering].argmin(axis=1)
        pairs = zip(covering.tolist(), groups.tolist(), strict=True)
        return tuple(self._touch(k, g, float(depths[k])) for k, g in pairs)

    def glue_points(self, radii: Floats) -> tuple[Point, ...]:
        """For each half numeral the point of its outline nearest to a disc or the edge."""
        clearance = self.clearances(radii)
        return tuple(self._glue_point(clearance, g) for g in range(len(self.edge)))

    def _deeper(self, clearance: Floats, limit: float) -> Iterator[Touch]:
        for k in np.flatnonzero((clearance < limit).any(axis=1)).tolist():
            for numeral in sorted(set(self.outline.numerals.tolist())):
                groups = np.flatnonzero(self.outline.numerals == numeral)
                g = int(groups[clearance[k, groups].argmin()])
                if clearance[k, g] < limit:
                    yield self._touch(k, g, -float(clearance[k, g]))

    def _touch(self, k: int, g: int, depth: float) -> Touch:
        return Touch(k, int(self.outline.numerals[g]), depth, self._toward(k, g))

    def _glue_point(self, clearance: Floats, g: int) -> Point:
        if not len(clearance) or clearance[:, g].min() > self.edge[g]:
            return float(self.farthest[g, 0]), float(self.farthest[g, 1])
        return self._toward(int(clearance[:, g].argmin()), g)

    def _toward(self, k: int, g: int) -> Point:
        """The outline's point on the way from the centre-line to the balloon's centre."""
        half = self.outline.half_widths[self.outline.groups[g]]
        x, y = _outward(self.near.on_line[k, g], self.xy[k] - self.near.on_line[k, g], half)
        return float(x), float(y)


def contacts(outline: Outline, radius: float, xy: Floats) -> Contacts:
    """Measure a placed row against balloons at ``xy`` (k, 2) and an opening about (0, 0), mm.

    >>> from mockup.panel.numerals import numeral_row
    >>> from mockup.panel.outline import outline_of
    >>> bar = outline_of(numeral_row("I", 100.0, {}, 0.0), [0.0])
    >>> found = contacts(bar, 200.0, np.array([[0.0, 90.0]]))
    >>> found.least(np.array([30.0])), found.edge.tolist()
    (10.0, [150.0, 150.0])
    """
    points = _farthest(outline)
    halves = outline.half_widths[outline.groups]
    edge = radius - (np.hypot(points[:, 0], points[:, 1]) + halves)
    outer = np.array([_outward(p, p, half) for p, half in zip(points, halves, strict=True)])
    return Contacts(outline, xy, nearest(xy, outline), edge, outer)


def _farthest(outline: Outline) -> Floats:
    """For each half numeral the point of its centre-line farthest from (0, 0), (g, 2)."""
    far = []
    for first, last in pairwise([*outline.groups.tolist(), len(outline.starts)]):
        points = np.vstack([outline.starts[first:last], outline.ends[first:last]])
        far.append(points[np.hypot(points[:, 0], points[:, 1]).argmax()])
    return np.array(far)


def _outward(point: Floats, way: Floats, by: float) -> Floats:
    """``point`` moved ``by`` along ``way``; itself where that has no direction."""
    length = float(np.hypot(way[0], way[1]))
    return point + way * (by / length) if length > 0.0 else point
