"""The mesh that a wall's balloons are tied to, seen through the gaps between them."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor

import numpy as np

from mockup.piece.placed import Piece
from mockup.piece.wall import mesh_of
from mockup.render.record import Group, Path, Style
from mockup.render.tracks import Track
from mockup.render.viewpoint import FRONT, TUBE, Eye, Layer

_NET = "#b7aea0"
_WIDE = 0.012
"""How thick its strands are, as a share of its pitch."""
_BEHIND = 2.0


def mesh_layers(piece: Piece, eye: Eye) -> list[Layer]:
    """Strands through every knot and midway between them, inside the frame; none but in front."""
    wall = piece.design.wall
    if wall is None or eye.viewpoint is not FRONT:
        return []
    mesh, spec = mesh_of(piece.design, wall), piece.design.frame
    half = (spec.width - spec.tube) / 2, (spec.height - spec.tube) / 2
    ends = [
        *(((x, -half[1]), (x, half[1])) for x in _marks(mesh.pitch / 2, half[0])),
        *(((-half[0], y), (half[0], y)) for y in _marks(mesh.row_pitch / 2, half[1])),
    ]
    wide = round(max(0.1, _WIDE * mesh.pitch * eye.scale), 3)
    style = Style(stroke=eye.recolour(_NET), stroke_width=wide)
    points = np.array([eye.at(x, y) for pair in ends for x, y in pair]).reshape(-1, 2)
    strands = Path(Track("M%g %gL%g %g" * len(ends), points).data(places=3), style)
    return [Layer(-_BEHIND * spec.tube, TUBE, Group((strands,), "mesh", "mesh"))]


def _marks(step: float, reach: float) -> Iterator[float]:
    """Marks evenly to both sides of the middle, within ``reach``.

    >>> list(_marks(2.0, 3.0))
    [-2.0, 0.0, 2.0]
    """
    most = floor(reach / step)
    yield from (k * step for k in range(-most, most + 1))
