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
        # Side by side, so that one sum gives every product of the two.
        self._both: Floats = np.zeros((2, *shape))
        self.velocity, self.push = self._both
        self.longest = _LONGEST_TIME / sqrt(stiffness)
        self.time = _FIRST_TIME / sqrt(stiffness)
        self.mix = _MIX
        self.downhill = 0
        self._speed = self._along = self._force = 0.0

    def feel(self, push: Floats) -> float:
        """Take up the forces (3, k); the sum of their squares."""
        self.push[:] = push
        flat = self._both.reshape(2, -1)
        # Not by BLAS: its sum, and so the last digit, depends on how many cores share the work.
        (self._speed, self._along), (_, self._force) = np.einsum("ai,bi->ab", flat, flat).tolist()
        return self._force

    def move(self) -> Floats:
        """The displacement that follows from the forces felt last, not all of them zero."""
        along = 0.0
        if self._along < 0.0:
            self._stop()
        else:
            along = self._steer()
        # A balloon that nothing presses or pulls has no reason to drift on.
        self.velocity *= self.push.any(axis=0)
        self.push *= along + self.time
        self.velocity += self.push
        moved: Floats = self.time * self.velocity
        return moved

    def _stop(self) -> None:
        self.velocity[:] = 0.0
        self.time *= _SLOWER
        self.mix = _MIX
        self.downhill = 0

    def _steer(self) -> float:
        """Slow down, and say how much of the forces turns the velocities toward them."""
        along = self.mix * sqrt(self._speed / self._force)
        self.velocity *= 1.0 - self.mix
        self.downhill += 1
        if self.downhill > _STEPS_BEFORE_FASTER:
            self.time = min(self.time * _FASTER, self.longest)
            self.mix *= _MIX_FADES
        return along


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
        if inertia.feel(push) <= quiet and largest(push) <= still:
            return points, step
        points = points + inertia.move()
        if step % _TIDY_EVERY == 0:
            points = tidy(points)
            inertia.velocity[:] = tidy(inertia.velocity)
    return points, max_steps
