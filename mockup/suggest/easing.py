"""Many crescents settled at once and coarsely: the same springs as the full settling, all in step.

Each option moves by FIRE (E. Bitzek et al., Phys. Rev. Lett. 97, 170201, 2006) with its own time
step, as ``packing.fire`` does for one piece, and rests once none of its forces is larger than a
share of its mean diameter. One side is moved; what lies on the mirror stays on it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.suggest.crescents import Layout, Pairs, Placed

Floats = NDArray[np.float64]
# Single precision inside; the hints say float64 as numpy's promotion rules are not in its types.
Ints = NDArray[np.intp]
Bools = NDArray[np.bool_]

NECK = 0.3
STILL = 0.002
MOST_STEPS = 400

_FIRST_TIME, _LONGEST_TIME = 0.1, 0.5
_STEPS_BEFORE_FASTER, _FASTER, _SLOWER = 5, 1.1, 0.5
_MIX, _MIX_FADES = 0.5, 0.99
_NO_DISTANCE = np.float32(1e-9)
_ZERO, _ONE = np.float32(0.0), np.float32(1.0)
# Pairs further apart than this share of a diameter at the start do not come to touch.
_SKIN = 0.5
_LEAST_MOVING = 0.6
_SAME = 1e-6


@dataclass(frozen=True)
class _Fold:
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


def _fold(layout: Layout) -> _Fold:
    partner = front_and_back(layout)
    every = np.arange(len(layout.phi))
    if partner is None:
        return _Fold(every, every, np.ones(len(every), dtype=np.float32))
    front = (np.sin(layout.phi) > _SAME) | (partner == every)
    kept = every[front]
    place = np.full(len(every), -1, dtype=np.intp)
    place[kept] = np.arange(len(kept))
    of = np.where(front, place, place[partner])
    return _Fold(kept, of, np.where(front, 1.0, -1.0).astype(np.float32))


class _Springs:
    """The forces on the moved balloons of crescents, from pairs that may touch."""

    def __init__(self, layout: Layout, placed: Placed, fold: _Fold) -> None:
        pairs = _both_ways(_near(layout.touching, placed))
        moved = np.isin(pairs.i, fold.kept)
        i, j, image = pairs.i[moved], pairs.j[moved], pairs.image[moved]
        self.i, self.j = fold.of[i], fold.of[j]
        self.starts, self.rows = _firsts(self.i)
        self.mirror = np.where(image, -1.0, 1.0).astype(np.float32)[:, None]
        self.behind = fold.sign[j][:, None]
        self.on_middle = np.flatnonzero(fold.kept < layout.on_middle)
        self.in_plane = fold.in_plane
        self.fold = fold
        self.take(placed.radii, placed.knots)

    def take(self, radii: Floats, knots: Floats) -> None:
        """Go on with these options only."""
        self.radii, self.knots = radii[self.fold.kept], knots[:, self.fold.kept]
        self.contact = self.radii[self.i] + self.radii[self.j]

    def __call__(self, points: Floats) -> Floats:
        """Force on each moved balloon, (3, f, m)."""
        gap = points[:, self.j]
        gap[0] *= self.mirror
        gap[2] *= self.behind
        np.subtract(points[:, self.i], gap, out=gap)
        apart = np.sqrt(gap[0] ** 2 + gap[1] ** 2 + gap[2] ** 2)
        share = np.maximum(self.contact - apart, 0.0)
        share /= np.maximum(apart, _NO_DISTANCE)
        gap *= share
        push = np.zeros_like(points)
        push[:, self.rows] = np.add.reduceat(gap, self.starts, axis=1)
        push -= self._pull(points)
        push[0, self.on_middle] = 0.0
        push[2, self.in_plane] = 0.0
        return push

    def _pull(self, points: Floats) -> Floats:
        neck = points - self.knots
        length = np.sqrt((neck * neck).sum(axis=0))
        stretch = np.maximum(length - self.radii, 0.0) * NECK
        stretch /= np.maximum(length, _NO_DISTANCE)
        neck *= stretch
        return neck


def _near(pairs: Pairs, placed: Placed) -> Pairs:
    """The pairs that are near enough in some option."""
    from mockup.suggest.crescents import gaps_between

    apart = np.sqrt((gaps_between(placed.centres, pairs) ** 2).sum(axis=0))
    reach = (1 + _SKIN) * (placed.radii[pairs.i] + placed.radii[pairs.j])
    near = (apart < reach).any(axis=1)
    return Pairs(pairs.i[near], pairs.j[near], pairs.image[near])


def _both_ways(pairs: Pairs) -> Pairs:
    """Each pair from both its balloons, sorted by the first; mirror pairs are listed so already."""
    real = ~pairs.image
    i = np.concatenate([pairs.i, pairs.j[real]])
    j = np.concatenate([pairs.j, pairs.i[real]])
    image = np.concatenate([pairs.image, np.zeros(int(real.sum()), dtype=np.bool_)])
    order = np.lexsort((j, image, i))
    return Pairs(i[order], j[order], image[order])


def _firsts(i: Ints) -> tuple[Ints, Ints]:
    """Where each balloon's pairs start, and which balloon it is."""
    starts = np.flatnonzero(np.diff(i, prepend=-1))
    return starts, i[starts]


