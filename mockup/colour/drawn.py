"""How light a ball is as a sheet draws it: the mean of its shades, and how far they range.

The shades of ``shading`` are laid over one another on white paper as a painter of SVG does it:
colours and opacities run straight between a gradient's stops, in encoded sRGB. Lightness is that
of CIELAB (CIE 15).
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from mockup.colour.shading import (
    EDGE_TONE,
    RIM_CENTRE,
    RIM_R,
    SHADINGS,
    WHITE,
    Body,
    Gleam,
    Pairs,
    Point,
    edge_depths,
    rim_depths,
)
from mockup.colour.srgb import LINEAR_TO_XYZ, parse_hex
from mockup.colour.tones import tone

Floats = NDArray[np.float64]
_ACROSS = 28


class Drawn(NamedTuple):
    """A ball in a grey print: its mean lightness (CIELAB, 0 to 100) and the shades' deviation."""

    light: float
    spread: float


@lru_cache(maxsize=512)
def drawn(colour: str, finish: str) -> Drawn:
    """The lightness of a ball of ``#rrggbb`` in a finish, over all of its face.

    >>> drawn("#ffffff", "matte").light < 100, drawn("#b8893c", "mirror").spread > 15
    (True, True)
    """
    light = _lightness(_face(colour, finish))
    return Drawn(float(light.mean()), float(light.std()))


def _face(colour: str, finish: str) -> Floats:
    """Encoded sRGB, 0 to 1, at each point of the face, (k, 3)."""
    look = SHADINGS[finish]
    seen = _over(np.ones((len(_points()), 3)), *_body(colour, look.body))
    rim = _along(_points() / 2 + 0.5, RIM_CENTRE, RIM_R, RIM_CENTRE)
    seen = _over(seen, _channels(WHITE), _run(rim_depths(look.bounce), rim))
    edge = _run(edge_depths(look.edge), np.hypot(*_points().T))
    seen = _over(seen, _channels(tone(colour, EDGE_TONE)), edge)
    for gleam in look.gleams:
        seen = _over(seen, _channels(WHITE), _gleam(gleam))
    return seen


def _body(colour: str, look: Body) -> tuple[Floats, Floats]:
    at = _along(_points() / 2 + 0.5, look.centre, look.r, look.focus)
    offsets = [offset for offset, _ in look.tones]
    tones = np.array([_channels(tone(colour, amount)) for _, amount in look.tones])
    shown = np.stack([np.interp(at, offsets, channel) for channel in tones.T], axis=1)
    return shown, _run(look.opacity or ((0.0, 1.0),), at)


def _gleam(gleam: Gleam) -> Floats:
    """Its opacity at each point of the face; none outside its ellipse."""
    turn = np.radians(gleam.turn)
    x, y = (_points() - np.array(gleam.at)).T
    along, across = x * np.cos(turn) + y * np.sin(turn), y * np.cos(turn) - x * np.sin(turn)
    return _run(gleam.depths, np.hypot(along / gleam.size[0], across / gleam.size[1]))


@lru_cache(maxsize=1)
def _points() -> Floats:
    """Points that lie evenly over the face, (k, 2)."""
    marks = (np.arange(_ACROSS) + 0.5) * (2 / _ACROSS) - 1
    every = np.stack(np.meshgrid(marks, marks), axis=-1).reshape(-1, 2)
    return np.asarray(every[np.hypot(*every.T) < 1])


def _along(box: Floats, centre: Point, r: float, focus: Point) -> Floats:
    """The offset of each point of the box in a radial gradient (SVG 1.1, 13.2.3): its circle's.

    The circle of offset t has its centre t of the way from the focus to the centre, and t of r.
    """
    way, out = np.subtract(centre, focus), box - np.array(focus)
    a = way @ way - r * r
    b = out @ way
    return np.asarray((b - np.sqrt(b * b - a * (out * out).sum(axis=1))) / a)


def _run(pairs: Pairs, at: Floats) -> Floats:
    return np.interp(at, [offset for offset, _ in pairs], [value for _, value in pairs])


def _over(under: Floats, colour: Floats, opacity: Floats) -> Floats:
    return under + (colour - under) * opacity[:, None]


def _channels(colour: str) -> Floats:
    return np.array(parse_hex(colour)) / 255


def _lightness(seen: Floats) -> Floats:
    """CIELAB L of encoded sRGB, (k,)."""
    linear = np.where(seen <= 0.04045, seen / 12.92, ((seen + 0.055) / 1.055) ** 2.4)
    y = linear @ np.array(LINEAR_TO_XYZ[1])
    return np.asarray(np.where(y > (6 / 29) ** 3, 116 * np.cbrt(y) - 16, y * (29 / 3) ** 3))
