"""Arcs of a balloon's outline as SVG path data (elliptical arcs, SVG 1.1 section 8.3.8)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from mockup.render.pressed import HORIZON, TAU, Bow
from mockup.render.record import Point
from mockup.render.tracks import number
from mockup.render.viewpoint import Triple

_MEET = 1e-6
_FLAT = 0.004
_Reached = tuple[Bow, Triple, Triple]
"""An arc with the points where it begins and ends."""


def outline(bows: Sequence[Bow], centre: Point, radius: float, margin: float = 1.0) -> str:
    """The closed path round what shows of a balloon, in sheet mm; empty when nothing does.

    ``centre`` and ``radius`` are the balloon's on the sheet. Loops run anticlockwise to the eye,
    holes clockwise, so that the nonzero rule fills it right. A clip wants a ``margin`` over 1: it
    then swings wide of the silhouette by that factor, and softens only the creases' edges.
    """
    return outlines(bows, centre, radius, (margin,))[0]


def outlines(
    bows: Sequence[Bow], centre: Point, radius: float, margins: Sequence[float]
) -> list[str]:
    """``outline`` for each of ``margins``; the arcs are put head to tail only once."""
    loops = _loops(bows)
    return ["".join(_loop(one, centre, radius, wide) + "Z" for one in loops) for wide in margins]


def crease(bow: Bow, centre: Point, radius: float) -> str:
    """One arc alone as an open path, sheet mm."""
    return _loop([bow], centre, radius, 1.0)


def _loop(loop: Sequence[Bow], centre: Point, radius: float, margin: float) -> str:
    path, pen = "", ""
    for bow in loop:
        reach = radius * (margin if bow.cut.other == HORIZON else 1.0)
        start, drawn, end = _stroke(bow, centre, reach)
        if start != pen:
            path += f"L{start}" if path else f"M{start}"
        path += drawn
        pen = end
    return path


@lru_cache(maxsize=256)
def _stroke(bow: Bow, centre: Point, reach: float) -> tuple[str, str, str]:
    """Where an arc begins, its path data, where it ends; an arc of a crease is asked for thrice."""
    start, end = (_pair(_seen(bow.cut.point(at), centre, reach)) for at in (bow.start, bow.end))
    *steps, last = _halves(bow, reach)
    ends = [_pair(_seen(step.cut.point(step.end), centre, reach)) for step in steps]
    arcs = [_arc(step, reach, to) for step, to in zip((*steps, last), (*ends, end), strict=True)]
    return start, "".join(arcs), end


def _halves(bow: Bow, radius: float) -> list[Bow]:
    """Arcs of less than half a turn: SVG cannot say a whole one, and these are never unclear."""
    if bow.end - bow.start < math.pi * 0.99 or _along(bow, radius) < _FLAT:
        return [bow]
    middle = (bow.start + bow.end) / 2
    first, second = Bow(bow.cut, bow.start, middle), Bow(bow.cut, middle, bow.end)
    return [*_halves(first, radius), *_halves(second, radius)]


def _along(bow: Bow, radius: float) -> float:
    """The short half axis of the ellipse an arc lies on: 0 where its plane is seen edge-on."""
    return bow.cut.reach * radius * abs(bow.cut.normal[2])


def _arc(bow: Bow, radius: float, end: str) -> str:
    """To the end of an arc, which is told as it is written."""
    across = bow.cut.reach * radius
    along = _along(bow, radius)
    if along < _FLAT:
        return f"L{end}"
    turn = math.degrees(math.atan2(-bow.cut.u[1], bow.cut.u[0])) % 180.0
    sweep = 0 if bow.cut.normal[2] > 0 else 1
    lean = number(turn) if across - along > _FLAT else "0"
    return f"A{number(across, 3)} {number(along, 3)} {lean} 0 {sweep} {end}"


def _loops(bows: Sequence[Bow]) -> list[list[Bow]]:
    """Arcs put head to tail into closed loops."""
    left = [(bow, bow.cut.point(bow.start), bow.cut.point(bow.end)) for bow in bows]
    loops = []
    while left:
        loop = [left.pop(0)]
        while left and not _closed(loop):
            loop.append(left.pop(_next(loop[-1][2], left)))
        loops.append([bow for bow, _, _ in loop])
    return loops


def _closed(loop: Sequence[_Reached]) -> bool:
    first, start, _ = loop[0]
    if first.end - first.start >= TAU - 1e-9:
        return True
    return len(loop) > 1 and math.dist(loop[-1][2], start) < _MEET


def _next(end: Triple, left: Sequence[_Reached]) -> int:
    away = [math.dist(end, start) for _, start, _ in left]
    return away.index(min(away))


def _seen(point: Triple, centre: Point, radius: float) -> Point:
    return centre[0] + point[0] * radius, centre[1] - point[1] * radius


def _pair(point: Point) -> str:
    return f"{number(point[0], 3)} {number(point[1], 3)}"
