"""Many options judged at once: what cannot stand is cut, cheap exact bounds before all else.

Whatever is cut by ``LENGTH``, ``CROSSING``, ``STEEP`` or a count is cut exactly, by the same
rule as in the full check. ``NUMERALS`` and ``SWING`` are cut after a coarse settling, with a margin
that is wider than what the full settling changes; what they leave is settled fully.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import pi

import numpy as np
from numpy.typing import NDArray

from mockup.design.model import Design
from mockup.design.wishes import Wishes
from mockup.packing.frames import Frame
from mockup.piece.assemble import filled_height, frame_of, panel_plane
from mockup.suggest.crescents import (
    Layout,
    Placed,
    Rosette,
    last_of,
    layout_of,
    place,
    straight_pitch,
    worst_crossing,
)
from mockup.suggest.easing import eased, swings
from mockup.suggest.rooms import NumeralMap, numeral_map, room, window_heights
from mockup.suggest.space import Options, Space, diameters_of

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
Bools = NDArray[np.bool_]

PASSES, LENGTH, CROSSING, BALLOONS, STOCK, COST, MINUTES, NUMERALS, SWING, STEEP = range(10)
"""Why an option is cut, in the order in which it is asked."""

ROOM_MARGIN = 8.0
"""Coarse and full settling agree on the numerals' room to within this, mm (see the tests)."""
FRONT_MARGIN = 16.0
"""The same for balloons in front, where the chosen shift of the row counts as well, mm."""
SWING_MARGIN = 12.0
_CROWDED = 0.5
_HAIR = 1e-9


@dataclass(frozen=True)
class Verdicts:
    """What became of m options: the reason (m,), the numerals' room (m,) mm and window height.

    ``room`` and ``window`` are nan for those that were cut before they were settled.
    """

    reason: Ints
    room: Floats
    window: Floats


@dataclass(frozen=True)
class Fixed:
    """What does not vary: balloons of the other sections, settled by themselves, (3, k) mm."""

    centres: Floats
    radii: Floats


class Judge:
    """Judges options of one design; built once, then asked of many batches."""

    def __init__(self, design: Design, wishes: Wishes, space: Space, fixed: Fixed) -> None:
        self.design, self.wishes, self.space, self.fixed = design, wishes, space, fixed
        self.frame = frame_of(design)
        self.radius = (design.frame.outside - design.frame.tube) / 2
        self.numerals = _numerals(design, self.frame)
        self.layouts: dict[int, tuple[Layout, ...]] = {}

    def layout(self, shape: int) -> tuple[Layout, ...]:
        """The layouts of a shape's crescents, one for each length; made once."""
        if shape not in self.layouts:
            parts = self.space.shapes[shape].alike
            self.layouts[shape] = tuple(layout_of(part) for part in parts)
        return self.layouts[shape]

    def __call__(self, options: Options) -> Verdicts:
        """The verdicts on a batch of options of one shape."""
        squeeze, most = self.design.limits.squeeze, self.design.limits.crossing
        crescents = []
        for layout in self.layout(options.shape):
            diameters = diameters_of(self.space, layout.shape, options.fills)
            placed = place(layout, diameters, self.radius, squeeze)
            crescents.append(_Crescents(layout, placed, last_of(layout, diameters)))
        reason = np.full(len(options.fills), PASSES)
        _cut(reason, self._too_steep(options), STEEP)
        _cut(reason, self._too_long(crescents), LENGTH)
        for own in crescents:
            _cut(reason, worst_crossing(own.layout, own.placed) > most + _HAIR, CROSSING)
        alive = np.flatnonzero(reason == PASSES)
        empty = np.full(len(reason), np.nan)
        verdicts = Verdicts(reason, empty, empty.copy())
        if len(alive):
            kept = [replace(own, placed=_only(own.placed, alive)) for own in crescents]
            self._settled(kept, alive, verdicts)
        return verdicts

    def _too_steep(self, options: Options) -> Bools:
        """Whether a cluster is smaller than the one before by more than is wished."""
        if self.wishes.most_step is None or options.fills.shape[1] < 2:
            return np.zeros(len(options.fills), dtype=np.bool_)
        own = self.space.diameters[options.fills]
        steps = (own[:, :-1] - own[:, 1:]).max(axis=1)
        return np.asarray(steps > self.wishes.most_step + _HAIR)

    def _too_long(self, crescents: Sequence[_Crescents]) -> Bools:
        """Whether a crescent meets itself, another one or an end of the frame."""
        stations = sorted(
            ((self.frame.s_at_deg(at), own) for own in crescents for at in own.layout.shape.places),
            key=lambda one: one[0],
        )
        (start, first), (stop, last) = stations[0], stations[-1]
        over = np.zeros(len(first.end), dtype=np.bool_)
        if self.frame.closed:
            stations.append((start + self.frame.length, first))
        else:
            over |= first.end > start + _HAIR
            over |= last.end > self.frame.length - stop + _HAIR
        for (s, one), (t, other) in pairwise(stations):
            pitch = straight_pitch(one.last, other.last, self.design.limits.squeeze)
            over |= t - s - one.end - other.end < _CROWDED * pitch - _HAIR
        return over

    def _settled(self, crescents: Sequence[_Crescents], which: Ints, verdicts: Verdicts) -> None:
        parts = []
        swung = np.zeros(len(which))
        for own in crescents:
            settled = eased(own.layout, own.placed)
            held = own.layout.cluster < own.layout.shape.length
            turned = swings(own.placed, settled)[held].max(axis=0, initial=0.0)
            swung = np.maximum(swung, turned)
            parts.append(_everywhere(own.layout, settled, own.placed.radii))
        still = np.repeat(self.fixed.centres[:, :, None], len(which), axis=2)
        same = np.repeat(self.fixed.radii[:, None], len(which), axis=1)
        xyz = np.concatenate([*(xyz for xyz, _ in parts), still], axis=1)
        self._measure(xyz, np.concatenate([*(r for _, r in parts), same]), which, verdicts)
        reason = verdicts.reason[which]
        _cut(reason, self._no_room(verdicts.room[which]), NUMERALS)
        _cut(reason, swung > self.design.limits.swing_deg + SWING_MARGIN, SWING)
        verdicts.reason[which] = reason

    def _measure(self, xyz: Floats, radii: Floats, which: Ints, verdicts: Verdicts) -> None:
        panel = self.design.panel
        if panel is None or self.numerals is None:
            return
        opening = self.frame.opening(panel.place)
        if opening is None:
            return
        plane = panel_plane(panel, self.frame)
        xy = xyz[:2] - np.array(opening[:2])[:, None, None]
        away = np.maximum(0.0, np.abs(xyz[2] - plane) - panel.thickness / 2)
        blocked = np.sqrt(np.maximum(0.0, radii**2 - away**2))
        front = np.where(xyz[2] > plane, radii, 0.0)
        found = room(self.numerals, xy, blocked, front)
        # Numerals that may tuck behind a balloon in front are held by what blocks them alone.
        clear = found.front > FRONT_MARGIN
        spare = np.minimum(found.solid, found.front + FRONT_MARGIN - ROOM_MARGIN)
        verdicts.room[which] = np.where(clear, spare, found.solid)
        verdicts.window[which] = window_heights(opening[2], xy, np.maximum(blocked, front))

    def _no_room(self, rooms: Floats) -> Bools:
        return np.asarray(~np.isnan(rooms) & (rooms < self.wishes.room - ROOM_MARGIN))


