"""Where balloons come to rest: each island by itself, its mirror image after it.

Two crescents of one ring do not touch. Taken apart each comes to rest in its own few steps, an
edit of one leaves the other where it lay to the last digit, and one that was settled a moment ago
is not settled again.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from mockup.packing.fire import largest, relax
from mockup.packing.forces import Forces
from mockup.packing.islands import islands
from mockup.packing.reflections import mirrors
from mockup.records import dataclass

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

# Places that agree to this share of a diameter are each other's mirror image.
_SAME = 1e-7
# Further apart than this share of the mean diameter, balloons seldom come to touch.
REACH = 0.7
# Islands remembered, and the largest of them: some ten megabytes at most.
_REMEMBERED, _LARGEST = 64, 2000


@dataclass(frozen=True)
class Asked:
    """How far to settle: the necks' stiffness, the largest force left as a share of the mean
    diameter, the most steps."""

    neck_stiffness: float
    tolerance: float
    max_steps: int


@dataclass(frozen=True)
class Rest:
    """Where balloons (3, k) came to lie, the steps it took, and the force each may keep, mm."""

    points: Floats
    steps: int
    still: Floats | float


@dataclass(frozen=True)
class Island:
    """Balloons to settle: places and knots (3, k), and radii (k,), mm."""

    points: Floats
    knots: Floats
    radii: Floats

    def part(self, chosen: Indices) -> Island:
        """Those of the balloons that are ``chosen``."""
        return Island(
            np.ascontiguousarray(self.points[:, chosen]),
            np.ascontiguousarray(self.knots[:, chosen]),
            self.radii[chosen],
        )

    @property
    def balloons(self) -> int:
        """How many there are."""
        return len(self.radii)

    @property
    def size(self) -> float:
        """The mean diameter, mm."""
        return 2 * float(self.radii.mean())


def balanced(every: Island, forces: Forces, near: Indices, asked: Asked) -> Rest:
    """Where no force is larger than asked.

    ``forces`` are those on all of the balloons, ``near`` (m, 2) the pairs that may come to touch.
    """
    start = Rest(every.points, 0, asked.tolerance * every.size)
    if not asked.max_steps or at_rest(start, forces):
        return start
    parts = islands(near, every.balloons)
    if len(parts) == 1:
        return _remembered(every, asked)
    rest = _each(every, parts, asked)
    if rest.steps >= asked.max_steps or at_rest(rest, forces):
        return rest
    # Islands drifted onto one another.
    left = replace(asked, max_steps=asked.max_steps - rest.steps)
    joined = _alone(replace(every, points=rest.points), left)
    return replace(joined, steps=rest.steps + joined.steps)


def at_rest(rest: Rest, forces: Forces) -> bool:
    """Whether no balloon has more force on it than it may keep."""
    push = forces.afresh(rest.points)
    return bool(((push * push).sum(axis=0) <= np.square(rest.still)).all())


def _each(every: Island, parts: list[Indices], asked: Asked) -> Rest:
    """Every part settled alone, or laid as the mirror image of one that is."""
    middle = every.points.mean(axis=1, keepdims=True)
    places, tied = every.points - middle, every.knots - middle
    kept = mirrors(places, tied, every.radii, _SAME * every.size)
    points, most, still = every.points.copy(), 0, np.full(every.balloons, -1.0)
    for part in parts:
        twin = next((one for one in kept if (still[one.partner[part]] >= 0).all()), None)
        if twin is None:
            rest = _remembered(every.part(part), asked)
            points[:, part], still[part] = rest.points, rest.still
            most = max(most, rest.steps)
        else:
            points[:, part] = twin.image(points - middle)[:, part] + middle
            still[part] = still[twin.partner[part]]
    return Rest(points, most, still)


def _remembered(island: Island, asked: Asked) -> Rest:
    if island.balloons > _LARGEST:
        return _alone(island, asked)
    points, knots, radii = island.points, island.knots, island.radii
    return _from_bytes(points.tobytes(), knots.tobytes(), radii.tobytes(), asked)


@lru_cache(_REMEMBERED)
def _from_bytes(points: bytes, knots: bytes, radii: bytes, asked: Asked) -> Rest:
    places, tied = (np.frombuffer(each).reshape(3, -1) for each in (points, knots))
    rest = _alone(Island(places, tied, np.frombuffer(radii)), asked)
    rest.points.flags.writeable = False
    return rest


def forget() -> None:
    """Let go of every island that is remembered, as one who measures must."""
    _from_bytes.cache_clear()


def _alone(island: Island, asked: Asked) -> Rest:
    """Where no force is larger than asked, judged by a list seen afresh."""
    middle = island.points.mean(axis=1, keepdims=True)
    points, knots, radii = island.points - middle, island.knots - middle, island.radii
    forces = Forces(points, radii, knots, asked.neck_stiffness)
    kept, still = mirrors(points, knots, radii, _SAME * island.size), asked.tolerance * island.size

    def tidy(rows: Floats) -> Floats:
        for mirror in kept:
            rows = mirror.kept(rows)
        return rows

    steps = 0
    while steps < asked.max_steps and largest(forces.afresh(points)) > still:
        if steps == 0:
            points, steps = forces.eased(tidy(points)), 1
        points, used = relax(
            points,
            forces,
            tidy,
            stiffness=forces.stiffness,
            still=still,
            max_steps=asked.max_steps - steps,
        )
        points, steps = tidy(points), steps + used
    return Rest(points + middle, steps, still)