class _Motion:
    """The moving state of the options that are not at rest yet."""

    def __init__(self, points: Floats) -> None:
        options = points.shape[2]
        self.points = points
        self.velocity = np.zeros_like(points)
        self.time = np.full(options, _FIRST_TIME, dtype=np.float32)
        self.mix = np.full(options, _MIX, dtype=np.float32)
        self.downhill = np.zeros(options, dtype=np.intp)
        self.which = np.arange(options)

    def keep(self, kept: Bools) -> None:
        """Only these go on."""
        for name in ("points", "velocity"):
            setattr(self, name, np.ascontiguousarray(getattr(self, name)[:, :, kept]))
        for name in ("time", "mix", "downhill", "which"):
            setattr(self, name, getattr(self, name)[kept])

    def step(self, push: Floats, resting: Bools) -> None:
        """One step of FIRE; what rests stays."""
        power = (push * self.velocity).sum(axis=(0, 1))
        speed = np.sqrt((self.velocity * self.velocity).sum(axis=(0, 1)))
        force = np.sqrt((push * push).sum(axis=(0, 1)))
        uphill = power < 0.0
        steer = np.where(uphill, _ZERO, self.mix * speed / np.maximum(force, _NO_DISTANCE))
        self.velocity *= np.where(uphill, _ZERO, _ONE - self.mix)
        self.velocity += steer * push
        self._tune(uphill)
        self.velocity += self.time * push
        self.velocity *= ~resting
        self.points += self.time * self.velocity

    def _tune(self, uphill: Bools) -> None:
        self.downhill = np.where(uphill, 0, self.downhill + 1)
        faster = self.downhill > _STEPS_BEFORE_FASTER
        quicker = np.minimum(self.time * _FASTER, _LONGEST_TIME)
        self.time = np.where(uphill, self.time * _SLOWER, np.where(faster, quicker, self.time))
        fading = np.where(faster, self.mix * _MIX_FADES, self.mix)
        self.mix = np.where(uphill, np.float32(_MIX), fading)


def eased(
    layout: Layout, placed: Placed, *, still: float = STILL, most_steps: int = MOST_STEPS
) -> Floats:
    """The settled centres (3, k, m) of one side of each crescent, to ``still`` mean diameters."""
    placed = _single(placed)
    fold = _fold(layout)
    springs, motion = _Springs(layout, placed, fold), _Motion(placed.centres[:, fold.kept])
    limit = (still * 2 * placed.radii.mean(axis=0)) ** 2
    settled = placed.centres[:, fold.kept]
    for _ in range(most_steps):
        push = springs(motion.points)
        resting = (push * push).sum(axis=0).max(axis=0) <= limit[motion.which]
        if resting.mean() > 1 - _LEAST_MOVING or resting.all():
            settled[:, :, motion.which[resting]] = motion.points[:, :, resting]
            moving = ~resting
            motion.keep(moving)
            push, resting = push[:, :, moving], resting[moving]
            springs.take(placed.radii[:, motion.which], placed.knots[:, :, motion.which])
        if not len(motion.which):
            break
        motion.step(push, resting)
    settled[:, :, motion.which] = motion.points
    whole = settled[:, fold.of].astype(np.float64)
    whole[2] *= fold.sign[:, None]
    return whole


def front_and_back(layout: Layout) -> Ints | None:
    """Each balloon's image across the plane of the frame; None where the turns allow none.

    A symmetric start stays so by the exact motion, but pressed rows buckle and would make
    millimetres of rounding noise.
    """
    partner = np.full(len(layout.phi), -1, dtype=np.intp)
    ways = np.stack([np.cos(layout.phi), np.sin(layout.phi)], axis=1)
    for k, (across, toward) in enumerate(ways):
        off = np.abs(ways - (across, -toward)).sum(axis=1) + 9.0 * (
            layout.cluster != layout.cluster[k]
        )
        if off.min() > _SAME:
            return None
        partner[k] = int(off.argmin())
    return partner


def _single(placed: Placed) -> Placed:
    """In single precision: micrometres are enough here, and it takes half the time."""
    kinds = (placed.centres, placed.knots, placed.radii, placed.along)
    return Placed(*(_shortened(each) for each in kinds))


def _shortened(rows: Floats) -> Floats:
    short: Floats = rows.astype(np.float32)
    return short


def swings(placed: Placed, settled: Floats) -> Floats:
    """How far each balloon turned about its knot, (k, m) degrees."""
    before, after = placed.centres - placed.knots, settled - placed.knots
    along = (before * after).sum(axis=0)
    long = np.sqrt((before * before).sum(axis=0) * (after * after).sum(axis=0))
    return np.asarray(np.degrees(np.arccos(np.clip(along / np.maximum(long, 1e-12), -1.0, 1.0))))
