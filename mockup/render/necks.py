"""Necks and knots: the narrow tail from a balloon to where it is tied.

Most are hidden by the balloons in front of them; only those that peep out are drawn.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from mockup.colour.tones import tone
from mockup.packing.neighbours import touching_pairs
from mockup.piece.placed import Piece
from mockup.render.balloons import colour_of
from mockup.render.finishes import body
from mockup.render.record import Group, Item, Linear, Path, Place, Point, Stop, Style
from mockup.render.tones import Recolour, linear
from mockup.render.tracks import Track
from mockup.render.viewpoint import KNOT, Eye, Floats, Layer

Indices = NDArray[np.intp]

_LOOKED_AT = (0.25, 0.6, 0.95)
_FEW = 100_000
"""Up to so many pairs of a point and a balloon it is quickest to look at all of them."""
_SHOULDER, _WAIST, _KNOT = 0.24, 0.075, 0.095
_SHORTEST, _LONGEST = 0.12, 0.6


def neck_layers(piece: Piece, eye: Eye) -> list[Layer]:
    """One layer for each neck of which anything shows, at the depth of its middle."""
    if not piece.balloons:
        return []
    centres = eye.turned([each.centre for each in piece.balloons])
    knots = eye.turned([each.knot for each in piece.balloons])
    radii = np.array([each.radius for each in piece.balloons])
    starts, ends = necks(centres, knots, radii)
    near = np.array(piece.nestling.contacts, dtype=np.intp).reshape(-1, 2)
    return [
        _neck(piece, at, starts[at].tolist(), ends[at].tolist(), eye)
        for at in showing(starts, ends, centres, radii, near)
    ]


def necks(centres: Floats, knots: Floats, radii: Floats) -> tuple[Floats, Floats]:
    """Where each neck leaves its balloon's skin and where it is tied, (k, 3) each."""
    toward = knots - centres
    apart = np.maximum(np.linalg.norm(toward, axis=1), 1e-9)
    unit = toward / apart[:, None]
    long = np.clip(apart - radii, _SHORTEST * radii, _LONGEST * radii)
    return centres + unit * (0.97 * radii)[:, None], centres + unit * (radii + long)[:, None]


def showing(
    starts: Floats, ends: Floats, centres: Floats, radii: Floats, near: Indices | None = None
) -> list[int]:
    """Indices of the necks with a point that no balloon's front hides from the viewer.

    ``near`` (m, 2) are balloons that touch: they hide most of each other's necks, and are asked
    first. It changes nothing in the answer.

    >>> ball, skin = np.zeros((1, 3)), np.array([[9.7, 0.0, 0.0]])
    >>> showing(skin, skin * 1.5, ball, np.array([10.0]))
    [0]
    """
    sides = np.zeros((0, 2), dtype=np.intp) if near is None else near
    point, ball = np.concatenate([sides, sides[:, ::-1]]).T
    seen = np.zeros(len(starts), dtype=bool)
    for share in _LOOKED_AT:
        points = starts + share * (ends - starts)
        open_ = ~seen
        open_[point[_behind(points[point], centres[ball], radii[ball])]] = False
        left = np.flatnonzero(open_)
        seen[left[~_hidden(points[left], centres, radii)]] = True
    return [int(at) for at in np.flatnonzero(seen)]


def _behind(points: Floats, centres: Floats, radii: Floats) -> NDArray[np.bool_]:
    """Whether the front of a balloon lies before a point; shapes (..., 3) and (...)."""
    x, y = (points[..., axis] - centres[..., axis] for axis in (0, 1))
    rise = radii**2 - (x * x + y * y)
    deep = points[..., 2] - centres[..., 2]
    return np.asarray((rise > 0) & ((deep < 0) | (rise > deep * deep)))


def _hidden(points: Floats, centres: Floats, radii: Floats) -> NDArray[np.bool_]:
    """Whether the front of a balloon lies before each point, (k,)."""
    if len(points) * len(centres) <= _FEW:
        return np.asarray(_behind(points[:, None], centres[None], radii).any(axis=1))
    point, ball = _within(points, centres, radii)
    hidden = np.zeros(len(points), dtype=bool)
    hidden[point[_behind(points[point], centres[ball], radii[ball])]] = True
    return hidden


def _within(
    points: Floats, centres: Floats, radii: Floats
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Every point and balloon whose silhouette it lies in, as indices.

    Laid flat, a point is a ball without size that touches the balloon.
    """
    flat = np.concatenate([points, centres])
    flat[:, 2] = 0.0
    pairs = touching_pairs(flat, np.concatenate([np.zeros(len(points)), radii]), 0.0)
    low, high = pairs[:, 0], pairs[:, 1]
    mixed = (low < len(points)) & (high >= len(points))
    return low[mixed], high[mixed] - len(points)


def _neck(piece: Piece, index: int, start: list[float], end: list[float], eye: Eye) -> Layer:
    balloon = piece.balloons[index]
    colour = colour_of(piece, balloon.letter, eye.options)
    root, tip = eye.at(start[0], start[1]), eye.at(end[0], end[1])
    size = balloon.radius * eye.scale
    drawn = _drawn(colour.srgb, root, tip, size, eye.options.recolour)
    return Layer((start[2] + end[2]) / 2, KNOT, drawn)


@lru_cache(2048)
def _drawn(srgb: str, root: Point, tip: Point, size: float, recolour: Recolour) -> Group:
    """Kept: most edits of a piece leave most of its necks as they were."""
    return Group(tuple(_parts(srgb, np.array(root), np.array(tip), size, recolour)), "knot")


def _parts(srgb: str, root: Floats, tip: Floats, size: float, recolour: Recolour) -> Iterator[Item]:
    far = float(np.hypot(*(tip - root)))
    if far > 0.02 * size:
        skin = Style(fill=_skin(srgb, root, tip, recolour))
        yield Path(_tail(root, tip, far, size).data(places=3), skin)
    knot = body(srgb, "matte", recolour)
    yield Place(knot, (float(tip[0]), float(tip[1])), _KNOT * size)


def _tail(root: Floats, tip: Floats, far: float, size: float) -> Track:
    """A tail that narrows from the shoulder to the waist along two hollow curves."""
    side = np.array([root[1] - tip[1], tip[0] - root[0]]) / far
    wide, thin = side * _SHOULDER * size, side * _WAIST * size
    middle = root + 0.45 * (tip - root)
    points = [root + wide, middle + thin, tip + thin, tip - thin, middle - thin, root - wide]
    return Track("M%g %gQ%g %g %g %gL%g %gQ%g %g %g %gZ", np.array(points))


def _skin(srgb: str, root: Floats, tip: Floats, recolour: Recolour) -> Linear:
    """Grown out of the balloon's skin and darker toward the knot."""
    stops = tuple(
        Stop(offset, recolour(tone(srgb, amount)), opacity)
        for offset, amount, opacity in ((0.0, 0.02, 0.0), (0.4, -0.06, 0.85), (1.0, -0.34, 1.0))
    )
    start, end = (tuple(np.round(point, 3).tolist()) for point in (root, tip))
    return linear("neck", stops, start, end, on_sheet=True)
