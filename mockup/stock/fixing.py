"""How the numerals go in: which seams to trim, where they are fixed, and where they tuck."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, degrees, hypot

from mockup.panel.numerals import NumeralShape
from mockup.piece.placed import Balloon, Piece

SEAM = 8.0
"""How far a foil's flat seam stands out all round, mm (common practice, no source: 6-10)."""

RING = -1


@dataclass(frozen=True)
class Meeting:
    """Two neighbouring numerals: the ``gap`` between them (mm) and how high it is narrowest.

    ``height`` is a share of the numeral's height from its foot.
    """

    left: str
    right: str
    gap: float
    height: float

    @property
    def trim(self) -> bool:
        """Whether the two seams would lie on each other."""
        return self.gap < 2 * SEAM


@dataclass(frozen=True)
class Fixing:
    """One attach point: on which numeral, at which angle of the ring, to what, how far away (mm).

    ``angle`` is in degrees clockwise from 12 about the frame's centre; ``balloon`` is RING for the
    tube.
    """

    numeral: str
    angle: float
    balloon: int
    away: float


@dataclass(frozen=True)
class Tuck:
    """A numeral's edge that slips ``depth`` mm under a balloon."""

    numeral: str
    balloon: int
    depth: float


def meetings(piece: Piece) -> tuple[Meeting, ...]:
    """Every two neighbours in the row, from the left."""
    numerals = piece.fit.numerals if piece.fit else ()
    return tuple(_meeting(left, right) for left, right in pairwise(numerals))


def _meeting(left: NumeralShape, right: NumeralShape) -> Meeting:
    from shapely.ops import nearest_points

    one, other = left.polygon(), right.polygon()
    at = nearest_points(one, other)[0]
    foot = left.y - left.height / 2
    return Meeting(left.char, right.char, float(one.distance(other)), (at.y - foot) / left.height)


def fixings(piece: Piece) -> tuple[Fixing, ...]:
    """Every attach point that the fit found, clockwise from 12."""
    found = (_fixing(piece, x, y) for x, y in (piece.fit.attach if piece.fit else ()))
    return tuple(sorted(found, key=lambda one: (one.angle, one.numeral)))


def _fixing(piece: Piece, x: float, y: float) -> Fixing:
    nearest = min(_targets(piece, x, y), key=lambda one: one[0])
    angle = degrees(atan2(x, y)) % 360.0
    return Fixing(_numeral_at(piece, x), angle, nearest[1], max(0.0, nearest[0]))


def _targets(piece: Piece, x: float, y: float) -> Iterator[tuple[float, int]]:
    """How far each thing that a numeral can be fixed to is from the point, mm."""
    panel = piece.design.panel
    opening = piece.frame.opening(panel.place) if panel else None
    if opening is not None:
        cx, cy, radius = opening
        yield radius - hypot(x - cx, y - cy), RING
    for balloon in piece.balloons:
        yield _apart(balloon, x, y), balloon.index


def _apart(balloon: Balloon, x: float, y: float) -> float:
    return hypot(balloon.centre[0] - x, balloon.centre[1] - y) - balloon.radius


def _numeral_at(piece: Piece, x: float) -> str:
    numerals = piece.fit.numerals if piece.fit else ()
    return min(numerals, key=lambda one: abs(one.x - x)).char


def tucks(piece: Piece) -> tuple[Tuck, ...]:
    """Where the numerals go under a balloon in front, the deepest first."""
    fit = piece.fit
    if fit is None or fit.verdict != "tucks":
        return ()
    found = (Tuck(fit.numerals[t.numeral].char, t.balloon, t.depth) for t in fit.touches)
    return tuple(sorted(found, key=lambda one: (-one.depth, one.balloon)))
