"""The piece as its viewer sees it."""

from __future__ import annotations

from mockup.piece.placed import Piece
from mockup.render.record import Group, Point
from mockup.render.view import view
from mockup.render.viewpoint import FRONT, Eye, ViewOptions


def front_view(
    piece: Piece, scale: float, origin: Point, options: ViewOptions | None = None
) -> Group:
    """The front view in sheet mm: the piece's (x, y) lands at (ox + x*scale, oy - y*scale).

    ``scale`` is sheet mm to a mm of the piece (0.1 for 1:10), ``origin`` where the centre of the
    ring lands. The items are in drawing order, in groups of the kinds "stand", "frame", "knot",
    "balloon" (named by the balloon's id) and "numeral".
    """
    return view(piece, Eye(FRONT, scale, origin, options or ViewOptions()))
