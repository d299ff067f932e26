"""The small folds that gather along the weld of a blown foil, longer and closer where it bends."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from numpy.typing import NDArray

from mockup.render.record import Path, Style
from mockup.render.rounded import TOWARD_LIGHT
from mockup.render.tones import Ink
from mockup.render.tracks import Track

if TYPE_CHECKING:
    from shapely import MultiLineString

Floats = NDArray[np.float64]
_APART = 0.26
_GOLDEN, _SILVER = 0.6180339887, 0.7548776662


class Folds(NamedTuple):
    """The folds of one outline: their feet (k, 2), unit vectors inward and along, and lengths."""

    feet: Floats
    inward: Floats
    along: Floats
    long: Floats


def pucker_paths(
    spine: MultiLineString, half: float, inset: float, depth: float, ink: Ink
) -> Iterator[Path]:
    """The dark and the light sides of all folds as two paths, sheet mm.

    ``spine`` is the centre-lines, ``half`` half the stroke, ``inset`` how far in the folds begin.
    """
    shape = spine.buffer(half - inset, quad_segs=16)
    dark, light = "", ""
    for part in getattr(shape, "geoms", [shape]):
        for hole, ring in enumerate((part.exterior, *part.interiors)):
            found = folds(np.asarray(ring.coords), half, inside=hole == 0)
            wide = 0.10 * found.long + 0.022 * half
            toward = np.where(found.along @ np.array(TOWARD_LIGHT) > 0, wide, -wide)
            sideways = found.along * toward[:, None]
            dark += _leaves(found, -sideways)
            light += _leaves(found, sideways)
    yield Path(dark, Style(fill=ink(-0.60), opacity=round(0.42 * depth, 3)))
    yield Path(light, Style(fill=ink(0.88), opacity=round(0.46 * depth, 3)))


def folds(line: Floats, half: float, inside: bool = True) -> Folds:
    """Where the folds of a closed outline (k, 2) sit: evenly strewn by golden shares, so that two
    drawings are alike, and gathered where the outline turns. They point to the ``inside`` of it."""
    legs = np.diff(line, axis=0)
    ends = np.concatenate([[0.0], np.cumsum(np.hypot(legs[:, 0], legs[:, 1]))])
    total = float(ends[-1])
    middles = (ends[:-1] + ends[1:]) / 2
    heads = np.unwrap(np.arctan2(legs[:, 1], legs[:, 0]))
    fine = np.linspace(0.0, total, 400)
    reach = 0.22 * half
    turn = np.interp(fine + reach, middles, heads) - np.interp(fine - reach, middles, heads)
    bend = np.minimum(np.abs(turn) / (2 * reach) * half, 1.1)
    crowd = np.concatenate([[0.0], np.cumsum(0.6 + bend[1:])]) * total / len(fine)
    count = max(6, round(float(crowd[-1]) / (_APART * half)))
    k = np.arange(count)
    s = np.interp((k + 0.75 * (k * _GOLDEN % 1)) / count * crowd[-1], crowd, fine)
    head = np.interp(s, middles, heads) + 0.5 * (k * _SILVER % 1 - 0.5)
    area = float(np.sum(line[:-1, 0] * line[1:, 1] - line[1:, 0] * line[:-1, 1]))
    left = math.copysign(1.0, area) * (1.0 if inside else -1.0)
    along = np.column_stack([np.cos(head), np.sin(head)])
    feet = np.column_stack([np.interp(s, ends, line[:, 0]), np.interp(s, ends, line[:, 1])])
    inward = np.column_stack([-along[:, 1], along[:, 0]]) * left
    long = half * (0.13 + 0.14 * np.interp(s, fine, bend)) * (0.6 + 1.3 * (k * _GOLDEN**2 % 1) ** 2)
    return Folds(feet, inward, along, long)


def _leaves(found: Folds, sideways: Floats) -> str:
    """Slim leaves from the weld inward, one side straight, the other bellied out ``sideways``."""
    tip = found.feet + found.inward * found.long[:, None]
    belly = found.feet + found.inward * (0.35 * found.long)[:, None] + sideways
    points = np.stack([found.feet, belly, tip], axis=1).reshape(-1, 2)
    return Track("M%g %gQ%g %g %g %gZ" * len(tip), points).data()
