"""The outline of many discs together: exact areas of their union and of the holes in it.

The boundary is followed arc by arc, counter-clockwise with the discs on the left: where an arc
enters another disc, the boundary goes on round that one. Areas follow from Green's theorem.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import acos, atan2, cos, hypot, pi, sin, tau

from mockup.piece.squares import Squares
from mockup.records import dataclass

Disc = tuple[float, float, float]
"""Centre x, y and radius, mm."""


@dataclass(frozen=True)
class Arc:
    """An arc of disc ``disc`` from ``start`` to ``end`` (radians), where disc ``into`` begins."""

    disc: int
    start: float
    end: float
    into: int


class Unclear(Exception):
    """Arcs that do not join: discs that meet in one point, too close to call."""


def loops(discs: Sequence[Disc]) -> list[list[Arc]]:
    """Every closed line of the boundary; raises ``Unclear`` where arcs do not join.

    >>> len(loops([(0, 0, 1), (1, 0, 1)])), len(loops([(0, 0, 1), (3, 0, 1)]))
    (1, 2)
    """
    arcs: dict[tuple[int, int], Arc] = {}
    found: list[list[Arc]] = []
    reach = 2.0 * max((radius for _, _, radius in discs), default=1.0)
    squares = Squares(((x, y) for x, y, _ in discs), reach)
    for index, (x, y, _) in enumerate(discs):
        for by, arc in _arcs(discs, index, squares.around(x, y)):
            if by == index:
                found.append([arc])
            else:
                arcs[index, by] = arc
    while arcs:
        first = key = next(iter(arcs))
        loop: list[Arc] = []
        while key in arcs:
            arc = arcs.pop(key)
            loop.append(arc)
            # Where disc i runs into disc j, disc j comes out from under disc i.
            key = (arc.into, arc.disc)
        if key != first:
            raise Unclear
        found.append(loop)
    return found


def _arcs(discs: Sequence[Disc], index: int, near: Sequence[int]) -> list[tuple[int, Arc]]:
    """The uncovered arcs of one disc, each with the disc that covers what lies before it.

    ``near`` are all discs that may reach it.
    """
    x, y, r = discs[index]
    spans: list[tuple[float, float, int]] = []
    for other in near:
        ox, oy, radius = discs[other]
        gap = hypot(ox - x, oy - y)
        if other == index or gap >= r + radius:
            continue
        if gap + r <= radius and (gap + radius > r or other < index):
            return []
        if gap + radius <= r:
            continue
        half = acos((gap * gap + r * r - radius * radius) / (2 * gap * r))
        start = (atan2(oy - y, ox - x) - half) % tau
        spans.append((start, start + 2 * half, other))
    if not spans:
        return [(index, Arc(index, 0.0, tau, index))]
    return list(_between(index, sorted(spans)))


def _between(index: int, spans: list[tuple[float, float, int]]) -> Iterator[tuple[int, Arc]]:
    """What sorted covered spans leave open, from the start of the first one full turn on."""
    begin, _, first = spans[0]
    # A span that runs past a full turn covers the beginning too.
    over = max(spans, key=lambda span: span[1])
    reach, last = max((spans[0][1], first), (over[1] - tau, over[2]))
    for start, end, other in [*spans[1:], (begin + tau, begin + tau, first)]:
        if start > reach:
            yield last, Arc(index, reach, start, other)
        if end > reach:
            reach, last = end, other


def area(discs: Sequence[Disc], loop: Sequence[Arc]) -> float:
    """The area inside a loop, below 0 for a hole (Green's theorem on each arc).

    >>> discs = [(5.0, 0.0, 1.0)]
    >>> abs(area(discs, loops(discs)[0]) - pi) < 1e-12
    True
    """
    total = 0.0
    for arc in loop:
        x, y, r = discs[arc.disc]
        a, b = arc.start, arc.end
        total += r * r * (b - a) + r * x * (sin(b) - sin(a)) - r * y * (cos(b) - cos(a))
    return total / 2


def holds(discs: Sequence[Disc], loop: Sequence[Arc], at: tuple[float, float]) -> bool:
    """Whether a point lies inside a loop (turns round it, arcs taken in eight steps each)."""
    points = []
    for arc in loop:
        x, y, r = discs[arc.disc]
        for k in range(8):
            turn = arc.start + (arc.end - arc.start) * k / 8
            points.append(atan2(y + r * sin(turn) - at[1], x + r * cos(turn) - at[0]))
    turned = sum((b - a + pi) % tau - pi for a, b in pairwise([*points, points[0]]))
    return abs(turned) > pi
