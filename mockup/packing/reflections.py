"""The upright mirrors a set of balloons has, and keeping them.

An exact motion from a symmetric start stays symmetric, but pressed rows buckle, and buckling
makes millimetres out of rounding noise. So the mirrors of the start are found once and the motion
is laid back on them.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.records import dataclass

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

# Keys are rounded to cells coarser than what counts as equal, off centre so that round figures
# do not lie on a border.
_CELLS_PER_TOLERANCE = 1e-3
_OFF_CENTRE = 0.318


@dataclass(frozen=True)
class Mirror:
    """The plane through the origin across ``axis``; ``partner`` (k,) is each balloon's image."""

    axis: int
    partner: Indices

    def kept(self, rows: Floats) -> Floats:
        """``rows`` (3, k) of places or velocities, each the mean of itself and its image.

        >>> Mirror(0, np.array([1, 0])).kept(np.array([[-1.0, 2], [0, 0], [0, 0]]))[0].tolist()
        [-1.5, 1.5]
        """
        image = self.image(rows)
        image += rows
        image *= 0.5
        return image

    def image(self, rows: Floats) -> Floats:
        """``rows`` (3, k) of places or velocities as the mirror shows them.

        >>> Mirror(0, np.array([1, 0])).image(np.array([[-1.0, 2], [0, 0], [0, 0]]))[0].tolist()
        [-2.0, 1.0]
        """
        image = rows[:, self.partner]
        image[self.axis] *= -1.0
        return image


def mirrors(points: Floats, knots: Floats, radii: Floats, tolerance: float) -> tuple[Mirror, ...]:
    """The mirrors across x, y and z through the origin that the balloons have.

    ``points`` and ``knots`` (3, k), ``radii`` (k,); a balloon is another one's image when place,
    knot and radius agree within ``tolerance``.
    """
    every = np.vstack([points, knots, radii])
    found = (_mirror(every, axis, tolerance) for axis in range(3))
    return tuple(mirror for mirror in found if mirror is not None)


def _mirror(every: Floats, axis: int, tolerance: float) -> Mirror | None:
    image = every.copy()
    image[[axis, 3 + axis]] *= -1.0
    here, there = _ordered(every, tolerance), _ordered(image, tolerance)
    if np.abs(every[:, here] - image[:, there]).max(initial=0.0) > tolerance:
        return None
    partner = np.empty(len(here), dtype=np.intp)
    partner[here] = there
    # Balloons that share one place can pair up in a circle of three; that is no mirror.
    if not np.array_equal(partner[partner], np.arange(len(here))):
        return None
    return Mirror(axis, partner)


def _ordered(rows: Floats, tolerance: float) -> Indices:
    return np.lexsort(np.floor(rows * (_CELLS_PER_TOLERANCE / tolerance) + _OFF_CENTRE))
