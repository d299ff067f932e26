"""What pushes and pulls a balloon: the ones it touches, and the neck it is tied by.

Arrays here are (3, k), one row an axis. Contact stiffness is 1, so a force reads as the overlap
in mm that would cause it, and energies are in mm^2.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.packing.neighbours import overlaps, touching_pairs

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

# A neighbour list holds for as long as no balloon moved by half its skin; looked at so often.
_SKIN = 0.35
_LOOK_EVERY = 4
# What touches without pressing must not count or not by rounding, mm per mm of skin.
_HAIR = 1e-9
# Two centres in one point push in no direction: this, squared mm, keeps the division defined and is
# lost in any other distance.
_NO_DISTANCE = 1e-200


class NeighbourList:
    """The springs that may come to act while every balloon stays near ``seen_at`` (3, k).

    ``pairs`` (m, 2) are all that are near touching, ``contact`` (m,) the sums of their radii.
    After the contacts come the k necks: pairs of a balloon and its knot, pulled and never pushed.
    """

    def __init__(self, points: Floats, radii: Floats, pairs: Indices, knots: Floats, neck: float):
        self.seen_at = points.copy()
        self.pairs = pairs
        self.contact: Floats = radii[pairs].sum(axis=1)
        contacts, count = len(self.pairs), len(radii)
        every = np.arange(count)
        ends = np.hstack([self.pairs.T, [every, every + 3 * count]])
        # Where the coordinates of each end stand in the flattened places, then knots.
        self._ends = ends[:, None] + (np.arange(3) * count)[:, None]
        self._scatter = self._ends.ravel()
        self._flat = np.concatenate([points.ravel(), knots.ravel()])
        self._rest = np.concatenate([self.contact, radii])
        # Contacts only push and necks only pull: the least and the most share of a spring.
        self._least = np.repeat([0.0, -np.inf], [contacts, count])
        self._most = np.repeat([np.inf, 0.0], [contacts, count])
        self._weight = np.repeat([1.0, neck], [contacts, count])
        self._pull = self._weight * self._rest
        # Made once and written over at every step: fresh arrays would cost more than the sums.
        self._gaps = np.empty(self._ends.shape)

    def apart(self, points: Floats) -> tuple[Floats, Floats]:
        """From second to first end (3, m + k), good until asked again, and that distance."""
        self._flat[: points.size] = points.ravel()
        self._flat.take(self._ends, out=self._gaps, mode="clip")
        gap, other = self._gaps
        gap -= other
        np.multiply(gap, gap, out=other)
        distance: Floats = np.add.reduce(other, 0, initial=_NO_DISTANCE)
        return gap, np.sqrt(distance, out=distance)

    def springs(self, distance: Floats) -> Floats:
        """How far each spring (m + k,) is pressed; below zero where it is stretched."""
        share = self._rest - distance
        np.maximum(share, self._least, out=share)
        np.minimum(share, self._most, out=share)
        return share

    def force(self, points: Floats) -> Floats:
        """The force (3, k) of all springs on the balloons."""
        gap, distance = self.apart(points)
        # Weight times overlap, over the distance.
        share = self._pull / distance
        share -= self._weight
        np.maximum(share, self._least, out=share)
        np.minimum(share, self._most, out=share)
        gap *= share
        np.negative(gap, out=self._gaps[1])
        flat = np.bincount(self._scatter, self._gaps.ravel(), self._flat.size)
        return flat[: points.size].astype(np.float64, copy=False).reshape(points.shape)

    def energy(self, points: Floats) -> float:
        """Half the weighted squares of all springs, mm^2."""
        share = self.springs(self.apart(points)[1])
        return float((self._weight * share**2).sum()) / 2


class Forces:
    """The forces on balloons of ``radii`` (k,) tied at ``knots`` (3, k), as a function of place.

    It keeps a neighbour list with a skin and renews it as the balloons move.
    """

    def __init__(
        self,
        points: Floats,
        radii: Floats,
        knots: Floats,
        neck_stiffness: float,
        near: Indices | None = None,
    ) -> None:
        self._radii = radii
        self._knots = knots
        self._neck = neck_stiffness
        self.stiffness = max(1.0, neck_stiffness)
        self._skin = _SKIN * 2 * float(radii.mean())
        self._asked = 0
        self.renew(points, near)

    def __call__(self, points: Floats) -> Floats:
        """Force on each balloon (3, k), from a list that is looked after every few calls."""
        self._asked += 1
        if self._asked % _LOOK_EVERY == 0 and self._outrun(points):
            self.renew(points)
        return self._near.force(points)

    def afresh(self, points: Floats) -> Floats:
        """Force on each balloon (3, k), from a list seen at these places."""
        self._see(points)
        return self._near.force(points)

    def renew(self, points: Floats, near: Indices | None = None) -> None:
        """See afresh which balloons are near one another, or take ``near`` (m, 2) as those."""
        pairs = touching_pairs(points.T, self._radii, self._skin) if near is None else near
        self._near = NeighbourList(points, self._radii, pairs, self._knots, self._neck)

    def _see(self, points: Floats) -> None:
        if not np.array_equal(points, self._near.seen_at):
            self.renew(points)

    def _outrun(self, points: Floats) -> bool:
        moved = points - self._near.seen_at
        return float((moved * moved).sum(axis=0).max()) > (self._skin / 2) ** 2

    def energy(self, points: Floats) -> float:
        """``sum 1/2 overlap^2 + sum 1/2 k_n stretch^2``, mm^2, from a list seen at these places."""
        self._see(points)
        return self._near.energy(points)

    def pressed(self, points: Floats) -> float:
        """The worst overlap as a share of the smaller diameter, from a list seen at these places.

        0 where nothing overlaps.
        """
        self._see(points)
        return float(overlaps(points.T, self._radii, self._near.pairs).max(initial=0.0))

    def eased(self, points: Floats) -> Floats:
        """One step without inertia, each balloon by its force over twice its contacts' stiffness.

        Never further than the contacts ask: it leaves two balloons that press only one another
        exactly touching.
        """
        hair = _HAIR * self._skin
        distance, many = self._near.apart(points)[1], len(self._near.pairs)
        touching = self._near.pairs[distance[:many] < self._near.contact + hair]
        contacts = np.bincount(touching.ravel(), minlength=points.shape[1])
        taut = distance[many:] > self._radii - hair
        stiffness = 2.0 * contacts + self._neck * taut
        return points + self(points) / np.where(stiffness > 0, stiffness, 1.0)
