"""The piece from its right side and from above, turned as ISO 5456-2 lays out third-angle views."""

from __future__ import annotations

from mockup.piece.placed import Piece
from mockup.render.record import Group, Point
from mockup.render.view import view
from mockup.render.viewpoint import ABOVE, RIGHT, Eye, ViewOptions


def side_view(
    piece: Piece, scale: float, origin: Point, options: ViewOptions | None = None
) -> Group:
    """Seen from the right, sheet mm: the piece's (z, y) lands at (ox - z*scale, oy - y*scale).

    The front of the piece is on the left, next to a front view that stands to the left.
    """
    return view(piece, Eye(RIGHT, scale, origin, options or ViewOptions()))


def plan_view(
    piece: Piece, scale: float, origin: Point, options: ViewOptions | None = None
) -> Group:
    """Seen from above, sheet mm: the piece's (x, z) lands at (ox + x*scale, oy + z*scale).

    The front of the piece is at the foot, next to a front view that stands below.
    """
    return view(piece, Eye(ABOVE, scale, origin, options or ViewOptions()))
