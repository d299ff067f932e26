"""Many options judged at once: what cannot stand is cut, cheap exact bounds before all else.

Whatever is cut by ``LENGTH``, ``CROSSING``, ``STEEP`` or a count is cut exactly, by the same
rule as in the full check. ``NUMERALS`` and ``SWING`` are cut after a coarse settling, with a margin
that is wider than what the full settling changes; what they leave is settled fully.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import pi

import numpy as np
from numpy.typing import NDArray

from mockup.design.model import Design
from mockup.design.wishes import Wishes
from mockup.packing.frames import Frame
from mockup.piece.assemble import filled_height, frame_of, panel_plane
from mockup.suggest.crescents import Layout, Placed, layout_of, place, worst_crossing
from mockup.suggest.easing import eased, swings
from mockup.suggest.rooms import NumeralMap, numeral_map, room, window_heights
from mockup.suggest.space import Options, Shape, Space, diameters_of

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
        self.layouts: dict[int, Layout] = {}

    def layout(self, shape: int) -> Layout:
        """The layout of a shape, made once."""
        if shape not in self.layouts:
            self.layouts[shape] = layout_of(self.space.shapes[shape])
        return self.layouts[shape]

    def __call__(self, options: Options) -> Verdicts:
        """The verdicts on a batch of options of one shape."""
        shape, layout = self.space.shapes[options.shape], self.layout(options.shape)
        diameters = diameters_of(self.space, shape, options.fills)
        placed = place(layout, diameters, self.radius, self.design.limits.squeeze)
        reason = np.full(len(diameters), PASSES)
        _cut(reason, self._too_steep(options), STEEP)
        _cut(reason, self._too_long(shape, placed), LENGTH)
        crossing = worst_crossing(layout, placed)
        _cut(reason, crossing > self.design.limits.crossing + _HAIR, CROSSING)
        alive = np.flatnonzero(reason == PASSES)
        empty = np.full(len(diameters), np.nan)
        verdicts = Verdicts(reason, empty, empty.copy())
        if len(alive):
            self._settled(layout, _only(placed, alive), alive, verdicts)
        return verdicts

    def _too_steep(self, options: Options) -> Bools:
        """Whether a cluster is smaller than the one before by more than is wished."""
        if self.wishes.most_step is None or options.fills.shape[1] < 2:
            return np.zeros(len(options.fills), dtype=np.bool_)
        own = self.space.diameters[options.fills]
        steps = (own[:, :-1] - own[:, 1:]).max(axis=1)
        return np.asarray(steps > self.wishes.most_step + _HAIR)

    def _too_long(self, shape: Shape, placed: Placed) -> Bools:
        """Whether a crescent meets itself, another one or an end of the frame."""
        end = placed.along[-1]
        needed = _CROWDED * (1 - self.design.limits.squeeze) * 2 * placed.radii[-1]
        over = np.zeros(len(end), dtype=np.bool_)
        stations = sorted(self.frame.s_at_deg(at) for at in shape.places)
        if self.frame.closed:
            around = [*stations, stations[0] + self.frame.length]
        else:
            around = stations
            over |= end > stations[0] + _HAIR
            over |= end > self.frame.length - stations[-1] + _HAIR
        for one, other in pairwise(around):
            over |= other - one - 2 * end < needed - _HAIR
        return over

    def _settled(self, layout: Layout, placed: Placed, which: Ints, verdicts: Verdicts) -> None:
        settled = eased(layout, placed)
        caps = layout.shape.length if layout.shape.has_cap else len(layout.turns)
        held = layout.cluster < caps
        swung = swings(placed, settled)[held].max(axis=0, initial=0.0)
        xyz, radii = self._everywhere(layout, settled, placed.radii)
        self._measure(xyz, radii, which, verdicts)
        reason = verdicts.reason[which]
        _cut(reason, self._no_room(verdicts.room[which]), NUMERALS)
        _cut(reason, swung > self.design.limits.swing_deg + SWING_MARGIN, SWING)
        verdicts.reason[which] = reason

    def _everywhere(self, layout: Layout, settled: Floats, radii: Floats) -> tuple[Floats, Floats]:
        """All balloons of the piece: both sides of each crescent at each place, and the fixed."""
        mirrored = settled[:, layout.on_middle :] * np.array([-1.0, 1.0, 1.0])[:, None, None]
        whole = np.concatenate([settled, mirrored], axis=1)
        sizes = np.concatenate([radii, radii[layout.on_middle :]])
        turned = [_turned(whole, at) for at in layout.shape.places]
        options = settled.shape[2]
        still = np.repeat(self.fixed.centres[:, :, None], options, axis=2)
        same = np.repeat(self.fixed.radii[:, None], options, axis=1)
        return (
            np.concatenate([*turned, still], axis=1),
            np.concatenate([*[sizes] * len(turned), same]),
        )

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
