"""Settling: placed balloons swing on their necks until what presses and pulls them balances."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mockup.errors import MockupError
from mockup.packing.balancing import REACH, Asked, Island, at_rest, balanced
from mockup.packing.fire import largest
from mockup.packing.forces import Forces
from mockup.packing.neighbours import touching_pairs
from mockup.records import dataclass

Floats = NDArray[np.float64]


class CannotSettle(MockupError, ValueError):
    """Balloons that cannot be settled: lengths that differ, or a figure that makes no sense."""


@dataclass(frozen=True)
class Settled:
    """Where k balloons lie, and what it took.

    ``centres`` (k, 3) in mm. Energies in mm^2 and ``largest_force`` in mm, both at a contact
    stiffness of 1: a force reads as the overlap that would cause it. ``swing_deg`` (k,) is how
    far each balloon turned about its knot; ``pressed`` the worst overlap that is left, as a share
    of the smaller diameter. ``at_rest`` is False when the steps ran out first.
    """

    centres: Floats
    energy_start: float
    energy_end: float
    largest_force: float
    steps: int
    swing_deg: Floats
    pressed: float
    at_rest: bool


def settle(
    centres: ArrayLike,
    diameters: ArrayLike,
    knots: ArrayLike,
    *,
    neck_stiffness: float = 0.3,
    tolerance: float = 1e-3,
    max_steps: int = 10_000,
) -> Settled:
    """Let balloons at ``centres`` (k, 3) tied at ``knots`` (k, 3) find their balance; all mm.

    Lowers ``sum 1/2 overlap^2 + sum 1/2 neck_stiffness max(0, |c - knot| - d/2)^2`` (soft spheres
    on stretchy necks, the knots fixed) until no force is larger than ``tolerance`` mean diameters
    of the balloons that hang together. The energy never ends above its start. A start that is
    mirrored across x, y or z through its middle stays so; equal input gives equal output; and what
    touches nothing of the rest settles as if it were alone. Raises ``CannotSettle``.

    >>> pair = settle([[40, 0, 0], [-40, 0, 0]], [100, 100], [[0, 0, 0], [0, 0, 0]])
    >>> pair.centres.tolist(), pair.pressed
    ([[50.0, 0.0, 0.0], [-50.0, 0.0, 0.0]], 0.0)
    """
    placed, sizes, tied = _checked(centres, diameters, knots)
    _check_figures(neck_stiffness, tolerance, max_steps)
    if not len(placed):
        return Settled(placed, 0.0, 0.0, 0.0, 0, np.zeros(0), 0.0, True)
    start, knots = _rows(placed), _rows(tied)
    near = touching_pairs(placed, sizes / 2, REACH * float(sizes.mean()))
    forces = Forces(start, sizes / 2, knots, neck_stiffness, near)
    before = forces.energy(start)
    asked = Asked(neck_stiffness, tolerance, max_steps)
    rest = balanced(Island(start, knots, sizes / 2), forces, near, asked)
    after = forces.energy(rest.points)
    if not after <= before:
        rest, after = replace(rest, points=start), before
    force = largest(forces.afresh(rest.points))
    lain = placed if rest.points is start else np.ascontiguousarray(rest.points.T)
    return Settled(
        centres=lain,
        energy_start=before,
        energy_end=after,
        largest_force=force,
        steps=rest.steps,
        swing_deg=_swings(placed - tied, lain - tied),
        pressed=forces.pressed(rest.points),
        at_rest=at_rest(rest, forces),
    )


def _rows(points: Floats) -> Floats:
    return np.ascontiguousarray(points.T)


def _swings(before: Floats, after: Floats) -> Floats:
    """The angle each neck (k, 3) turned by, degrees; 0 for a balloon centred on its knot."""
    aside = np.sqrt((np.cross(before, after) ** 2).sum(axis=1))
    angles: Floats = np.degrees(np.arctan2(aside, (before * after).sum(axis=1)))
    return angles


def _checked(
    centres: ArrayLike, diameters: ArrayLike, knots: ArrayLike
) -> tuple[Floats, Floats, Floats]:
    placed = np.array(centres, dtype=np.float64).reshape(-1, 3)
    sizes = np.array(diameters, dtype=np.float64).reshape(-1)
    tied = np.array(knots, dtype=np.float64).reshape(-1, 3)
    if not len(placed) == len(sizes) == len(tied):
        counts = f"{len(placed)} centres, {len(sizes)} diameters, {len(tied)} knots"
        raise CannotSettle(f"every balloon needs a centre, a diameter and a knot, not {counts}")
    if not all(np.isfinite(figures).all() for figures in (placed, sizes, tied)):
        raise CannotSettle("centres, diameters and knots must be finite")
    if not (sizes > 0).all():
        raise CannotSettle("diameters must be above zero")
    return placed, sizes, tied


def _check_figures(neck_stiffness: float, tolerance: float, max_steps: int) -> None:
    if not (np.isfinite(neck_stiffness) and neck_stiffness >= 0):
        raise CannotSettle(f"neck_stiffness must be zero or more, not {neck_stiffness}")
    if not (np.isfinite(tolerance) and tolerance > 0):
        raise CannotSettle(f"tolerance must be above zero, not {tolerance}")
    if max_steps < 0:
        raise CannotSettle(f"max_steps must be zero or more, not {max_steps}")
