"""The outline of a balloon that presses on others: what of its front shows past those behind it.

Seen along an axis, a sphere shows its front half. Where another sphere crosses it, their surfaces
meet in a circle that lies in the radical plane of the two; what lies beyond that plane is inside
the other. So the part of a sphere that shows is its front half cut by planes, and its outline is
made of arcs of the silhouette and of the circles of crossing, which the view turns into ellipses.

Balloons are drawn from the back to the front, so each one needs cutting only by those drawn before
it: what a later one hides, it paints over. Everything here is in the units of the balloon's own
sphere (radius 1, centre 0; right, up, toward the viewer), and exact.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.viewpoint import Triple

TAU = 2 * math.pi
HORIZON = -1
_MEET = 1e-6


@dataclass(frozen=True)
class Cut:
    """The half space ``normal . Q > -depth`` that is kept of the unit sphere.

    ``normal`` is the unit vector from the other balloon's centre to this one's, ``other`` the
    other's index (HORIZON for the plane that parts the front half from the back). The plane meets
    the sphere in a circle of radius ``reach`` round ``-depth * normal`` along the unit vectors
    ``u`` (in the picture plane) and ``w`` (rising to the viewer), with u x w = normal.
    """

    normal: Triple
    depth: float
    other: int
    reach: float
    u: Triple
    w: Triple

    @property
    def lean(self) -> float:
        """Length of the normal as it is seen: 0 along the view, 1 across it."""
        return self.w[2]

    def point(self, angle: float) -> Triple:
        """The point of the circle at ``angle`` (radians, anticlockwise round the normal)."""
        c, s = self.reach * math.cos(angle), self.reach * math.sin(angle)
        (nx, ny, nz), (ux, uy, uz), (wx, wy, wz) = self.normal, self.u, self.w
        k = self.depth
        return (
            c * ux + s * wx - k * nx,
            c * uy + s * wy - k * ny,
            c * uz + s * wz - k * nz,
        )


def cut(normal: Triple, depth: float, other: int = HORIZON) -> Cut:
    """A cut by the plane ``normal . Q = -depth`` (unit normal).

    >>> [round(v, 3) for v in cut((0.6, 0.0, 0.8), 0.6).point(math.pi / 2)]
    [-1.0, 0.0, 0.0]
    """
    nx, ny, nz = normal
    lean = math.hypot(nx, ny)
    reach = math.sqrt(max(0.0, 1 - depth * depth))
    if lean < 1e-12:
        return Cut(normal, depth, other, reach, (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    ux, uy = -ny / lean, nx / lean
    return Cut(normal, depth, other, reach, (ux, uy, 0.0), (-nz * uy, nz * ux, lean))


@dataclass(frozen=True)
class Bow:
    """An arc of an outline: on the circle of ``cut`` from ``start`` to ``end``, radians, rising."""

    cut: Cut
    start: float
    end: float

    @property
    def whole(self) -> bool:
        """Whether it is the whole circle."""
        return self.end - self.start >= TAU - 1e-9


def back_to_front(depths: NDArray[np.float64]) -> list[int]:
    """Indices in drawing order by depth (k,), those at one depth (to 1 nm) in their own order.

    >>> back_to_front(np.array([5.0, -3.0, 5.0]))
    [1, 0, 2]
    """
    return [int(i) for i in np.argsort(np.round(depths, 6), kind="stable")]


def cuts_of(
    centres: NDArray[np.float64], radii: NDArray[np.float64], pairs: NDArray[np.intp]
) -> list[list[Cut]]:
    """For each sphere (centres (k, 3) in view axes, radii (k,)) its cuts by those drawn before it.

    ``pairs`` (m, 2) are those that may cross. The radical plane of two spheres lies
    ``(d^2 + rj^2 - ri^2) / 2d`` from the centre of j; planes that miss the front half are left out.

    >>> c = np.array([[0.0, 0.0, 0.0], [16.0, 0.0, 0.0]])
    >>> first, second = cuts_of(c, np.array([10.0, 10.0]), np.array([[0, 1]]))
    >>> len(first), second[0].depth
    (0, 0.8)
    """
    rank = np.empty(len(radii), dtype=int)
    rank[back_to_front(centres[:, 2])] = np.arange(len(radii))
    found: list[list[Cut]] = [[] for _ in radii]
    if not len(pairs):
        return found
    first = rank[pairs[:, 0]] < rank[pairs[:, 1]]
    behind, front = np.where(first, pairs.T, pairs.T[::-1])
    offset = centres[front] - centres[behind]
    apart = np.maximum(np.linalg.norm(offset, axis=1), 1e-9)
    normal = offset / apart[:, None]
    depth = (apart**2 + radii[front] ** 2 - radii[behind] ** 2) / (2 * apart * radii[front])
    shows = (depth < 1) & (np.hypot(normal[:, 0], normal[:, 1]) > depth)
    for i, j, n, k in zip(
        behind[shows].tolist(),
        front[shows].tolist(),
        normal[shows].tolist(),
        depth[shows].tolist(),
        strict=True,
    ):
        found[j].append(cut((n[0], n[1], n[2]), k, i))
    return found


_HORIZON = cut((0.0, 0.0, 1.0), 0.0)


def bows(cuts: Sequence[Cut]) -> list[Bow]:
    """The arcs that bound what shows of a unit sphere behind which ``cuts`` lie; none if none does.

    Each runs with the shown part on its left. Without cuts it is the whole silhouette.
    """
    walls = (_HORIZON, *cuts)
    if any(wall.depth <= -1 for wall in walls):
        return []
    return [
        Bow(wall, start, end)
        for wall in walls
        if wall.depth < 1
        for start, end in _kept(wall, [other for other in walls if other is not wall])
    ]


def _kept(wall: Cut, others: Sequence[Cut]) -> Iterator[tuple[float, float]]:
    """The stretches of a wall's circle on the kept side of all others."""
    waves = [_wave(wall, other) for other in others]
    ends = sorted(
        (lead + sign * half) % TAU for lead, half in waves if 0 < half < math.pi for sign in (-1, 1)
    )
    if not ends:
        if all(half >= math.pi for _, half in waves):
            yield 0.0, TAU
        return
    start: float | None = None
    stretches = list(zip(ends, [*ends[1:], ends[0] + TAU], strict=True))
    good = [all(_within((a + b) / 2, *wave) for wave in waves) for a, b in stretches]
    if all(good):
        yield 0.0, TAU
        return
    turn = good.index(False)
    for (a, _), kept in zip(
        [*stretches[turn:], *((a + TAU, b + TAU) for a, b in stretches[:turn])],
        good[turn:] + good[:turn],
        strict=True,
    ):
        if kept and start is None:
            start = a
        if not kept and start is not None:
            yield start, a
            start = None
    if start is not None:
        yield start, stretches[turn][0] + TAU


def _wave(wall: Cut, other: Cut) -> tuple[float, float]:
    """Lead and half width, radians, of the angles of a wall's circle that another cut keeps.

    There ``other.normal . point(angle) + other.depth`` is ``a cos + b sin + c`` > 0.
    """
    (x, y, z), (nx, ny, nz) = other.normal, wall.normal
    a = wall.reach * (x * wall.u[0] + y * wall.u[1] + z * wall.u[2])
    b = wall.reach * (x * wall.w[0] + y * wall.w[1] + z * wall.w[2])
    c = other.depth - wall.depth * (x * nx + y * ny + z * nz)
    swing = math.hypot(a, b)
    if swing <= abs(c):
        return 0.0, math.pi if c > 0 else 0.0
    return math.atan2(b, a), math.acos(-c / swing)


def _within(angle: float, lead: float, half: float) -> bool:
    return abs((angle - lead + math.pi) % TAU - math.pi) < half
