"""How deep a numeral tucks, dimensioned beside the detail in one of several ways.

The dimension lies along the balloon's own radius, however that is tilted, outside the round field;
its words are level. Which side it lies on and where its words stand is left to whoever looks for
room (ISO 129-1: outside where the line is too short for arrows and figure).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from typing import Literal

from mockup.render.dimension_lines import (
    ARROW,
    ARROWHEAD,
    BEYOND,
    EXTENSION,
    HALF_ARROW,
    LINE,
)
from mockup.render.record import Anchor, Group, Item, Line, Path, Point
from mockup.render.sheets.inks import SOFT
from mockup.render.sheets.lettering import PITCH, Hand, Lettering
from mockup.render.text import DEPTH

Place = Literal["right", "left", "below", "above"]
OFF = 4.0
"""From the rim of the field to the dimension line, mm."""
_GAP = 1.2
_ALIGNED: dict[Place, tuple[Anchor, ...]] = {
    "right": ("start",),
    "left": ("end",),
    "below": ("middle", "end", "start"),
    "above": ("middle", "end", "start"),
}


@dataclass(frozen=True)
class Way:
    """One way to dimension: on which ``side`` of the field (1 or -1), where the words stand."""

    side: int
    place: Place
    anchor: Anchor


@dataclass(frozen=True)
class Depth:
    """What is dimensioned: two edges on the sheet, a unit vector from one to the other, words."""

    edge: Point
    tip: Point
    along: Point
    figure: str
    name: str
    lettering: Lettering


def ways(along: Point) -> Iterator[Way]:
    """Every way, natural ones first: words beside an upright line, over or under a level one."""
    upright = abs(along[1]) >= abs(along[0])
    beside: tuple[Place, ...] = ("right", "left")
    ends: tuple[Place, ...] = ("below", "above")
    places = (*beside, *ends) if upright else (*ends, *beside)
    for place, side in product(places, (1, -1)):
        for anchor in _ALIGNED[place]:
            yield Way(side, place, anchor)


def depth_dimension(depth: Depth, centre: Point, radius: float, way: Way) -> Group:
    """The dimension beside the field of ``radius`` about ``centre``, sheet mm."""
    out = (-depth.along[1] * way.side, depth.along[0] * way.side)
    lines = [
        Line(point, _moved(_beside(point, centre, out), out, radius + OFF + BEYOND), EXTENSION)
        for point in (depth.edge, depth.tip)
    ]
    ends = [_moved(_beside(p, centre, out), out, radius + OFF) for p in (depth.edge, depth.tip)]
    tails = _tails(depth.along, ends)
    line = Line(*tails, LINE)
    arrows = _arrows(depth.along, ends, outside=tails[0] != ends[0])
    words = _words(depth, (*tails, *ends), way)
    return Group((*lines, line, *arrows, *words), kind="depth", name=depth.name)


def _beside(point: Point, centre: Point, out: Point) -> Point:
    """A point moved along ``out`` to where the centre is level with it."""
    by = (centre[0] - point[0]) * out[0] + (centre[1] - point[1]) * out[1]
    return _moved(point, out, by)


def _moved(point: Point, way: Point, by: float) -> Point:
    return point[0] + by * way[0], point[1] + by * way[1]


def _tails(along: Point, ends: list[Point]) -> tuple[Point, Point]:
    """The ends of the dimension line: past the arrows where those do not go between."""
    long = abs((ends[1][0] - ends[0][0]) * along[0] + (ends[1][1] - ends[0][1]) * along[1])
    if long >= 2 * ARROW + 1.0:
        return ends[0], ends[1]
    return _moved(ends[0], along, -2 * ARROW), _moved(ends[1], along, 2 * ARROW)


def _arrows(along: Point, ends: list[Point], outside: bool) -> tuple[Item, ...]:
    """Arrows with their tips at the ends, from within or from outside."""
    back = -ARROW if outside else ARROW
    return (_arrow(ends[0], along, back), _arrow(ends[1], along, -back))


def _arrow(tip: Point, along: Point, back: float) -> Path:
    x, y = _moved(tip, along, back)
    across = (-along[1] * HALF_ARROW, along[0] * HALF_ARROW)
    points = (tip, (x + across[0], y + across[1]), (x - across[0], y - across[1]))
    return Path("M" + " L".join(f"{a:.3f} {b:.3f}" for a, b in points) + " Z", ARROWHEAD)


def _words(depth: Depth, points: tuple[Point, ...], way: Way) -> tuple[Item, ...]:
    """The figure, and under it what it is, on one side of the box of the dimension line."""
    figure = Hand(depth.lettering.body, role="detail depth")
    name = Hand(depth.lettering.small, colour=SOFT, role="detail name")
    x, first = _anchored(points, way, figure.height, PITCH * name.height)
    second = first + PITCH * name.height
    return (
        figure.at((x, first), depth.figure, way.anchor),
        name.at((x, second), depth.name, way.anchor),
    )


def _anchored(points: tuple[Point, ...], way: Way, tall: float, pitch: float) -> Point:
    """Where the first base line begins; two lines stand from its capitals to the second's tails."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    left, right = min(xs) - HALF_ARROW, max(xs) + HALF_ARROW
    middle = (min(ys) + max(ys)) / 2, (left + right) / 2
    if way.place in ("right", "left"):
        x = right + _GAP if way.place == "right" else left - _GAP
        return x, middle[0] + (tall - pitch) / 2
    x = {"middle": middle[1], "start": left, "end": right}[way.anchor]
    if way.place == "below":
        return x, max(ys) + _GAP + tall
    return x, min(ys) - _GAP - pitch - DEPTH * tall
