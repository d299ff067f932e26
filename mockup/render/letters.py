"""The letters of the design written on its balloons, each where most of its balloon shows."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from mockup.colour.srgb import contrast
from mockup.render.record import Circle, Item, Point, Radial, Stop, Style, Text
from mockup.render.text import HEIGHTS
from mockup.render.tones import radial

Floats = NDArray[np.float64]
DARK, LIGHT, BLACK = "#1c1c1c", "#ffffff", "#000000"
READS = 4.5
"""The least contrast of lettering on its ground (WCAG 2.2, success criterion 1.4.3)."""
_HEIGHTS = tuple(height for height in HEIGHTS if height <= 3.5)
_OF_RADIUS = 0.62
_OUTWARD = 1e-6
_RINGS = (0.0, 0.2, 0.4, 0.6, 0.8)


def letter(name: str, ground: str, spot: Point, room: float, radius: float) -> tuple[Item, ...]:
    """A letter at a sheet point, on a patch of its own colour; nothing where it has no room.

    ``room`` is the clear radius round the spot and ``radius`` the balloon's, sheet mm. Its height
    is the largest of ISO 3098 from 1.8 to 3.5 mm that suits the balloon and the room.
    """
    most = min(max(_OF_RADIUS * radius, min(_HEIGHTS)), 1.5 * room)
    height = max((each for each in _HEIGHTS if each <= most), default=0.0)
    if not height:
        return ()
    at = (spot[0], spot[1] + height / 2)
    patch = Circle(spot, 1.15 * height, Style(fill=_patch(ground)))
    words = Text(at, name, height, "middle", "bold", ink(ground), role="letter", ground=ground)
    return patch, words


def _patch(ground: str) -> Radial:
    depths = ((0.0, 0.85), (0.5, 0.8), (0.75, 0.45), (1.0, 0.0))
    stops = tuple(Stop(offset, ground, opacity) for offset, opacity in depths)
    return radial("patch", stops)


def ink(ground: str) -> str:
    """The darker or the lighter ink, whichever stands out more; black where neither reads.

    Black reads wherever white does not: the two contrasts multiply to 21, which is over 4.5 twice.

    >>> ink("#116a6e"), ink("#e8dcc0"), ink("#777777")
    ('#ffffff', '#1c1c1c', '#000000')
    """
    plain = max((DARK, LIGHT), key=lambda colour: contrast(colour, ground))
    return plain if contrast(plain, ground) >= READS else BLACK


def clear_spots(centres: Floats, radii: Floats) -> tuple[Floats, Floats]:
    """Where each sphere's front is clear, (k, 2), and the clear radius there (k,), in its units.

    ``centres`` (k, 3) in view axes. The spots tried are rings of points on the disc of the sphere;
    the one farthest from what is hidden, and from the rim, is taken; of equal ones that which
    lies outward, so that a mirrored piece is lettered alike on both sides.
    """
    tried = _tried()
    spots, room = np.zeros((len(radii), 2)), np.zeros(len(radii))
    rim = 1 - np.hypot(tried[:, 0], tried[:, 1])
    height = np.sqrt(1 - (tried**2).sum(axis=1))
    for k, (centre, radius) in enumerate(zip(centres, radii, strict=True)):
        points = centre[:2] + tried * radius
        near = np.hypot(*(centres[:, :2] - centre[:2]).T) < radii + radius
        near[k] = False
        hidden = _hidden(points, centre[2] + height * radius, centres[near], radii[near])
        gap = _gaps(tried, hidden) if hidden.any() else np.full(len(tried), np.inf)
        clear = np.where(hidden, 0.0, np.minimum(rim, gap))
        best = int(np.argmax(clear + _OUTWARD * tried[:, 0] * np.sign(np.round(centre[0], 6))))
        spots[k], room[k] = points[best], clear[best] * radius
    return spots, room


@lru_cache(maxsize=1)
def _tried() -> Floats:
    """Points of the unit disc, the middle first."""
    return np.array(
        [
            (ring * np.cos(turn), ring * np.sin(turn))
            for ring in _RINGS
            for turn in np.arange(max(1, round(30 * ring))) * 2 * np.pi / max(1, round(30 * ring))
        ]
    )


def _hidden(points: Floats, depths: Floats, centres: Floats, radii: Floats) -> NDArray[np.bool_]:
    across = ((points[:, None, :] - centres[None, :, :2]) ** 2).sum(axis=2)
    rise = radii**2 - across
    return np.asarray(
        ((rise > 0) & (centres[:, 2] + np.sqrt(np.maximum(rise, 0)) > depths[:, None])).any(axis=1)
    )


def _gaps(tried: Floats, hidden: NDArray[np.bool_]) -> Floats:
    apart = np.hypot(*(tried[:, None, :] - tried[None, hidden, :]).transpose(2, 0, 1))
    return np.asarray(apart.min(axis=1))
