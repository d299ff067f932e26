"""How near two clusters come on a straight frame: the pitch from knot to knot."""

from __future__ import annotations

from functools import lru_cache
from math import isfinite, pi, sin, sqrt

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mockup.packing.clusters import balloon_count, knot_radius, offsets
from mockup.packing.inflation import NotASize, above_zero
from mockup.packing.neighbours import overlaps, touching_pairs
from mockup.records import dataclass

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class ClusterShape:
    """What nestling needs of a cluster: how many balloons, their diameter, and its turn.

    ``turn_deg`` is the angle of the first balloon round the knot. Raises ``NotASize`` for a count
    below one, a diameter that is not above zero or a turn that is not finite.
    """

    count: int
    diameter: float
    turn_deg: float = 0.0

    def __post_init__(self) -> None:
        balloon_count(self.count)
        above_zero(self.diameter, "diameter")
        if not isfinite(self.turn_deg):
            raise NotASize(f"turn_deg must be finite, not {self.turn_deg}")


def contact_share(squeeze: float) -> float:
    """``1 - squeeze``: how near two centres come, as a share of their mean diameter.

    A squeeze below zero leaves gaps. Raises ``NotASize`` unless it is finite and below 1.

    >>> contact_share(0.25)
    0.75
    """
    return above_zero(1.0 - squeeze, "1 - squeeze")


@lru_cache(maxsize=4096)
def pitch(a: ClusterShape, b: ClusterShape, squeeze: float) -> float:
    """Smallest straight distance of two knots at which no pair is nearer than its contact, mm.

    A pair is in contact at ``(1 - squeeze) (da + db) / 2``. Two balloons whose offsets differ by
    ``w`` across the frame stand ``sqrt(p^2 + w^2)`` apart at pitch ``p``, so each pair asks for
    ``sqrt(contact^2 - w^2)`` and the largest wins; 0 where no pair ever meets. The same either
    way round, and in proportion to the sizes. Raises ``NotASize`` for a squeeze of 1 or more.

    >>> quad, turned = ClusterShape(4, 100.0, 0.0), ClusterShape(4, 100.0, 45.0)
    >>> round(pitch(quad, turned, 0.0), 4), round(pitch(quad, turned, 0.1), 4)
    (84.0896, 71.9101)
    """
    contact = contact_share(squeeze) * (a.diameter + b.diameter) / 2
    across = _offsets(a)[:, None, :] - _offsets(b)[None, :, :]
    nearest = float((across**2).sum(axis=2).min())
    return sqrt(max(0.0, contact**2 - nearest))


def _offsets(shape: ClusterShape) -> Floats:
    return offsets(shape.count, shape.diameter, shape.turn_deg)


def equal_pitch(count: int, diameter: float, squeeze: float) -> float:
    """The pitch of equal clusters, each turned by half a place from the one before, mm.

    ``d sqrt((1-s)^2 - (2 (rho/d) sin(pi/2n))^2)``: without squeeze the height of the uniform
    n-antiprism. Singles do not turn: they stand in a row at ``(1-s) d``. 0 where the squeeze lets
    one cluster slip through the other. Raises ``NotASize`` for figures no cluster can have.

    >>> round(equal_pitch(3, 1.0, 0.0), 6), equal_pitch(1, 100.0, 0.25)
    (0.816497, 75.0)
    """
    contact = contact_share(squeeze) * above_zero(diameter, "diameter")
    return sqrt(max(0.0, contact**2 - (diameter * sideways(count)) ** 2))


def sideways(count: int) -> float:
    """How far to the side the nearest balloon of the next, nestled cluster lies, over d.

    >>> sideways(1), round(sideways(2), 6)
    (0.0, 0.707107)
    """
    if balloon_count(count) == 1:
        return 0.0
    return 2 * knot_radius(count, 1.0) * sin(pi / (2 * count))


def next_turn(prev: ClusterShape) -> float:
    """The turn of the cluster after ``prev``: half a place on, into its valleys, degrees.

    Singles keep their turn: a row of them runs along one side of the frame.

    >>> next_turn(ClusterShape(4, 100.0, 45.0)), next_turn(ClusterShape(1, 100.0, 0.0))
    (90.0, 0.0)
    """
    half_place = 180.0 / prev.count if prev.count > 1 else 0.0
    return (prev.turn_deg + half_place) % 360.0


def crossing(
    centres: ArrayLike, diameters: ArrayLike, clusters: ArrayLike | None = None
) -> tuple[float, tuple[int, int] | None]:
    """The worst overlap, as a share of the smaller balloon's diameter, and the pair it is between.

    ``centres`` (k, 3) and ``diameters`` (k,) in one unit; balloons with the same number in
    ``clusters`` (k,) are of one cluster and do not count. ``(0.0, None)`` where nothing crosses;
    of equals, the pair that comes first. Raises ``NotASize`` when the lengths differ.

    >>> crossing([[0, 0, 0], [75, 0, 0]], [100, 100])
    (0.25, (0, 1))
    """
    points = np.asarray(centres, dtype=np.float64).reshape(-1, 3)
    radii = np.asarray(diameters, dtype=np.float64) / 2
    pairs = touching_pairs(points, radii, 0.0)
    if clusters is not None:
        owner = _owners(clusters, len(points))
        pairs = pairs[owner[pairs[:, 0]] != owner[pairs[:, 1]]]
    return _worst(overlaps(points, radii, pairs), pairs)


def _owners(clusters: ArrayLike, balloons: int) -> NDArray[np.intp]:
    owner = np.asarray(clusters, dtype=np.intp)
    if owner.shape != (balloons,):
        raise NotASize(f"{balloons} balloons need {balloons} cluster numbers, not {owner.size}")
    return owner


def _worst(shares: Floats, pairs: NDArray[np.intp]) -> tuple[float, tuple[int, int] | None]:
    if not len(shares) or float(shares.max()) <= 0.0:
        return 0.0, None
    worst = int(np.argmax(shares))
    return float(shares[worst]), (int(pairs[worst, 0]), int(pairs[worst, 1]))
