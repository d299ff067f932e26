"""The opening that the eye sees between the balloons, beside the window that the slab rule gives.

Between a front and a back balloon the slab slips in, so its window can reach through a valley up
to the ring. What a client sees and what a decorator measures ends at the balloons in front.
"""

from __future__ import annotations

from dataclasses import field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from mockup.panel.window import blocked_radii, window, window_rays
from mockup.records import dataclass

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Opening:
    """The opening as seen from the front, mm; ``across`` and ``up`` are from where to where it
    reaches on the level and the upright line through its centre, as places in the piece.

    These are exact from centre distances; the ``outline`` is cut only for those who draw it.
    """

    across: tuple[float, float]
    up: tuple[float, float]
    disc: tuple[float, float, float]
    pulled: Floats = field(compare=False, repr=False)
    diameters: Floats = field(compare=False, repr=False)
    slab: tuple[float, float]

    @property
    def width(self) -> float:
        """Its width through its centre."""
        return self.across[1] - self.across[0]

    @property
    def height(self) -> float:
        """Its height through its centre."""
        return self.up[1] - self.up[0]

    @cached_property
    def outline(self) -> tuple[tuple[float, float], ...]:
        """Its outline as closed points, mm; empty where a balloon covers the centre."""
        cx, cy, radius = self.disc
        shape = window(radius, self.pulled, self.diameters, *self.slab, opening_centre=(cx, cy))
        return tuple((float(x), float(y)) for x, y in shape.exterior.coords)


def seen_opening(
    disc: tuple[float, float, float],
    centres: Floats,
    diameters: Floats,
    thickness: float,
    z0: float,
) -> Opening:
    """The opening inside ``disc`` (cx, cy, radius) clear of every balloon in front of the panel.

    A balloon whose centre lies in front of the panel's plane ``z0`` hides its whole silhouette;
    one behind it counts with what it blocks of the slab.
    """
    cx, cy, radius = disc
    pulled = centres.copy()
    pulled[:, 2] = np.where(centres[:, 2] > z0, z0, centres[:, 2])
    blocked = blocked_radii(pulled, diameters, thickness, z0)
    right, left, up, down = window_rays(radius, pulled[:, :2] - (cx, cy), blocked).tolist()
    spans = (cx - left, cx + right), (cy - down, cy + up)
    return Opening(*spans, disc, pulled, diameters, (thickness, z0))
