"""The piece seen along an axis: stand, frame, balloons and numerals in one order of depth."""

from __future__ import annotations

from mockup.panel.numerals import NumeralShape
from mockup.piece.assemble import panel_plane
from mockup.piece.placed import Piece
from mockup.render.balloons import balloon_layers
from mockup.render.edge_on import pillow
from mockup.render.foil import numeral
from mockup.render.hardware import stand_layers
from mockup.render.necks import neck_layers
from mockup.render.record import Group
from mockup.render.tube import frame_layers
from mockup.render.viewpoint import FRONT, NUMERAL, Eye, Layer, in_order


def view(piece: Piece, eye: Eye) -> Group:
    """The piece as ``eye`` sees it, in sheet mm."""
    layers = [
        *stand_layers(piece, eye),
        *frame_layers(piece.frame, eye),
        *wall_layers(piece, eye),
        *neck_layers(piece, eye),
        *balloon_layers(piece, eye),
        *numeral_layers(piece, eye),
    ]
    return Group(in_order(layers), "view", eye.viewpoint.name)


def wall_layers(piece: Piece, eye: Eye) -> list[Layer]:
    """The mesh of a wall; a piece on a frame has none."""
    if piece.design.wall is None:
        return []
    from mockup.render.mesh import mesh_layers  # only a wall has one

    return mesh_layers(piece, eye)


def numeral_layers(piece: Piece, eye: Eye) -> list[Layer]:
    """The foil numerals in the plane they hang in: behind balloons whose centres are nearer."""
    if piece.design.panel is None or piece.fit is None:
        return []
    plane, half = panel_plane(piece.design.panel, piece.frame), piece.design.panel.thickness / 2
    foil = eye.options.foil or piece.design.panel.foil
    shapes: tuple[NumeralShape, ...] = piece.fit.numerals
    if eye.viewpoint is not FRONT:
        return [pillow(shape, (plane - half, plane + half), foil.srgb, eye) for shape in shapes]
    return [
        Layer(plane, NUMERAL, Group(numeral(shape, foil, eye), "numeral", f"{k}", shape.char))
        for k, shape in enumerate(shapes, start=1)
    ]
