"""Everything that may be chosen: shapes of a crescent, and the fills of its clusters."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations_with_replacement, product
from math import comb, isclose

import numpy as np
from numpy.typing import NDArray

from mockup.design.model import KIND_COUNTS, Design
from mockup.design.wishes import Cap, Wishes, first_cluster
from mockup.errors import Fault, FaultsFound

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

MOST_OPTIONS = 1_000_000
"""More than these are not looked at one by one unless a bounded search is asked for."""
_HALF = 0.5 ** (1 / 3)


@dataclass(frozen=True)
class Shape:
    """What a crescent is but for its fills: clusters a side, turn, end cap, and its places.

    ``sides`` are the clusters a side of each crescent, ``places`` the angles at which they sit.
    Shorter ones share the taper of the longest, and end sooner. ``middle`` says whether a cluster
    sits on the middle; ``count`` and ``cap_count`` are balloons a cluster.
    """

    sides: tuple[int, ...]
    middle: bool
    count: int
    turn_deg: float
    cap: Cap
    cap_count: int
    places: tuple[float, ...]

    @property
    def a_side(self) -> int:
        """Clusters a side of the longest crescent."""
        return max(self.sides)

    @property
    def alike(self) -> tuple[Shape, ...]:
        """The crescents of each length as a shape of their own, the longest first."""
        lengths = sorted(set(self.sides), reverse=True)
        return tuple(self._of_length(length) for length in lengths)

    def _of_length(self, length: int) -> Shape:
        both = zip(self.sides, self.places, strict=True)
        places = tuple(place for own, place in both if own == length)
        return replace(self, sides=(length,) * len(places), places=places)

    @property
    def facing(self) -> bool:
        """Whether it is two crescents that face each other across the ring."""
        if len(self.places) != 2:
            return False
        return isclose((self.places[0] - self.places[1]) % 360, 180.0, abs_tol=1e-6)

    @property
    def beyond(self) -> tuple[int, int] | None:
        """The flip of what lies beyond a crescent's end: itself, or one alike that faces it.

        None where neither is its image across one of the two mirrors.
        """
        if len(self.places) == 1:
            return (-1, 1)
        return (1, -1) if self.facing and self.sides[0] == self.sides[1] else None

    @property
    def length(self) -> int:
        """How many fills are chosen: the clusters from the middle outward."""
        return self.a_side + int(self.middle)

    @property
    def has_cap(self) -> bool:
        """Whether an end cap closes each side."""
        return self.cap is not None

    @property
    def balloons(self) -> int:
        """Balloons of all its crescents."""
        cap = self.cap_count if self.has_cap else 0
        each = 2 * cap + self.count * int(self.middle)
        return 2 * self.count * sum(self.sides) + each * len(self.sides)


@dataclass(frozen=True)
class Space:
    """The shapes in order, and the diameters (mm) that a cluster may have, the largest first."""

    shapes: tuple[Shape, ...]
    diameters: Floats

    def size(self, shape: Shape) -> int:
        """How many ways there are to fill a shape's clusters, never growing outward."""
        return comb(len(self.diameters) + shape.length - 1, shape.length)

    @property
    def total(self) -> int:
        """All options together."""
        return sum(self.size(shape) for shape in self.shapes)


@dataclass(frozen=True)
class Options:
    """Options of one shape: ``fills`` (m, length) are places in the diameters, outward."""

    shape: int
    fills: Ints


def space_of(design: Design, wishes: Wishes) -> Space:
    """The space that the wishes leave open; raises ``FaultsFound`` where it is empty."""
    section = next(s for s in design.sections if s.name == wishes.sections[0])
    spec = first_cluster(section)
    cap_spec = section.end_right
    cap_count = cap_spec.count if cap_spec else KIND_COUNTS["pair"]
    has_middle = section.middle is not None
    shapes = tuple(
        Shape(sides, has_middle, spec.count, turn, cap, cap_count, places)
        for places in wishes.places
        for turn in wishes.turns
        for cap in wishes.caps
        for sides in _lengths(wishes, places)
        if min(sides) + int(has_middle) > 0
    )
    if not shapes:
        what = "the wishes leave nothing to choose from"
        where = design.where(("wishes", "a_side"))
        raise FaultsFound([Fault(where, what, "allow at least one cluster a side")])
    return Space(shapes, np.array([fill.diameter for fill in wishes.fills]))


