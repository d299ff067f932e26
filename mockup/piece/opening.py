"""The opening that the eye sees between the balloons, beside the window that the slab rule gives.

Between a front and a back balloon the slab slips in, so its window can reach through a valley up
to the ring. What a client sees and what a decorator measures ends at the balloons in front.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.panel.window import blocked_radii, window, window_spans

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Opening:
    """The opening as seen from the front: spans through its centre and outline, mm."""

    width: float
    height: float
    outline: tuple[tuple[float, float], ...]


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
    shape = window(radius, pulled, diameters, thickness, z0, opening_centre=(cx, cy))
    blocked = blocked_radii(pulled, diameters, thickness, z0)
    width, height = window_spans(radius, pulled[:, :2] - (cx, cy), blocked)
    outline = tuple((float(x), float(y)) for x, y in shape.exterior.coords)
    return Opening(width, height, outline)
