"""The stand: a pole on a base plate, and the shade it leaves on the floor."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from mockup.design.model import StandSpec
from mockup.piece.extent import feet, floor, foot
from mockup.piece.placed import Piece
from mockup.render.edge_on import METAL, bar
from mockup.render.record import Circle, Ellipse, Group, Item, Point, Rect, Style
from mockup.render.tones import SHADE, Recolour, linear, radial, ramp, veil
from mockup.render.tracks import lines
from mockup.render.viewpoint import ABOVE, POLE, Eye, Layer

_LIGHT = "#ffffff"
_RIM = ((0.0, -0.55), (0.12, -0.2), (0.33, 0.5), (0.55, 0.0), (1.0, -0.6))
_LIP = ((0.0, 0.55), (0.28, 0.0))
_UNDERSIDE = ((0.55, 0.0), (1.0, 0.5))
_TOP = ((0.0, 0.62), (0.35, 0.28), (0.75, -0.05), (1.0, -0.32))
_POOL = ((0.0, 0.46), (0.5, 0.36), (0.75, 0.18), (0.9, 0.05), (1.0, 0.0))
_UNDER = ((0.0, 0.4), (0.86, 0.4), (0.92, 0.2), (0.97, 0.05), (1.0, 0.0))
_SOCKET, _CLAMP = (2.6, 1.7), (1.6, 1.5)


def stand_layers(piece: Piece, eye: Eye) -> list[Layer]:
    """Pole and base plate, from the floor to the frame's lowest point; none without a stand.

    A frame with several feet stands on one under each.
    """
    stand = piece.design.stand
    if stand is None:
        return []
    across = [x * eye.viewpoint.right[0] for x in feet(piece.frame)]
    return [
        layer
        for x in dict.fromkeys(across)
        for layer in _stand(piece, stand, replace(eye, origin=_beside(eye, x)))
    ]


def _beside(eye: Eye, x: float) -> Point:
    """The sheet point of the origin of a stand that stands ``x`` mm to the right as seen."""
    return (eye.origin[0] + x * eye.scale, eye.origin[1]) if x else eye.origin


def _stand(piece: Piece, stand: StandSpec, eye: Eye) -> list[Layer]:
    low, high = floor(piece.frame, stand), foot(piece.frame)
    if eye.viewpoint is ABOVE:
        parts = tuple(_from_above(stand.plate / 2, piece.frame.tube / 2, eye))
        return [Layer(low, POLE, Group(parts, "stand", "stand"))]
    plate = stand.plate, stand.plate_thickness
    parts = tuple(_upright(low, high, plate, piece.frame.tube, eye))
    return [Layer(-piece.frame.tube / 2, POLE, Group(parts, "stand", "stand"))]


def _upright(
    low: float, high: float, plate: tuple[float, float], tube: float, eye: Eye
) -> Iterator[Item]:
    """Pool of shade, pole, its socket on the plate, its clamp on the frame, and the plate."""
    wide, thick = plate
    if eye.options.shadows:
        yield _floor_shade(eye.at(0.0, low), 0.56 * wide * eye.scale, eye.options.recolour)
    top = low + thick
    yield _pole(top, high + tube / 2, tube, eye)
    yield _pole(top, top + _SOCKET[0] * tube, _SOCKET[1] * tube, eye)
    # A frame that all but stands on the plate is held by the socket alone.
    clamp = high - _CLAMP[0] * tube
    if clamp > top + _SOCKET[0] * tube:
        yield _pole(clamp, high + tube / 2, _CLAMP[1] * tube, eye)
    yield from _plate(top, wide, thick, eye)


def _pole(low: float, high: float, wide: float, eye: Eye) -> Rect:
    x, y = eye.at(-wide / 2, high)
    across, down = wide * eye.scale, (high - low) * eye.scale
    return Rect(x, y, across, down, Style(fill=bar(METAL, True, eye.options.recolour)), across / 8)


def _plate(top: float, wide: float, thick: float, eye: Eye) -> Iterator[Item]:
    """A round plate seen on its edge: lit along its lip and dark underneath."""
    x, y = eye.at(-wide / 2, top)
    across, down = wide * eye.scale, thick * eye.scale
    rim = ramp(METAL, _RIM, eye.options.recolour)
    edge = (
        *veil(_LIGHT, _LIP, eye.options.recolour),
        *veil(SHADE, _UNDERSIDE, eye.options.recolour),
    )
    for paint in (
        linear("plate", rim, (0.0, 0.0), (1.0, 0.0)),
        linear("lip", edge, (0.0, 0.0), (0.0, 1.0)),
    ):
        yield Rect(x, y, across, down, Style(fill=paint), 0.3 * down)


def _floor_shade(at: Point, half: float, recolour: Recolour) -> Group:
    """A soft pool under the plate; only its nearer half, since the floor is seen edge-on."""
    paint = radial("floor", veil(SHADE, _POOL, recolour))
    x, y = at[0] + 0.03 * half, at[1]
    pool = Ellipse((x, y), half, 0.075 * half, Style(fill=paint))
    corners = np.array([[x - half, y], [x + half, y], [x + half, y + half], [x - half, y + half]])
    return Group((pool,), "shade", clip=lines(corners, closed=True).data(places=3))


def _from_above(plate: float, pole: float, eye: Eye) -> Iterator[Item]:
    """The plate as a disc of radius ``plate`` with the pole's end on it, mm."""
    recolour = eye.options.recolour
    (x, y), r = eye.at(0.0, 0.0), plate * eye.scale
    if eye.options.shadows:
        under = radial("under", veil(SHADE, _UNDER, recolour))
        yield Circle((x + 0.03 * r, y + 0.045 * r), 1.07 * r, Style(fill=under))
    stops = ramp(METAL, _TOP, recolour)
    top = Style(fill=radial("disc", stops, (0.36, 0.3), 0.85))
    yield Circle((x, y), r, top)
    lip = Style(stroke=recolour(_LIGHT), stroke_width=0.02 * r, opacity=0.4)
    yield Circle((x, y), 0.975 * r, lip)
    yield Circle((x, y), pole * eye.scale, top)