def _lengths(wishes: Wishes, places: tuple[float, ...]) -> Iterator[tuple[int, ...]]:
    """Clusters a side of the crescent at each place; those that mirror each other are alike."""
    least, most = wishes.a_side
    if wishes.alike:
        yield from ((each,) * len(places) for each in range(least, most + 1))
        return
    pairs = [round(min(place % 360, -place % 360), 6) for place in places]
    own = list(dict.fromkeys(pairs))
    for chosen in product(range(least, most + 1), repeat=len(own)):
        yield tuple(chosen[own.index(pair)] for pair in pairs)


def every_option(space: Space, most: int | None = None) -> list[Options]:
    """All options by shape, or about ``most`` of them, spread evenly over the whole space."""
    every = 1 if most is None or space.total <= most else -(-space.total // most)
    return [Options(n, _sequences(space, shape, every)) for n, shape in enumerate(space.shapes)]


def _sequences(space: Space, shape: Shape, every: int) -> Ints:
    """Each ``every``-th way to fill a shape, (m, length)."""
    size, kinds = space.size(shape), len(space.diameters)
    if every == 1:
        runs = combinations_with_replacement(range(kinds), shape.length)
        flat = np.fromiter((i for run in runs for i in run), dtype=np.intp)
        return flat.reshape(-1, shape.length)
    return np.array(
        [unranked(rank, kinds, shape.length) for rank in range(0, size, every)], dtype=np.intp
    ).reshape(-1, shape.length)


def unranked(rank: int, kinds: int, length: int) -> list[int]:
    """The ``rank``-th sequence of ``length`` from ``kinds`` that never falls, in order.

    >>> [unranked(rank, 3, 2) for rank in range(6)]
    [[0, 0], [0, 1], [0, 2], [1, 1], [1, 2], [2, 2]]
    """
    found: list[int] = []
    first = 0
    for left in range(length - 1, -1, -1):
        for each in range(first, kinds):
            held = comb(kinds - each + left - 1, left)
            if rank < held:
                found.append(each)
                first = each
                break
            rank -= held
    return found


def diameters_of(space: Space, shape: Shape, fills: Ints) -> Floats:
    """The diameters from the middle outward with the end cap's last, (m, clusters) mm.

    Of crescents that are alike; ``fills`` may go on further than they do.
    """
    own = space.diameters[fills[:, : shape.length]]
    if shape.cap is None:
        return own
    cap = own[:, -1:] * _HALF if shape.cap == "half" else np.full((len(own), 1), shape.cap.diameter)
    return np.hstack([own, cap])


def front_area(space: Space, shape: Shape, fills: Ints) -> Floats:
    """The discs of all balloons together, (m,) mm^2: how full a design looks."""
    total = np.zeros(len(fills))
    for part in shape.alike:
        squares = diameters_of(space, part, fills) ** 2 * np.pi / 4
        total += len(part.places) * (squares * _weights(part)).sum(axis=1)
    return total


def _weights(shape: Shape) -> Floats:
    """Balloons of each cluster and its mirror image."""
    weights = np.full(shape.length + int(shape.has_cap), 2.0 * shape.count)
    if shape.middle:
        weights[0] = shape.count
    if shape.has_cap:
        weights[-1] = 2.0 * shape.cap_count
    return weights


def roughness(space: Space, fills: Ints) -> Floats:
    """How uneven a taper's steps are, (m,) mm: the largest step outward less the smallest."""
    own = space.diameters[fills]
    if own.shape[1] < 3:
        return np.zeros(len(own))
    steps = own[:, :-1] - own[:, 1:]
    return np.asarray(steps.max(axis=1) - steps.min(axis=1))


def chunks(length: int, size: int) -> Iterator[slice]:
    """Slices of at most ``size`` that cover ``length``."""
    yield from (slice(start, min(length, start + size)) for start in range(0, length, size))
