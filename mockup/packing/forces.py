"""What pushes and pulls a balloon: the ones it touches, and the neck it is tied by.

Arrays here are (3, k), one row an axis. Contact stiffness is 1, so a force reads as the overlap
in mm that would cause it, and energies are in mm^2.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.packing.neighbours import touching_pairs

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

# A neighbour list holds for as long as no balloon moved by half its skin; looked at so often.
_SKIN = 0.35
_LOOK_EVERY = 4
# What touches without pressing must not count or not by rounding, mm per mm of skin.
_HAIR = 1e-9
# Two centres in one point push in no direction: this keeps the division defined.
_NO_DISTANCE = 1e-9


class NeighbourList:
    """The pairs that may come to touch while every balloon stays near ``seen_at`` (3, k).

    ``pairs`` (m, 2) are all within ``skin`` of touching, ``contact`` (m,) the sums of their radii.
    """

    def __init__(self, points: Floats, radii: Floats, skin: float) -> None:
        self.seen_at = points.copy()
        self.pairs = touching_pairs(points.T, radii, skin)
        self.contact: Floats = radii[self.pairs].sum(axis=1)
        rows = np.arange(3)[:, None] * points.shape[1]
        # Where the coordinates of each side stand in a flattened (3, k) array.
        self._sides = np.stack([rows + self.pairs[:, side] for side in (0, 1)])
        self._scatter = self._sides.ravel()
        # Made once and written over at every step: fresh arrays would cost more than the sums.
        self._push = np.empty(self._sides.shape)

    def apart(self, points: Floats) -> tuple[Floats, Floats]:
        """From second to first centre (3, m), good until asked again, and that distance (m,)."""
        points.ravel().take(self._sides, out=self._push, mode="clip")
        gap, other = self._push
        gap -= other
        np.multiply(gap, gap, out=other)
        return gap, np.sqrt(other.sum(axis=0))

    def pressing(self, points: Floats) -> Floats:
        """The force (3, k) of all contacts: each pushes its two balloons apart by its overlap."""
        gap, distance = self.apart(points)
        share = np.maximum(self.contact - distance, 0.0)
        share /= np.maximum(distance, _NO_DISTANCE, out=distance)
        gap *= share
        np.negative(gap, out=self._push[1])
        flat = np.bincount(self._scatter, self._push.ravel(), points.size)
        return flat.astype(np.float64, copy=False).reshape(points.shape)


class Forces:
    """The forces on balloons of ``radii`` (k,) tied at ``knots`` (3, k), as a function of place.

    It keeps a neighbour list with a skin and renews it as the balloons move.
    """

    def __init__(self, points: Floats, radii: Floats, knots: Floats, neck_stiffness: float) -> None:
        self._radii = radii
        self._knots = knots
        self._neck = neck_stiffness
        self.stiffness = max(1.0, neck_stiffness)
        self._skin = _SKIN * 2 * float(radii.mean())
        self._asked = 0
        self.renew(points)

    def __call__(self, points: Floats) -> Floats:
        """Force on each balloon (3, k), from a list that is looked after every few calls."""
        self._asked += 1
        if self._asked % _LOOK_EVERY == 0 and self._outrun(points):
            self.renew(points)
        return self._near.pressing(points) - self._pulling(points)

    def afresh(self, points: Floats) -> Floats:
        """Force on each balloon (3, k), from a list seen just now."""
        self.renew(points)
        return self(points)

    def renew(self, points: Floats) -> None:
        """See afresh which balloons are near one another."""
        self._near = NeighbourList(points, self._radii, self._skin)

    def _outrun(self, points: Floats) -> bool:
        moved = points - self._near.seen_at
        return float((moved * moved).sum(axis=0).max()) > (self._skin / 2) ** 2

    def _pulling(self, points: Floats) -> Floats:
        neck, stretch, length = self._necks(points)
        stretch *= self._neck
        stretch /= np.maximum(length, _NO_DISTANCE)
        return neck * stretch

    def _necks(self, points: Floats) -> tuple[Floats, Floats, Floats]:
        neck = points - self._knots
        length = np.sqrt((neck * neck).sum(axis=0))
        return neck, np.maximum(length - self._radii, 0.0), length

    def energy(self, points: Floats) -> float:
        """``sum 1/2 overlap^2 + sum 1/2 k_n stretch^2``, mm^2, from a list seen afresh."""
        self.renew(points)
        overlap = np.maximum(self._near.contact - self._near.apart(points)[1], 0.0)
        stretch = self._necks(points)[1]
        return float((overlap**2).sum() + self._neck * (stretch**2).sum()) / 2

    def eased(self, points: Floats) -> Floats:
        """One step without inertia, each balloon by its force over twice its contacts' stiffness.

        Never further than the contacts ask: it leaves two balloons that press only one another
        exactly touching.
        """
        hair = _HAIR * self._skin
        distance = self._near.apart(points)[1]
        touching = self._near.pairs[distance < self._near.contact + hair]
        contacts = np.bincount(touching.ravel(), minlength=points.shape[1])
        taut = self._necks(points)[2] > self._radii - hair
        stiffness = 2.0 * contacts + self._neck * taut
        return points + self(points) / np.where(stiffness > 0, stiffness, 1.0)
