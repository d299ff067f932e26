"""Many crescents settled at once: by the motion of the full settling, all in step.

Each option moves by FIRE (E. Bitzek et al., Phys. Rev. Lett. 97, 170201, 2006) with its own time
step, and stops where ``packing.settling`` does: on a flat ridge it is the way there, and where it
ends, that tells how the balloons lie. So the first step, the steering, the longest time step and
the force at which it rests are those of ``packing.fire``; only the precision is single.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.suggest.crescents import Body, Placed
from mockup.suggest.springs import NO_DISTANCE, Fold, Springs, fold_of, springing

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
Bools = NDArray[np.bool_]

STILL = 0.001
MOST_STEPS = 2_000

_FIRST_TIME, _LONGEST_TIME = np.float32(0.1), np.float32(0.35)
_STEPS_BEFORE_FASTER = 5
_FASTER, _SLOWER = np.float32(1.1), np.float32(0.5)
_MIX, _MIX_FADES = np.float32(0.5), np.float32(0.99)
_ZERO, _ONE = np.float32(0.0), np.float32(1.0)
# Options at rest are taken out once they are this share of those that move.
_RESTING = 0.15


class _Motion:
    """The moving state of the options that are not at rest yet.

    ``weight`` (f,) is how many balloons each moved one stands for, so that what is summed over
    the moved is in proportion to the sum over all.
    """

    def __init__(self, points: Floats, weight: Floats) -> None:
        options = points.shape[2]
        self.points = points
        self.weight = weight[:, None]
        self.velocity = np.zeros_like(points)
        self.time = np.full(options, _FIRST_TIME)
        self.mix = np.full(options, _MIX)
        self.downhill = np.zeros(options, dtype=np.intp)

    def only(self, which: Ints) -> None:
        """Go on with these options of those at hand."""
        for name in ("points", "velocity"):
            setattr(self, name, np.ascontiguousarray(getattr(self, name)[:, :, which]))
        for name in ("time", "mix", "downhill"):
            setattr(self, name, getattr(self, name)[which])

    def step(self, push: Floats, squares: Floats) -> None:
        """One step of FIRE; ``squares`` (f, m) are those of the forces."""
        moving = self.velocity
        power = self._summed(_dot(push, moving))
        speed = np.sqrt(self._summed(_dot(moving, moving)))
        force = np.sqrt(self._summed(squares))
        uphill = power < 0.0
        moving *= np.where(uphill, _ZERO, _ONE - self.mix)
        steer = np.where(uphill, _ZERO, self.mix * speed / np.maximum(force, NO_DISTANCE))
        self._tune(uphill)
        moving += steer * push
        # A balloon that nothing presses or pulls has no reason to drift on.
        moving *= squares > 0
        push *= self.time
        moving += push
        self.points += self.time * moving

    def _summed(self, own: Floats) -> Floats:
        return np.asarray((self.weight * own).sum(axis=0))

    def _tune(self, uphill: Bools) -> None:
        self.downhill = np.where(uphill, 0, self.downhill + 1)
        faster = self.downhill > _STEPS_BEFORE_FASTER
        quicker = np.where(faster, np.minimum(self.time * _FASTER, _LONGEST_TIME), self.time)
        self.time = np.where(uphill, self.time * _SLOWER, quicker)
        fading = np.where(faster, self.mix * _MIX_FADES, self.mix)
        self.mix = np.where(uphill, _MIX, fading)


def _dot(one: Floats, other: Floats) -> Floats:
    total: Floats = one[0] * other[0]
    total += one[1] * other[1]
    total += one[2] * other[2]
    return total


def eased(
    body: Body, placed: Placed, *, still: float = STILL, most_steps: int = MOST_STEPS
) -> Floats:
    """The settled centres (3, k, m) of m options of a body, to ``still`` mean diameters.

    An option ends in the same place to the last bit whatever others it is settled with.
    """
    if placed.radii.shape[1] == 1:
        twice = placed.only(_several(np.array([0])))
        return eased(body, twice, still=still, most_steps=most_steps)[:, :, :1]
    fold = fold_of(body)
    pairs = springing(body, placed, fold)
    if not len(pairs.i):
        return placed.centres.copy()
    # In double precision, as what touches at the start does so to the last digits.
    begun = Springs(body, placed, fold, pairs).eased(placed.centres[:, fold.kept])
    limit = (still * 2 * np.average(placed.radii, axis=0, weights=body.weight)) ** 2
    springs = Springs(body, _single(placed), fold, pairs)
    motion = _Motion(begun.astype(np.float32), _weights(fold, body.weight))
    settled = _moved(motion, springs, limit.astype(np.float32), most_steps)
    whole = settled[:, fold.of].astype(np.float64)
    whole[2] *= fold.sign[:, None]
    return whole


def _moved(motion: _Motion, springs: Springs, limit: Floats, most_steps: int) -> Floats:
    """Where each option first comes to rest, (3, f, m), or is when the steps run out."""
    settled = motion.points.copy()
    which = np.arange(settled.shape[2])
    done = np.zeros(len(which), dtype=np.bool_)
    for number in range(most_steps + 1):
        push = springs(motion.points)
        squares = _dot(push, push)
        rests = ~done & ((squares.max(axis=0) <= limit[which]) | (number == most_steps))
        settled[:, :, which[rests]] = motion.points[:, :, rests]
        done |= rests
        if done.all():
            break
        if done.mean() > _RESTING:
            kept = _several(np.flatnonzero(~done))
            which, done = which[kept], done[kept]
            motion.only(kept)
            springs.only(kept)
            push, squares = push[:, :, kept], squares[:, kept]
        motion.step(push, squares)
    return settled


def _several(which: Ints) -> Ints:
    """One option alone twice: numpy sums a single column in another order than several."""
    return which.repeat(2) if len(which) == 1 else which


def _weights(fold: Fold, own: Floats) -> Floats:
    short: Floats = np.bincount(fold.of, own).astype(np.float32)
    return short


def _single(placed: Placed) -> Placed:
    """In single precision: micrometres are enough here, and it takes half the time."""
    centres, knots, radii, along = (
        rows.astype(np.float32)
        for rows in (placed.centres, placed.knots, placed.radii, placed.along)
    )
    return Placed(centres, knots, radii, along)  # type: ignore[arg-type]  # see the hints' note


def swings(placed: Placed, settled: Floats) -> Floats:
    """How far each balloon turned about its knot, (k, m) degrees."""
    before, after = placed.centres - placed.knots, settled - placed.knots
    along = (before * after).sum(axis=0)
    long = np.sqrt((before * before).sum(axis=0) * (after * after).sum(axis=0))
    return np.asarray(np.degrees(np.arccos(np.clip(along / np.maximum(long, 1e-12), -1.0, 1.0))))
