"""Where the crescents of many options lie on their frame: placed, settled, and met by others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

from mockup.packing.balancing import REACH
from mockup.packing.settling import settle
from mockup.suggest.crescents import ENDS, Body, Layout, Placed, Rosette, pairs_of
from mockup.suggest.easing import swings
from mockup.suggest.meeting import (
    Lain,
    all_placed,
    apart_again,
    crossing_between,
    fully,
    near,
    one_body,
    within,
)
from mockup.suggest.remembering import Memory
from mockup.suggest.space import Shape, Space
from mockup.suggest.springs import SKIN

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
Bools = NDArray[np.bool_]

# Ends whose knots are further apart than this share of their balloons do not meet.
_APART = 2.0


@dataclass(frozen=True)
class Fixed:
    """What does not vary: k balloons of the other sections, mm.

    ``placed`` and ``knots`` (3, k), ``radii`` (k,), ``cluster`` (k,) the number of each one's own.
    """

    placed: Floats
    knots: Floats
    radii: Floats
    cluster: Ints

    @property
    def body(self) -> Body:
        """It moves with the crescents, each balloon for itself."""
        k = len(self.radii)
        apart = np.sqrt(((self.placed[:, :, None] - self.placed[:, None]) ** 2).sum(axis=0))
        reach = (1 + SKIN) * (self.radii[:, None] + self.radii)
        near = np.argwhere(np.triu(apart < reach, 1)).tolist()
        out = self.knots / np.maximum(np.sqrt((self.knots**2).sum(axis=0)), 1e-9)
        neck = self.placed - self.knots
        phi = np.arctan2(neck[2], (neck * out).sum(axis=0))
        rows = pairs_of((i, j, 1, 1) for i, j in near)
        return Body(self.cluster, phi, np.zeros(k, dtype=np.bool_), np.ones(k), rows)

    @cached_property
    def settled(self) -> Floats:
        """Where they lie by themselves, (3, k)."""
        return settle(self.placed.T, 2 * self.radii, self.knots.T).centres.T

    def times(self, options: int) -> Placed:
        """The same for every option."""
        placed, knots = (
            np.repeat(rows[:, :, None], options, axis=2) for rows in (self.placed, self.knots)
        )
        return Placed(placed, knots, np.repeat(self.radii[:, None], options, axis=1), placed[0])


@dataclass(frozen=True)
class Crescents:
    """The crescents of one length: how they lie, and the cluster that each ends in."""

    layout: Layout
    placed: Placed
    last: Rosette

    @property
    def end(self) -> Floats:
        """From the middle to the last knot along the tube, (m,) mm."""
        along: Floats = self.placed.along[-1]
        return along

    @property
    def reach(self) -> Floats:
        """How far along the tube from its last knot another end may be for them to meet, (m,)."""
        widest: Floats = self.placed.radii[self.layout.ends <= 1].max(axis=0)
        return _APART * widest

    def only(self, which: Ints) -> Crescents:
        """Some of the options."""
        return replace(self, placed=self.placed.only(which))

    def everywhere(self, points: Floats, kept: Bools | None = None) -> list[Lain]:
        """Both sides of ``points`` (3, k, m), or of those ``kept`` (k,), at each place."""
        mine = np.ones(len(self.layout.phi), dtype=np.bool_) if kept is None else kept
        twice = mine & ~self.layout.body.on_mirror
        mirrored = points[:, twice] * np.array([-1.0, 1.0, 1.0])[:, None, None]
        whole = np.concatenate([points[:, mine], mirrored], axis=1)
        radii = np.concatenate([self.placed.radii[mine], self.placed.radii[twice]])
        return [Lain(_turned(whole, at), radii) for at in self.layout.shape.places]

    def ends(self, points: Floats) -> list[Lain]:
        """Of both ends at each place the balloons that may meet others."""
        return self.everywhere(points, self.layout.ends <= ENDS)


def _turned(points: Floats, degrees: float) -> Floats:
    """Points (3, k, m) turned clockwise about the middle of the ring."""
    across, up = cos(radians(degrees)), sin(radians(degrees))
    x = points[0] * across + points[1] * up
    y = points[1] * across - points[0] * up
    return np.stack([x, y, points[2]])


class Settling:
    """Settles options of one design: crescents by themselves, and as one where they meet."""

    def __init__(self, space: Space, fixed: Fixed) -> None:
        self.fixed = fixed
        self.memory = Memory(space.shapes)
        self.bodies: dict[Shape, Body] = {}

    def crossing(self, shape: Shape, crescents: Sequence[Crescents], tight: Bools) -> Floats:
        """The worst crossing of different sections before they settle, (m,)."""
        worst = np.zeros(len(tight))
        apart = shape.facing and shape.beyond is None
        which = np.flatnonzero(tight) if apart else self._asked(shape, tight)
        if len(which):
            own = [each.only(which) for each in crescents]
            points = [each.placed.centres for each in own]
            still = self.fixed.times(len(which)).centres
            worst[which] = crossing_between(self._ends(own, [*points, still]))
        return worst

    def __call__(
        self, shape: Shape, crescents: Sequence[Crescents], fills: Ints, tight: Bools
    ) -> tuple[Lain, Floats]:
        """All balloons where they lie, (3, k, m), and the largest swing of each option, (m,).

        ``fills`` (m, length) are those of the longest crescents, ``tight`` (m,) says whose ends
        come near one another.
        """
        settled = self._settled(shape, crescents, fills, self._linked(crescents, tight))
        swung = np.max(list(map(_swung, crescents, settled)), axis=0)
        every = self._everything(crescents, settled)
        which = self._meeting(shape, crescents, settled, tight)
        if len(which):
            self._fully([own.only(which) for own in crescents], which, every, swung)
        return every, swung

    def _linked(self, crescents: Sequence[Crescents], tight: Bools) -> Bools:
        """Which options the full settling moves as one, as no gap parts what is in them, (m,)."""
        linked = np.zeros(len(tight), dtype=np.bool_)
        which = np.arange(len(tight)) if len(self.fixed.radii) else np.flatnonzero(tight)
        if not len(which):
            return linked
        own = [each.only(which) for each in crescents]
        still = self.fixed.times(len(which)).centres
        ends = self._ends(own, [*(each.placed.centres for each in own), still])
        linked[which] = within(ends, REACH * self._mean_diameter(own))
        return linked

    def _mean_diameter(self, crescents: Sequence[Crescents]) -> Floats:
        weights = np.concatenate([own.layout.body.weight for own in crescents])
        radii = np.concatenate([own.placed.radii for own in crescents])
        still = self.fixed.radii.sum()
        mean: Floats = 2 * (weights @ radii + still) / (weights.sum() + len(self.fixed.radii))
        return mean

    def _settled(
        self, shape: Shape, crescents: Sequence[Crescents], fills: Ints, linked: Bools
    ) -> list[Floats]:
        """Where the crescents of each length lie, over 12 o'clock, and the fixed ones."""
        if len(crescents) == 1 and not len(self.fixed.radii):
            (own,) = crescents
            lain = self.memory.settled(shape, own.layout.body, own.placed, fills)
            return [lain, self.fixed.times(len(fills)).centres]
        settled = [np.empty_like(own.placed.centres) for own in crescents]
        settled.append(np.empty((3, len(self.fixed.radii), len(fills))))
        for way, which in (
            (self._as_one, np.flatnonzero(linked)),
            (self._each_alone, np.flatnonzero(~linked)),
        ):
            if len(which):
                some = [each.only(which) for each in crescents]
                for whole, part in zip(settled, way(shape, some, fills[which]), strict=True):
                    whole[:, :, which] = part
        return settled

    def _as_one(self, shape: Shape, crescents: Sequence[Crescents], fills: Ints) -> list[Floats]:
        layouts = [own.layout for own in crescents]
        if shape not in self.bodies:
            self.bodies[shape] = one_body(layouts, self.fixed.body, facing=shape.facing)
        placed = [*(own.placed for own in crescents), self.fixed.times(len(fills))]
        whole = all_placed(placed, facing=shape.facing)
        lain = self.memory.settled(shape, self.bodies[shape], whole, fills)
        return apart_again(lain, layouts, facing=shape.facing)

    def _each_alone(
        self, shape: Shape, crescents: Sequence[Crescents], fills: Ints
    ) -> list[Floats]:
        lain = [
            self.memory.settled(part, own.layout.body, own.placed, fills[:, : part.length])
            for part, own in zip(shape.alike, crescents, strict=True)
        ]
        return [*lain, np.repeat(self.fixed.settled[:, :, None], len(fills), axis=2)]

    def _asked(self, shape: Shape, tight: Bools) -> Ints:
        """The options whose crescents may meet what the springs of their body do not know of."""
        if len(self.fixed.radii):
            return np.arange(len(tight))
        known = shape.facing or len(shape.places) == 1
        return np.flatnonzero(tight & (not known))

    def _meeting(
        self, shape: Shape, crescents: Sequence[Crescents], settled: list[Floats], tight: Bools
    ) -> Ints:
        which = self._asked(shape, tight)
        if not len(which):
            return which
        own = [each.only(which) for each in crescents]
        before = [*(each.placed.centres for each in own), self.fixed.times(len(which)).centres]
        after = [points[:, :, which] for points in settled]
        met = near(self._ends(own, before), placed=True)
        return which[met | near(self._ends(own, after), placed=False)]

    def _ends(self, crescents: Sequence[Crescents], points: Sequence[Floats]) -> list[Lain]:
        """What may meet: the ends of every crescent, and what is fixed."""
        groups = [end for own, at in zip(crescents, points, strict=False) for end in own.ends(at)]
        if len(self.fixed.radii):
            groups.append(self._still(points[-1]))
        return groups

    def _still(self, points: Floats) -> Lain:
        return Lain(points, np.repeat(self.fixed.radii[:, None], points.shape[2], axis=1))

    def _everything(self, crescents: Sequence[Crescents], points: Sequence[Floats]) -> Lain:
        """All balloons in their places, from those of each length and the fixed ones."""
        own = zip(crescents, points, strict=False)
        every = [lain for each, at in own for lain in each.everywhere(at)]
        every.append(self._still(points[-1]))
        xyz = np.concatenate([lain.xyz for lain in every], axis=1)
        return Lain(xyz, np.concatenate([lain.radii for lain in every]))

    def _fully(
        self, crescents: Sequence[Crescents], which: Ints, lain: Lain, swung: Floats
    ) -> None:
        """These options as whole pieces."""
        every = [*(own.placed for own in crescents), self.fixed.times(len(which))]
        placed = self._everything(crescents, [each.centres for each in every])
        knots = self._everything(crescents, [each.knots for each in every])
        lain.xyz[:, :, which], turned = fully(placed, knots.xyz)
        held = np.concatenate([_held(own.layout) for own in crescents])
        swung[which] = turned[: len(held)][held].max(axis=0, initial=0.0)


def _swung(own: Crescents, settled: Floats) -> Floats:
    held = own.layout.cluster < own.layout.shape.length
    return np.asarray(swings(own.placed, settled)[held].max(axis=0, initial=0.0))


def _held(layout: Layout) -> Bools:
    """Which balloons of crescents in all their places are not of an end cap."""
    one = layout.cluster < layout.shape.length
    both = np.concatenate([one, one[~layout.body.on_mirror]])
    return np.tile(both, len(layout.shape.places))
