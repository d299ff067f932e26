"""Many options judged at once: what cannot stand is cut, cheap exact bounds before all else.

Whatever is cut by ``LENGTH``, ``CROSSING``, ``STEEP`` or a count is cut exactly, by the same
rule as in the full check. ``NUMERALS`` and ``SWING`` are cut after a coarse settling, with a margin
that is wider than what the full settling changes; what they leave is settled fully.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from mockup.design.model import Design
from mockup.design.wishes import Wishes
from mockup.packing.frames import Frame
from mockup.piece.assemble import filled_height, frame_of, panel_plane
from mockup.suggest.crescents import (
    Layout,
    last_of,
    layout_of,
    place,
    straight_pitch,
    worst_crossing,
)
from mockup.suggest.lying import Crescents, Fixed, Settling
from mockup.suggest.meeting import Lain
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
SWING_MARGIN = 3.0
"""The same for the largest swing, degrees."""
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


class Judge:
    """Judges options of one design; built once, then asked of many batches."""

    def __init__(self, design: Design, wishes: Wishes, space: Space, fixed: Fixed) -> None:
        self.design, self.wishes, self.space = design, wishes, space
        self.frame = frame_of(design)
        self.radius = (design.frame.outside - design.frame.tube) / 2
        self.numerals = _numerals(design, self.frame)
        self.layouts: dict[int, tuple[Layout, ...]] = {}
        self.settling = Settling(space, fixed)

    def layout(self, shape: int) -> tuple[Layout, ...]:
        """The layouts of a shape's crescents, one for each length; made once."""
        if shape not in self.layouts:
            parts = self.space.shapes[shape].alike
            self.layouts[shape] = tuple(layout_of(part) for part in parts)
        return self.layouts[shape]

    def __call__(self, options: Options) -> Verdicts:
        """The verdicts on a batch of options of one shape."""
        squeeze, most = self.design.limits.squeeze, self.design.limits.crossing
        shape = self.space.shapes[options.shape]
        crescents = []
        for layout in self.layout(options.shape):
            diameters = diameters_of(self.space, layout.shape, options.fills)
            placed = place(layout, diameters, self.radius, squeeze)
            crescents.append(Crescents(layout, placed, last_of(layout, diameters)))
        reason = np.full(len(options.fills), PASSES)
        _cut(reason, self._too_steep(options), STEEP)
        over, tight = self._too_long(crescents)
        _cut(reason, over, LENGTH)
        for own in crescents:
            _cut(reason, worst_crossing(own.layout, own.placed) > most + _HAIR, CROSSING)
        tight &= reason == PASSES
        _cut(reason, self.settling.crossing(shape, crescents, tight) > most + _HAIR, CROSSING)
        alive = np.flatnonzero(reason == PASSES)
        empty = np.full(len(reason), np.nan)
        verdicts = Verdicts(reason, empty, empty.copy())
        if len(alive):
            kept = [own.only(alive) for own in crescents]
            lain, swung = self.settling(shape, kept, options.fills[alive], tight[alive])
            self._weigh(lain, swung, alive, verdicts)
        return verdicts

    def _too_steep(self, options: Options) -> Bools:
        """Whether a cluster is smaller than the one before by more than is wished."""
        if self.wishes.most_step is None or options.fills.shape[1] < 2:
            return np.zeros(len(options.fills), dtype=np.bool_)
        own = self.space.diameters[options.fills]
        steps = (own[:, :-1] - own[:, 1:]).max(axis=1)
        return np.asarray(steps > self.wishes.most_step + _HAIR)

    def _too_long(self, crescents: Sequence[Crescents]) -> tuple[Bools, Bools]:
        """Whether a crescent runs into itself, another one or an end of the frame, or nearly."""
        stations = sorted(
            ((self.frame.s_at_deg(at), own) for own in crescents for at in own.layout.shape.places),
            key=lambda one: one[0],
        )
        (start, first), (stop, last) = stations[0], stations[-1]
        over, tight = np.zeros((2, len(first.end)), dtype=np.bool_)
        if self.frame.closed:
            stations.append((start + self.frame.length, first))
        else:
            over |= first.end > start + _HAIR
            over |= last.end > self.frame.length - stop + _HAIR
        for (s, one), (t, other) in pairwise(stations):
            pitch = straight_pitch(one.last, other.last, self.design.limits.squeeze)
            between = t - s - one.end - other.end
            over |= between < _CROWDED * pitch - _HAIR
            tight |= between < one.reach + other.reach
        return over, tight

    def _weigh(self, lain: Lain, swung: Floats, which: Ints, verdicts: Verdicts) -> None:
        self._measure(lain.xyz, lain.radii, which, verdicts)
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
        found = room(self.numerals, xy, blocked, front, self.wishes.room - ROOM_MARGIN)
        # Numerals that may tuck behind a balloon in front are held by what blocks them alone.
        clear = found.front > FRONT_MARGIN
        spare = np.minimum(found.solid, found.most + FRONT_MARGIN - ROOM_MARGIN)
        verdicts.room[which] = np.where(clear, spare, found.solid)
        verdicts.window[which] = window_heights(opening[2], xy, np.maximum(blocked, front))

    def _no_room(self, rooms: Floats) -> Bools:
        return np.asarray(~np.isnan(rooms) & (rooms < self.wishes.room - ROOM_MARGIN))


def _cut(reason: Ints, where: Bools, why: int) -> None:
    reason[(reason == PASSES) & where] = why


def _numerals(design: Design, frame: Frame) -> NumeralMap | None:
    panel = design.panel
    opening = frame.opening(panel.place) if panel else None
    if panel is None or opening is None:
        return None
    height = filled_height(panel, design.limits.foil_shrink)
    return numeral_map(
        panel.text, height, panel.widths, panel.gap, radius=opening[2], raised=panel.raised
    )
