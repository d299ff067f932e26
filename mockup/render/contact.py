"""Shade where things touch: under a balloon, and along the crease where two press together."""

from __future__ import annotations

import math
from functools import lru_cache

from mockup.render.outline import crease
from mockup.render.pressed import Bow, Cut
from mockup.render.record import Circle, Path, Place, Point, Style, Symbol
from mockup.render.tones import SHADE, Recolour, radial, symbol, veil

_SHADOW_AT, _SHADOW_R = (0.08, 0.125), 1.18
_SHADOW = ((0.0, 0.34), (0.72, 0.34), (0.80, 0.25), (0.88, 0.12), (0.95, 0.035), (1.0, 0.0))
CREASE_WIDE = 0.34
_CREASE = ((1.0, 0.0), (0.75, 0.03), (0.5, 0.095), (0.25, 0.21), (0.1, 0.32), (0.0, 0.42))
BENT, STRAIGHT = 2.0, 40.0
STEP = 1.2
"""How a crease is shaded: over which share of a radius, the least and greatest bend of the ring
that follows it, in radii, and how far two gradients are apart."""
SEAM_SHARE, SEAM_LEAST, SEAM_OPACITY = 0.016, 0.05, 0.24
"""The line where two skins meet: its width as a share of the radius, the least in sheet mm."""


@lru_cache(maxsize=64)
def shadow(recolour: Recolour) -> Symbol:
    """The shade a balloon of radius 1 throws on what lies close behind it."""
    paint = radial("shade", veil(SHADE, _SHADOW, recolour))
    return symbol("shadow", Circle(_SHADOW_AT, _SHADOW_R, Style(fill=paint)))


def crease_shade(cut: Cut, at: Point, radius: float, recolour: Recolour) -> Place:
    """Shade that grows toward a crease, on this balloon's side of it.

    The crease is seen as an arc of an ellipse; the circle through its middle and its two ends on
    the silhouette lies so close to it that a ring round that circle's inside makes the shade. Where
    the crease bends more than the balloon itself the circle is kept twice as large as the balloon,
    so that its far side stays off it; the shade then fades toward the ends.
    """
    lean, k = cut.lean, cut.depth
    middle = -k * lean - cut.reach * abs(cut.normal[2])
    end = -k / lean
    bulge = max(end - middle, 1e-6)
    bend = (max(0.0, 1 - end * end) + bulge * bulge) / (2 * bulge)
    bend = min(max(bend, BENT), STRAIGHT)
    reach = (middle + bend) * radius / lean
    centre = at[0] + cut.normal[0] * reach, at[1] - cut.normal[1] * reach
    return Place(_ring(_stepped(CREASE_WIDE / bend), recolour), centre, bend * radius)


def _stepped(share: float) -> float:
    """A share rounded to one of a few steps (a fifth apart), so that few gradients serve all."""
    return round(STEP ** round(math.log(share, STEP)), 5)


def rings(recolour: Recolour) -> tuple[int, tuple[Symbol, ...]]:
    """Every ring there can be, each a step wider than the one before it, and the first's step."""
    first, last = (round(math.log(CREASE_WIDE / bend, STEP)) for bend in (STRAIGHT, BENT))
    return first, tuple(_ring(round(STEP**k, 5), recolour) for k in range(first, last + 1))


@lru_cache(maxsize=256)
def _ring(wide: float, recolour: Recolour) -> Symbol:
    """A circle of radius 1 shaded round its inside over ``wide``."""
    depths = tuple((round(1 - wide * back, 5), depth) for back, depth in _CREASE)
    paint = radial("crease", veil(SHADE, depths, recolour))
    return symbol("press", Circle((0.0, 0.0), 1.0, Style(fill=paint)))


def crease_line(bow: Bow, at: Point, radius: float, recolour: Recolour) -> Path:
    """The thin dark line where two skins meet."""
    wide = round(max(SEAM_SHARE * radius, SEAM_LEAST), 3)
    style = Style(stroke=recolour(SHADE), stroke_width=wide, opacity=SEAM_OPACITY)
    return Path(crease(bow, at, radius), style)
