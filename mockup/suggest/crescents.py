"""Many crescents of one shape placed at once: one side of each, as both are alike.

Arrays carry the options last, so that every step works on long rows: (3, k, m) for the places of k
balloons in m options. A crescent is laid over 12 o'clock; turning it gives any other place.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import combinations, product

import numpy as np
from numpy.typing import NDArray

from mockup.packing.clusters import places
from mockup.packing.nesting import ClusterShape, next_turn
from mockup.suggest.space import Shape

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

# As the piece is tied: an end pair sits one in front and one behind.
_END_PAIR_TURN = 90.0
# Small clusters stand so near that balloons of clusters so many steps apart may touch.
_STEPS = 3
# Where crescents meet, balloons of clusters that are so many steps from both ends may touch.
ENDS = 3


@dataclass(frozen=True)
class Pairs:
    """Pairs (p,) of balloons i and j that may meet, j where ``flip`` (2, p) lays it.

    1 and -1 in ``flip``: a -1 of the first row stands for j's image on the other side of its
    crescent, one of the second for its image in the crescent opposite.
    """

    i: Ints
    j: Ints
    flip: Floats

    def only(self, which: Ints | NDArray[np.bool_]) -> Pairs:
        """Some of the pairs."""
        return Pairs(self.i[which], self.j[which], self.flip[:, which])


@dataclass(frozen=True)
class Body:
    """What settles together: k balloons on one side of a mirror, and the pairs that may touch.

    ``cluster`` (k,) is each balloon's cluster, ``phi`` (k,) its angle round the knot in radians,
    ``on_mirror`` (k,) whether it lies on the mirror and so is its own image, ``weight`` (k,) how
    many balloons of the piece it stands for.
    """

    cluster: Ints
    phi: Floats
    on_mirror: NDArray[np.bool_]
    weight: Floats
    touching: Pairs


@dataclass(frozen=True)
class Layout:
    """What is the same in all options of a shape.

    ``cluster`` (k,) is each balloon's cluster from the middle outward, ``phi`` (k,) its angle round
    the knot. ``touching`` are the pairs that may press each other, ``crossing`` those among them
    that are of different clusters.
    """

    shape: Shape
    turns: tuple[float, ...]
    cluster: Ints
    phi: Floats
    touching: Pairs
    crossing: Pairs

    @property
    def on_middle(self) -> int:
        """How many balloons lie on the mirror."""
        return self.shape.count if self.shape.middle else 0

    @property
    def body(self) -> Body:
        """One side of the crescent, for settling."""
        on_mirror = np.arange(len(self.phi)) < self.on_middle
        weight = np.where(on_mirror, 1.0, 2.0) * len(self.shape.places)
        return Body(self.cluster, self.phi, on_mirror, weight, self.touching)

    @property
    def ends(self) -> Ints:
        """Steps of each balloon's cluster from the outermost, (k,)."""
        steps: Ints = self.cluster[-1] - self.cluster
        return steps


@dataclass(frozen=True)
class Placed:
    """Crescents before they settle: ``centres`` and ``knots`` (3, k, m), ``radii`` (k, m), mm.

    ``along`` (c, m) is how far each knot lies from the middle along the tube's centre line.
    """

    centres: Floats
    knots: Floats
    radii: Floats
    along: Floats

    def only(self, which: Ints) -> Placed:
        """Some of the options."""
        return Placed(
            np.ascontiguousarray(self.centres[:, :, which]),
            np.ascontiguousarray(self.knots[:, :, which]),
            np.ascontiguousarray(self.radii[:, which]),
            self.along[:, which],
        )


def layout_of(shape: Shape) -> Layout:
    """The layout of a shape's crescents."""
    counts = [shape.count] * shape.length + ([shape.cap_count] if shape.has_cap else [])
    turns = _turns(shape, counts)
    cluster = np.repeat(np.arange(len(counts)), counts)
    phi = [p for n, t in zip(counts, turns, strict=True) for p in places(n, t)]
    touching = _pairs(cluster, shape, within=True)
    return Layout(
        shape, turns, cluster, np.radians(phi), touching, _pairs(cluster, shape, within=False)
    )


def _turns(shape: Shape, counts: list[int]) -> tuple[float, ...]:
    turns: list[float] = []
    for number, count in enumerate(counts):
        if number == shape.length and count == 2:
            turns.append(_END_PAIR_TURN)
        elif not number:
            turns.append(shape.turn_deg)
        else:
            turns.append(next_turn(ClusterShape(counts[number - 1], 1.0, turns[-1])))
    return tuple(turns)


