"""Bends of a frame against the balloons on them: how they cross there, and what would work."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from mockup.packing.clusters import offsets
from mockup.packing.frames import Frame
from mockup.packing.nesting import ClusterShape, crossing, next_turn, pitch
from mockup.piece.placed import Cluster, Piece
from mockup.records import dataclass

Floats = NDArray[np.float64]

# How finely a frame is looked along, clusters to each side of a bend, halvings of a fill.
_LOOKS, _AROUND, _HALVINGS = 360, 3, 12
_LEAST = 12.7


@dataclass(frozen=True)
class Bend:
    """The tightest bend under a run of clusters, at ``s`` mm: ``radius`` 0 for a sharp corner.

    ``crossing`` is the worst overlap round it as a share of a balloon, ``largest`` the fill (mm)
    at which it would keep to the limit.
    """

    s: float
    radius: float
    cluster: int
    crossing: float
    largest: float


def tightest_bend(piece: Piece) -> Bend | None:
    """The bend at which clusters cross most, of every place bent as tightly as any; or None."""
    found = [_judged(piece, s, bent) for s, bent in _tight_places(piece)]
    return max((each for each in found if each), key=lambda bend: bend.crossing, default=None)


def _tight_places(piece: Piece) -> Iterator[tuple[float, float]]:
    """Arc length and curvature (1/mm; infinite for a corner) of the frame's tightest places."""
    frame = piece.frame
    for at, _ in getattr(frame, "corners", ()):
        yield at, np.inf
    marks = np.linspace(0.0, frame.length, _LOOKS, endpoint=not frame.closed)
    bent = np.abs([frame.bend(s) for s in marks.tolist()])
    if bent.max() > 0:
        tight = np.flatnonzero(bent >= 0.999 * bent.max())
        for run in np.split(tight, np.flatnonzero(np.diff(tight) > 1) + 1):
            middle = run[len(run) // 2]
            yield float(marks[middle]), float(bent[middle])


def _judged(piece: Piece, s: float, bent: float) -> Bend | None:
    near = _nearest(piece, s)
    if near is None:
        return None
    squeeze, limit = piece.design.limits.squeeze, piece.design.limits.crossing
    radius = 0.0 if np.isinf(bent) else 1.0 / bent
    worst = crossing_at(piece.frame, s, _shape(near, near.diameter), squeeze)
    low, high = _LEAST, near.diameter
    for _ in range(_HALVINGS if worst > limit else 0):
        mid = (low + high) / 2
        fits = crossing_at(piece.frame, s, _shape(near, mid), squeeze) <= limit
        low, high = (mid, high) if fits else (low, mid)
    return Bend(s, radius, near.index, worst, low if worst > limit else near.diameter)


def _shape(cluster: Cluster, diameter: float) -> ClusterShape:
    return ClusterShape(len(cluster.balloons), diameter, cluster.turn_deg)


def _nearest(piece: Piece, s: float) -> Cluster | None:
    """The cluster whose knot is nearest to the bend, where its balloons reach the bend at all."""
    x, y = piece.frame.at(s)

    def off(cluster: Cluster) -> float:
        return float(np.hypot(cluster.knot[0] - x, cluster.knot[1] - y))

    near = min((c for c in piece.clusters if not c.on), key=off, default=None)
    return near if near and off(near) <= near.diameter else None


def crossing_at(frame: Frame, s: float, shape: ClusterShape, squeeze: float) -> float:
    """The worst overlap of clusters of one shape stepped over ``s``, as a share of a diameter.

    They are laid with a cluster on the place and with one to each side of it.

    >>> from mockup.packing.frames import Ring
    >>> round(crossing_at(Ring(813.0, 13.0), 0.0, ClusterShape(4, 100.0, 45.0), 0.1), 2)
    0.18
    """
    turned = ClusterShape(shape.count, shape.diameter, next_turn(shape))
    step = max(pitch(shape, turned, squeeze), 0.05 * shape.diameter)
    return max(_crossing(frame, s + off * step, (shape, turned), step) for off in (0.0, 0.5))


def _crossing(
    frame: Frame, s: float, shapes: tuple[ClusterShape, ClusterShape], step: float
) -> float:
    steps = range(-_AROUND, _AROUND + 1)
    knots = [s + k * step for k in steps]
    laid = [(k, at) for k, at in zip(steps, knots, strict=True) if _on(frame, at)]
    centres = [_centres(frame, at, shapes[k % 2]) for k, at in laid]
    count = shapes[0].count
    owners = np.repeat(np.arange(len(laid)), count)
    if not centres:
        return 0.0
    return crossing(np.vstack(centres), np.full(len(owners), shapes[0].diameter), owners)[0]


def _on(frame: Frame, s: float) -> bool:
    return frame.closed or 0.0 <= s <= frame.length


def _centres(frame: Frame, s: float, shape: ClusterShape) -> Floats:
    (x, y), (nx, ny) = frame.at(s), frame.normal(s)
    spread = offsets(shape.count, shape.diameter, shape.turn_deg)
    axes = np.array([[nx, ny, 0.0], [0.0, 0.0, 1.0]])
    return np.asarray(np.array([x, y, 0.0]) + spread @ axes)
