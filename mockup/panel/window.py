"""The panel window: what the balloons leave open for a slab as thick as a foil's seam.

A balloon blocks the disc in which the slab cuts it; the window is the opening of the frame without
those discs, as far as it hangs together with the centre. Between a front and a back balloon that
touch on the plane, the slab so enters until the valley is as wide as the slab is thick.
"""

from __future__ import annotations

from math import isfinite, pi, sin, sqrt
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mockup.errors import MockupError

if TYPE_CHECKING:
    import shapely

QUAD_SEGS = 64
"""Segments of a quarter circle in a window's outline."""

Floats = NDArray[np.float64]
Point = tuple[float, float]


class NotAnOpening(MockupError, ValueError):
    """Balloons or an opening whose figures make no sense."""


def blocked_radii(centres: ArrayLike, diameters: ArrayLike, thickness: float, z0: float) -> Floats:
    """Radius of the disc in which each balloon blocks the slab, (k,) mm; 0 where it does not.

    ``centres`` is (k, 3) and ``diameters`` (k,), mm; the slab is ``thickness`` thick about the
    plane z = ``z0``. The sphere is widest within the slab where the slab comes nearest to its
    centre: sqrt((d/2)^2 - max(0, |z - z0| - thickness/2)^2).

    >>> blocked_radii([[0, 0, 0], [0, 0, 34], [0, 0, 60]], [100, 100, 100], 8, 0).tolist()
    [50.0, 40.0, 0.0]
    """
    xyz, radii = _balloons(centres, diameters)
    away = np.maximum(0.0, np.abs(xyz[:, 2] - z0) - thickness / 2)
    blocked: Floats = np.sqrt(np.maximum(0.0, radii**2 - away**2))
    return blocked


def window(
    opening_radius: float,
    centres: ArrayLike,
    diameters: ArrayLike,
    thickness: float,
    z0: float,
    *,
    opening_centre: Point = (0.0, 0.0),
) -> shapely.Polygon:
    """The window as a polygon in mm: the part of the opening that holds its centre.

    Empty where a balloon blocks the centre (decided from centre distances). A balloon that stands
    alone in the opening leaves a hole. Circles are drawn with 256 sides and the circle's own
    area. Use ``window_spans`` for exact width and height.

    >>> round(window(100.0, [[0, 0, 90]], [100.0], 8.0, 0.0).area, 3)
    31415.927
    """
    import shapely  # the verdict of a fit needs no polygon

    require_opening(opening_radius, thickness, z0)
    blocked = blocked_radii(centres, diameters, thickness, z0)
    xy = _balloons(centres, diameters)[0][:, :2] - opening_centre
    part = _central_part(opening_radius, xy, blocked)
    if opening_centre == (0.0, 0.0):
        return part
    return shapely.transform(part, lambda points: points + opening_centre)


def window_rays(opening_radius: float, xy: ArrayLike, blocked: ArrayLike) -> Floats:
    """How far the window reaches from the centre of the opening: right, left, up, down, (4,) mm.

    ``xy`` (k, 2) is relative to that centre, ``blocked`` (k,) the blocked radii. Exact: from where
    the four rays from the centre meet a circle, not from a polygon. All 0 where it is blocked.

    >>> window_rays(100.0, [[0, 90]], [50.0]).tolist()
    [100.0, 100.0, 40.0, 100.0]
    """
    places = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    radii = np.asarray(blocked, dtype=np.float64)
    if _is_covered(places, radii):
        return np.zeros(4)
    return np.array(
        [_ray(opening_radius, places @ way, places, radii) for way in (_X, -_X, _Y, -_Y)]
    )


def window_spans(opening_radius: float, xy: ArrayLike, blocked: ArrayLike) -> Point:
    """Width and height of the window through the centre of the opening, mm.

    As ``window_rays`` has them; (0, 0) where it is blocked.

    >>> window_spans(100.0, [[0, 90]], [50.0])
    (200.0, 140.0)
    """
    right, left, up, down = window_rays(opening_radius, xy, blocked).tolist()
    return right + left, up + down