def _pairs(cluster: Ints, shape: Shape, *, within: bool) -> Pairs:
    """Balloons of clusters a few steps apart, across the middle and the ends of crescents too."""
    every = range(len(cluster))
    found = [
        (i, j, 1, 1)
        for i, j in combinations(every, 2)
        if (within or cluster[i] != cluster[j]) and abs(int(cluster[i] - cluster[j])) <= _STEPS
    ]
    first, last = (1 if shape.middle else 0), int(cluster[-1])
    beyond = shape.beyond
    for i, j in product(every, every):
        steps = int(cluster[i]) + int(cluster[j]) + (0 if shape.middle else 1)
        if cluster[j] >= first and 0 < steps <= _STEPS:
            found.append((i, j, -1, 1))
        out = 2 * last - int(cluster[i]) - int(cluster[j])
        if beyond and min(cluster[i], cluster[j]) >= first and out <= ENDS:
            found.append((i, j, *beyond))
    return pairs_of(dict.fromkeys(found))


def pairs_of(rows: Iterable[tuple[int, int, int, int]]) -> Pairs:
    """Pairs from rows of i, j and both flips."""
    table = np.array(list(rows), dtype=np.intp).reshape(-1, 4).T
    return Pairs(table[0], table[1], table[2:].astype(np.float64))


def place(layout: Layout, diameters: Floats, radius: float, squeeze: float) -> Placed:
    """Place crescents of ``diameters`` (m, clusters) on a hoop of ``radius``, mm."""
    sizes = np.ascontiguousarray(diameters.T)
    along = np.cumsum(_gaps(layout, sizes, squeeze), axis=0)
    angle = along[layout.cluster] / radius
    out = np.stack([np.sin(angle), np.cos(angle)])
    across = sizes[layout.cluster] * _spreads(layout)[:, None]
    knots = np.zeros((3, *angle.shape))
    knots[:2] = radius * out
    centres = knots.copy()
    centres[:2] += across * np.cos(layout.phi)[:, None] * out
    centres[2] += across * np.sin(layout.phi)[:, None]
    centres[0, : layout.on_middle] = 0.0
    return Placed(centres, knots, sizes[layout.cluster] / 2, along)


def _spreads(layout: Layout) -> Floats:
    """Distance of each balloon's centre from its knot over its diameter, (k,)."""
    counts = np.bincount(layout.cluster)[layout.cluster]
    several = np.maximum(counts, 3)
    return np.where(counts < 3, 0.5, 1 / (2 * np.sin(np.pi / several)))


def _gaps(layout: Layout, sizes: Floats, squeeze: float) -> Floats:
    """From knot to knot, (clusters, m); the first is 0, or half a pitch without a middle."""
    gaps = np.zeros_like(sizes)
    if not layout.shape.middle:
        gaps[0] = _pitch(layout, sizes, (0, 0), squeeze) / 2
    for number in range(1, len(sizes)):
        gaps[number] = _pitch(layout, sizes, (number - 1, number), squeeze)
    return gaps


def _pitch(layout: Layout, sizes: Floats, two: tuple[int, int], squeeze: float) -> Floats:
    """The straight pitch of two clusters, as ``packing.nesting.pitch`` has it, (m,)."""
    one, other = (_rosette(layout, sizes, number) for number in two)
    return straight_pitch(one, other, squeeze)


@dataclass(frozen=True)
class Rosette:
    """A cluster seen along the tube: ``spots`` (2, k, m) about its knot, ``sizes`` (m,), mm."""

    spots: Floats
    sizes: Floats


def _rosette(layout: Layout, sizes: Floats, number: int) -> Rosette:
    own = np.flatnonzero(layout.cluster == number)
    ways = np.stack([np.cos(layout.phi[own]), np.sin(layout.phi[own])])
    return Rosette(
        ways[:, :, None] * (_spreads(layout)[own][:, None] * sizes[number]), sizes[number]
    )


def last_of(layout: Layout, diameters: Floats) -> Rosette:
    """The outermost cluster of crescents of ``diameters`` (m, clusters)."""
    return _rosette(layout, diameters.T, len(layout.turns) - 1)


def straight_pitch(one: Rosette, other: Rosette, squeeze: float) -> Floats:
    """The pitch at which two clusters nestle on a straight frame, (m,)."""
    across = one.spots[:, :, None] - other.spots[:, None]
    nearest = (across**2).sum(axis=0).min(axis=(0, 1))
    contact = (1 - squeeze) * (one.sizes + other.sizes) / 2
    return np.asarray(np.sqrt(np.maximum(0.0, contact**2 - nearest)))


def gaps_between(points: Floats, pairs: Pairs) -> Floats:
    """From the second to the first of each pair, (3, pairs, m)."""
    second = points[:, pairs.j]
    second[:2] *= pairs.flip[:, :, None]
    return points[:, pairs.i] - second


def worst_crossing(layout: Layout, placed: Placed) -> Floats:
    """The worst overlap of two clusters as a share of the smaller balloon, (m,)."""
    pairs = layout.crossing
    if not len(pairs.i):
        return np.zeros(placed.radii.shape[1])
    apart = np.sqrt((gaps_between(placed.centres, pairs) ** 2).sum(axis=0))
    a, b = placed.radii[pairs.i], placed.radii[pairs.j]
    shares: Floats = (a + b - apart) / (2 * np.minimum(a, b))
    return np.asarray(np.maximum(shares.max(axis=0), 0.0))