@dataclass(frozen=True)
class _Crescents:
    """The crescents of one length: how they lie, and the cluster that each ends in."""

    layout: Layout
    placed: Placed
    last: Rosette

    @property
    def end(self) -> Floats:
        """From the middle to the last knot along the tube, (m,) mm."""
        along: Floats = self.placed.along[-1]
        return along


def _everywhere(layout: Layout, settled: Floats, radii: Floats) -> tuple[Floats, Floats]:
    """All balloons of crescents that are alike: both sides of each, at each of their places."""
    mirrored = settled[:, layout.on_middle :] * np.array([-1.0, 1.0, 1.0])[:, None, None]
    whole = np.concatenate([settled, mirrored], axis=1)
    sizes = np.concatenate([radii, radii[layout.on_middle :]])
    turned = [_turned(whole, at) for at in layout.shape.places]
    return np.concatenate(turned, axis=1), np.concatenate([sizes] * len(turned))


def _cut(reason: Ints, where: Bools, why: int) -> None:
    reason[(reason == PASSES) & where] = why


def _only(placed: Placed, which: Ints) -> Placed:
    return Placed(
        np.ascontiguousarray(placed.centres[:, :, which]),
        np.ascontiguousarray(placed.knots[:, :, which]),
        np.ascontiguousarray(placed.radii[:, which]),
        placed.along[:, which],
    )


def _turned(points: Floats, degrees: float) -> Floats:
    """Points (3, k, m) turned clockwise about the middle of the ring."""
    angle = degrees * pi / 180
    x = points[0] * np.cos(angle) + points[1] * np.sin(angle)
    y = points[1] * np.cos(angle) - points[0] * np.sin(angle)
    return np.stack([x, y, points[2]])


def _numerals(design: Design, frame: Frame) -> NumeralMap | None:
    panel = design.panel
    opening = frame.opening(panel.place) if panel else None
    if panel is None or opening is None:
        return None
    height = filled_height(panel, design.limits.foil_shrink)
    return numeral_map(
        panel.text, height, panel.widths, panel.gap, radius=opening[2], raised=panel.raised
    )
