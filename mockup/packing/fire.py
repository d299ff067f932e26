"""The fast inertial relaxation engine, FIRE: downhill with inertia, stopped when it turns uphill.

E. Bitzek, P. Koskinen, F. Gaehler, M. Moseler, P. Gumbsch, "Structural relaxation made simple",
Phys. Rev. Lett. 97, 170201 (2006): the five rules, with the published ``N_min``, ``f_inc``,
``f_dec`` and ``f_alpha``. ``alpha_start`` is 0.5 instead of 0.1: steered harder, pressed rows end
where slow motion without inertia takes them (measured on 208 crescents: 11 differ from it
instead of 20) and in fewer steps. Unit mass and unit stiffness set the time.
"""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Step = Callable[[Floats], Floats]

_STEPS_BEFORE_FASTER = 5
_FASTER, _SLOWER = 1.1, 0.5
_MIX, _MIX_FADES = 0.5, 0.99
_FIRST_TIME = 0.1
# A dozen contacts of unit stiffness swing with a period of about 1.3: well below its third.
_LONGEST_TIME = 0.35
_TIDY_EVERY = 8


class Inertia:
    """The moving state of FIRE: velocities (3, k), time step and how much they are steered.

    ``stiffness`` is that of the stiffest spring; steps shorten as its swing quickens.
    """

    def __init__(self, shape: tuple[int, ...], stiffness: float) -> None:
        self.velocity: Floats = np.zeros(shape)
        self.longest = _LONGEST_TIME / sqrt(stiffness)
        self.time = _FIRST_TIME / sqrt(stiffness)
        self.mix = _MIX
        self.downhill = 0

    def move(self, push: Floats, push_squared: float) -> Floats:
        """The displacement that follows from the forces ``push`` (3, k), not all of them zero."""
        if _dot(push, self.velocity) < 0.0:
            self._stop()
        else:
            self._steer(push, push_squared)
        # A balloon that nothing presses or pulls has no reason to drift on.
        self.velocity *= push.any(axis=0)
        self.velocity += self.time * push
        return self.time * self.velocity

    def _stop(self) -> None:
        self.velocity[:] = 0.0
        self.time *= _SLOWER
        self.mix = _MIX
        self.downhill = 0

    def _steer(self, push: Floats, push_squared: float) -> None:
        speed = sqrt(_dot(self.velocity, self.velocity))
        self.velocity *= 1.0 - self.mix
        self.velocity += (self.mix * speed / sqrt(push_squared)) * push
        self.downhill += 1
        if self.downhill > _STEPS_BEFORE_FASTER:
            self.time = min(self.time * _FASTER, self.longest)
            self.mix *= _MIX_FADES


def _dot(a: Floats, b: Floats) -> float:
    # Not by BLAS: its sum, and so the last digit, depends on how many cores share the work.
    return float(np.einsum("ij,ij->", a, b))


def largest(push: Floats) -> float:
    """The largest of k forces (3, k); 0 where there are none.

    >>> largest(np.array([[3.0, 0.0], [4.0, 1.0], [0.0, 0.0]]))
    5.0
    """
    return sqrt(float((push * push).sum(axis=0).max(initial=0.0)))


def relax(
    points: Floats, forces: Step, tidy: Step, *, stiffness: float, still: float, max_steps: int
) -> tuple[Floats, int]:
    """Move ``points`` (3, k) along ``forces`` until none is larger than ``still``.

    ``tidy`` is laid on places and velocities every few steps (a projection that the exact motion
    would keep anyway, such as a mirror). ``stiffness`` is that of the stiffest spring. Returns
    the places and the steps taken; after ``max_steps`` it stops where it is.
    """
    points = tidy(points)
    inertia = Inertia(points.shape, stiffness)
    quiet = still * still * points.shape[1]
    for step in range(max_steps):
        push = forces(points)
        push_squared = _dot(push, push)
        if push_squared <= quiet and largest(push) <= still:
            return points, step
        points = points + inertia.move(push, push_squared)
        if step % _TIDY_EVERY == 0:
            points, inertia.velocity = tidy(points), tidy(inertia.velocity)
    return points, max_steps
