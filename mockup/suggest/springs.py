"""The springs between the balloons of many options at once: the same as in the full settling.

Arrays carry the options last. One side of a mirror is moved; what lies on the mirror stays on it,
and of balloons that are alike in front and behind the front ones are moved.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.suggest.crescents import Body, Pairs, Placed, gaps_between

Floats = NDArray[np.float64]
# Single precision in the motion; the hints say float64 as numpy's promotion is not in its types.
Ints = NDArray[np.intp]
Bools = NDArray[np.bool_]

NECK = np.float32(0.3)
NO_DISTANCE = np.float32(1e-9)
_ZERO = np.float32(0.0)
# Pairs further apart than this share of a diameter at the start do not come to touch.
SKIN = 0.7
# What touches without pressing must not count or not by rounding, mm.
_HAIR = 3e-8
_SAME = 1e-6


@dataclass(frozen=True)
class Fold:
    """Crescents that are the same front and back are moved by their front balloons alone.

    ``kept`` (f,) are the balloons that are moved, ``of`` (k,) the one among them that stands for
    each balloon, ``sign`` (k,) -1 where it does so across the frame's plane.
    """

    kept: Ints
    of: Ints
    sign: Floats

    @property
    def in_plane(self) -> Ints:
        """Those of the moved that stay in the plane: they are their own image."""
        own = np.bincount(self.of, minlength=len(self.kept))
        alone = len(self.kept) < len(self.of)
        return np.flatnonzero((own == 1) & alone)


def fold_of(body: Body) -> Fold:
    """Which balloons stand for which."""
    partner = front_and_back(body)
    every = np.arange(len(body.phi))
    if partner is None:
        return Fold(every, every, np.ones(len(every)))
    front = (np.sin(body.phi) > _SAME) | (partner == every)
    kept = every[front]
    place = np.full(len(every), -1, dtype=np.intp)
    place[kept] = np.arange(len(kept))
    of = np.where(front, place, place[partner])
    return Fold(kept, of, np.where(front, 1.0, -1.0))


def front_and_back(body: Body) -> Ints | None:
    """Each balloon's image across the plane of the frame; None where the turns allow none.

    A symmetric start stays so by the exact motion, but pressed rows buckle and would make
    millimetres of rounding noise.
    """
    partner = np.full(len(body.phi), -1, dtype=np.intp)
    ways = np.stack([np.cos(body.phi), np.sin(body.phi)], axis=1)
    for k, (across, toward) in enumerate(ways):
        off = np.abs(ways - (across, -toward)).sum(axis=1) + 9.0 * (body.cluster != body.cluster[k])
        if off.min() > _SAME:
            return None
        partner[k] = int(off.argmin())
    return partner


class Springs:
    """The forces on the moved balloons of m options, in the precision of ``placed``."""

    def __init__(self, body: Body, placed: Placed, fold: Fold, pairs: Pairs) -> None:
        pairs, self.rows, self.turns = _by_turns(pairs)
        self.rows = fold.of[self.rows]
        self.i, self.j = fold.of[pairs.i], fold.of[pairs.j]
        sides = np.vstack([pairs.flip, fold.sign[pairs.j]])
        self.sides = sides.astype(placed.centres.dtype)[:, :, None]
        self.flipped = np.flatnonzero((sides < 0).any(axis=1)).tolist()
        self.on_mirror = np.flatnonzero(body.on_mirror[fold.kept])
        self.in_plane = fold.in_plane
        self.radii, self.knots = placed.radii[fold.kept], placed.knots[:, fold.kept]
        reach: Floats = self.radii[self.i] + self.radii[self.j]
        # Per option: what others of the batch have near one another changes nothing in this one.
        self.contact = np.where(_near(pairs, placed), reach, _ZERO)

    def only(self, which: Ints) -> None:
        """Go on with these options of those at hand."""
        self.radii = np.ascontiguousarray(self.radii[:, which])
        self.knots = np.ascontiguousarray(self.knots[:, :, which])
        self.contact = np.ascontiguousarray(self.contact[:, which])

    def __call__(self, points: Floats) -> Floats:
        """Force on each moved balloon, (3, f, m)."""
        gap, apart = self._apart(points)
        share = np.maximum(self.contact - apart, _ZERO)
        share /= np.maximum(apart, NO_DISTANCE, out=apart)
        gap *= share
        push = self._pulled(points)
        push[:, self.rows] += self._gathered(gap)
        push[0, self.on_mirror] = 0.0
        push[2, self.in_plane] = 0.0
        return push

    def _apart(self, points: Floats) -> tuple[Floats, Floats]:
        gap = points.take(self.j, axis=1, mode="clip")
        for axis in self.flipped:
            gap[axis] *= self.sides[axis]
        np.subtract(points.take(self.i, axis=1, mode="clip"), gap, out=gap)
        return gap, _length(gap)

    def _gathered(self, own: Floats) -> Floats:
        """The sum over each balloon's pairs of ``own`` (3, p, m), in the order of ``rows``.

        One pair of every balloon after the other, so that those which do not touch add nothing,
        not even by rounding.
        """
        first, *others = self.turns
        total = own[:, first]
        for turn in others:
            total[:, : turn.stop - turn.start] += own[:, turn]
        return total

    def _pulled(self, points: Floats) -> Floats:
        neck: Floats = self.knots - points
        length = _length(neck)
        stretch = np.maximum(length - self.radii, _ZERO) * NECK
        stretch /= np.maximum(length, NO_DISTANCE, out=length)
        neck *= stretch
        return neck

    def eased(self, points: Floats) -> Floats:
        """The first step, without inertia: each balloon by its force over its stiffness."""
        _, apart = self._apart(points)
        touching = ((apart < self.contact + _HAIR) & (self.contact > 0)).astype(points.dtype)
        contacts = np.zeros(points.shape[1:], dtype=points.dtype)
        contacts[self.rows] = self._gathered(touching[None])[0]
        taut = _length(points - self.knots) > self.radii - _HAIR
        stiffness = 2.0 * contacts + float(NECK) * taut
        return points + self(points) / np.where(stiffness > 0, stiffness, 1.0)


def _length(rows: Floats) -> Floats:
    squares: Floats = rows[0] * rows[0]
    squares += rows[1] * rows[1]
    squares += rows[2] * rows[2]
    return np.sqrt(squares, out=squares)


def _by_turns(pairs: Pairs) -> tuple[Pairs, Ints, list[slice]]:
    """The pairs so that first come the first of every balloon, then the second, and so on.

    With the balloons in that order, those of most pairs first, and where each turn stands.
    """
    balloons, counts = np.unique(pairs.i, return_counts=True)
    starts = np.cumsum(counts) - counts
    order = np.argsort(-counts, kind="stable")
    taken = [order[counts[order] > turn] for turn in range(int(counts.max()))]
    stops = np.cumsum([len(own) for own in taken]).tolist()
    turns = [slice(stop - len(own), stop) for own, stop in zip(taken, stops, strict=True)]
    which = np.concatenate([starts[own] + turn for turn, own in enumerate(taken)])
    return pairs.only(which), balloons[order], turns


def springing(body: Body, placed: Placed, fold: Fold) -> Pairs:
    """The pairs that are near enough in some option, from each balloon that is moved."""
    pairs = body.touching.only(np.asarray(_near(body.touching, placed).any(axis=1)))
    both = _both_ways(pairs)
    return both.only(np.isin(both.i, fold.kept))


def _near(pairs: Pairs, placed: Placed) -> Bools:
    """Which pairs may come to touch, (p, m)."""
    apart = _length(gaps_between(placed.centres, pairs))
    reach = (1 + SKIN) * (placed.radii[pairs.i] + placed.radii[pairs.j])
    return np.asarray(apart < reach)


def _both_ways(pairs: Pairs) -> Pairs:
    """Each pair from both its balloons, sorted by the first; images are listed so already."""
    real = (pairs.flip > 0).all(axis=0)
    i = np.concatenate([pairs.i, pairs.j[real]])
    j = np.concatenate([pairs.j, pairs.i[real]])
    flip = np.hstack([pairs.flip, pairs.flip[:, real]])
    order = np.lexsort((j, *flip, i))
    return Pairs(i[order], j[order], flip[:, order])
