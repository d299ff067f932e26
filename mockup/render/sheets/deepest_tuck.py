"""The place where a numeral goes deepest behind a balloon that is in front of it."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from mockup.panel.touches import Touch
from mockup.piece.placed import Piece
from mockup.render.record import Point


@dataclass(frozen=True)
class Tuck:
    """How a numeral goes behind a balloon, as it is seen from the front, piece mm.

    ``edge`` is the balloon's edge where the numeral is deepest behind it: by ``depth``, along the
    unit vector ``way`` on the balloon's own radius.
    """

    edge: Point
    way: Point
    depth: float

    @property
    def tip(self) -> Point:
        """The numeral's hidden edge."""
        return self._along(self.depth)

    @property
    def middle(self) -> Point:
        """Half-way between the two edges."""
        return self._along(self.depth / 2)

    def _along(self, by: float) -> Point:
        return self.edge[0] + by * self.way[0], self.edge[1] + by * self.way[1]


def deepest_tuck(piece: Piece) -> Tuck | None:
    """The deepest tuck of a piece whose numerals tuck; None for every other verdict."""
    fit = piece.fit
    if fit is None or fit.verdict != "tucks":
        return None
    return _tuck(piece, min(fit.touches, key=lambda t: (-t.depth, t.balloon, t.numeral)))


def _tuck(piece: Piece, touch: Touch) -> Tuck:
    """From the numeral's centre-line to the balloon's centre, on which both edges lie."""
    balloon = piece.balloons[touch.balloon]
    (x, y), (ax, ay) = balloon.centre[:2], touch.at
    away, within = hypot(x - ax, y - ay), touch.depth <= balloon.radius
    sign = 1.0 if within else -1.0
    way = (sign * (x - ax) / away, sign * (y - ay) / away) if away > 0.0 else (0.0, 1.0)
    edge = (x - balloon.radius * way[0], y - balloon.radius * way[1])
    return Tuck(edge, way, touch.depth)