def centre_depths(xy: Floats, blocked: Floats) -> Floats:
    """How far each blocked disc reaches over the opening's centre, (k,) mm; below 0 beside it.

    >>> centre_depths(np.array([[3.0, 4.0], [0.0, 9.0]]), np.array([6.0, 0.0])).tolist()
    [1.0, -inf]
    """
    return np.where(blocked > 0.0, blocked - np.hypot(xy[:, 0], xy[:, 1]), -np.inf)


def _is_covered(xy: Floats, blocked: Floats) -> bool:
    return bool((centre_depths(xy, blocked) > 0.0).any())


def discs(xy: Floats, radii: Floats) -> NDArray[np.object_]:
    """Polygons of round discs, each with exactly the area of its circle.

    A regular polygon of n sides has the area of a circle of radius r where its corners lie at
    r sqrt((2 pi/n) / sin(2 pi/n)): 0.005 % outside it at 256 sides, the sides 0.0025 % inside.

    >>> import numpy as np
    >>> bool(abs(discs(np.zeros((1, 2)), np.ones(1))[0].area - np.pi) < 1e-12)
    True
    """
    import shapely

    step = 2 * pi / len(_ROUND)
    corners = radii * sqrt(step / sin(step))
    made: NDArray[np.object_] = shapely.polygons(xy[:, None] + corners[:, None, None] * _ROUND)
    return made


def _round(quad_segs: int) -> Floats:
    """Corners of a regular polygon on the unit circle, the same on both sides of both axes."""
    quarter = np.arange(quad_segs) * (pi / (2 * quad_segs))
    x, y = np.cos(quarter), np.sin(quarter)
    y[quad_segs // 2 :] = x[1 : quad_segs // 2 + 1][::-1]
    x[quad_segs // 2 + 1 :] = y[1 : quad_segs // 2][::-1]
    return np.column_stack([np.concatenate([x, -y, -x, y]), np.concatenate([y, x, -y, -x])])


_ROUND = _round(QUAD_SEGS)
_X = np.array([1.0, 0.0])
_Y = np.array([0.0, 1.0])


def _ray(limit: float, along: Floats, xy: Floats, radii: Floats) -> float:
    """How far a ray from the centre runs before it meets a disc or the opening's edge."""
    rest = radii**2 - (np.einsum("ij,ij->i", xy, xy) - along**2)
    hit = (rest > 0.0) & (along > 0.0) & (radii > 0.0)
    return float(min(limit, (along[hit] - np.sqrt(rest[hit])).min(initial=limit)))


def _central_part(opening_radius: float, xy: Floats, blocked: Floats) -> shapely.Polygon:
    import shapely

    if _is_covered(xy, blocked):
        return shapely.Polygon()
    near = (blocked > 0.0) & (np.hypot(xy[:, 0], xy[:, 1]) - blocked < opening_radius)
    left = discs(np.zeros((1, 2)), np.array([opening_radius]))[0]
    for half in (xy[:, 1] >= 0.0, xy[:, 1] < 0.0):
        # Two unions of half as many discs take about half the time of one.
        left = shapely.difference(
            left, shapely.union_all(discs(xy[near & half], blocked[near & half]))
        )
    parts = shapely.get_parts(left)
    return parts[np.argmin(shapely.distance(parts, shapely.Point(0.0, 0.0)))]


def _balloons(centres: ArrayLike, diameters: ArrayLike) -> tuple[Floats, Floats]:
    """Centres (k, 3) and radii (k,), checked."""
    xyz = np.asarray(centres, dtype=np.float64).reshape(-1, 3)
    radii = np.asarray(diameters, dtype=np.float64).reshape(-1) / 2
    if len(xyz) != len(radii):
        raise NotAnOpening(f"{len(xyz)} balloon centres do not go with {len(radii)} diameters")
    if not (np.isfinite(xyz).all() and np.isfinite(radii).all() and (radii >= 0.0).all()):
        raise NotAnOpening("a balloon's centre and diameter must be plain numbers, not below zero")
    return xyz, radii


def require_opening(radius: float, thickness: float, z0: float) -> None:
    """Raise ``NotAnOpening`` for figures that no opening or slab has."""
    if not (isfinite(radius) and radius > 0.0):
        raise NotAnOpening(f"the radius of the opening must be above zero, not {radius:g} mm")
    if not (isfinite(thickness) and thickness >= 0.0 and isfinite(z0)):
        raise NotAnOpening(f"a panel {thickness:g} mm thick at {z0:g} mm cannot be placed")
