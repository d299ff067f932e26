"""What shows in the detail of a tuck: pale balloons, the numeral's edge, dashed where it is hidden.

Lines are those of ISO 128-2: edges that show are wide, hidden ones dashed and narrow, and what
lies behind the numerals is narrow too, so that it keeps back.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

import numpy as np

from mockup.colour.tones import tone
from mockup.packing.neighbours import touching_pairs
from mockup.panel.numerals import NumeralShape
from mockup.piece.assemble import panel_plane
from mockup.piece.placed import Balloon, Piece
from mockup.render.balloons import colour_of
from mockup.render.edge_on import METAL
from mockup.render.outline import outline
from mockup.render.pressed import bows, cuts_of
from mockup.render.record import Circle, Group, Item, Path, Point, Style
from mockup.render.sheets.inks import INK, SOFT, THICK, THIN
from mockup.render.tracks import lines
from mockup.render.tube import centre_line
from mockup.render.viewpoint import BALLOON, NUMERAL, TUBE, Eye, Layer, in_order

if TYPE_CHECKING:
    from shapely import Geometry

_DASH = (12 * THIN, 3 * THIN)
"""Of a hidden edge, in line widths (ISO 128-2, line 02.1)."""
_PALE, _PALER = 0.5, 0.8
"""How near to white what is in front is laid in, and what is behind the numerals."""


@dataclass(frozen=True)
class Lens:
    """A round field of a front view: about ``middle`` (piece mm), ``radius`` mm on the sheet.

    ``eye`` sees it at its scale, so that ``middle`` lands in the centre of the field.
    """

    piece: Piece
    eye: Eye
    middle: Point
    radius: float

    @property
    def centre(self) -> Point:
        """The centre of the field on the sheet."""
        return self.eye.at(*self.middle)

    def reaches(self, x: float, y: float, radius: float) -> bool:
        """Whether a disc about a point of the piece shows in the field at all."""
        away = hypot(x - self.middle[0], y - self.middle[1])
        return away < radius + self.radius / self.eye.scale


def picture(lens: Lens) -> Group:
    """Everything in the field, cut to it, and its rim."""
    (x, y), r = lens.centre, lens.radius
    clip = f"M{x - r:.3f} {y:.3f}A{r:g} {r:g} 0 0 1 {x + r:.3f} {y:.3f}"
    clip += f"A{r:g} {r:g} 0 0 1 {x - r:.3f} {y:.3f}Z"
    ground = Circle((x, y), r, Style(fill="#ffffff"))
    layers = [*_tube(lens), *_balloons(lens), *_numerals(lens)]
    inside = Group((ground, *in_order(layers), *_hidden(lens)), clip=clip)
    return Group((inside, Circle((x, y), r, Style(stroke=INK, stroke_width=THIN))), kind="field")


def _plane(piece: Piece) -> float:
    return panel_plane(piece.design.panel, piece.frame) if piece.design.panel else 0.0


def in_front(piece: Piece) -> list[Balloon]:
    """The balloons whose centres lie before the numerals' plane."""
    return [each for each in piece.balloons if each.centre[2] > _plane(piece)]


def _tube(lens: Lens) -> list[Layer]:
    line, wide = centre_line(lens.piece.frame, lens.eye), lens.piece.frame.tube * lens.eye.scale
    data = line.data(places=3)
    pale = lens.eye.recolour(tone(METAL, _PALER))
    strokes = (
        Path(data, Style(stroke=SOFT, stroke_width=wide)),
        Path(data, Style(stroke=pale, stroke_width=max(0.0, wide - 2 * THIN))),
    )
    return [Layer(-lens.piece.frame.tube / 2, TUBE, Group(strokes, kind="frame"))]


def _balloons(lens: Lens) -> list[Layer]:
    """The balloons of the field, pressed on each other as in the front view."""
    near = [b for b in lens.piece.balloons if lens.reaches(*b.centre[:2], b.radius)]
    if not near:
        return []
    centres = lens.eye.turned([each.centre for each in near])
    radii = np.array([each.radius for each in near])
    cuts = cuts_of(centres, radii, touching_pairs(centres, radii, 0.0))
    plane = _plane(lens.piece)
    return [
        Layer(
            each.centre[2],
            BALLOON,
            _balloon(lens, each, outline(shown, *_on_sheet(lens, each)), each.centre[2] > plane),
        )
        for each, shown in zip(near, map(bows, cuts), strict=True)
        if shown
    ]


def _on_sheet(lens: Lens, balloon: Balloon) -> tuple[Point, float]:
    return lens.eye.at(*balloon.centre[:2]), balloon.radius * lens.eye.scale


def _balloon(lens: Lens, balloon: Balloon, data: str, front: bool) -> Group:
    colour = colour_of(lens.piece, balloon.letter, lens.eye.options)
    fill = lens.eye.recolour(tone(colour.srgb, _PALE if front else _PALER))
    style = Style(fill, INK if front else SOFT, THICK if front else THIN)
    return Group((Path(data, style),), "balloon", balloon.id)


def _numerals(lens: Lens) -> list[Layer]:
    """The numerals, laid in, their edges drawn where nothing covers them."""
    panel = lens.piece.design.panel
    if panel is None:
        return []
    foil = lens.eye.options.foil or panel.foil
    style = Style(lens.eye.recolour(tone(foil.srgb, _PALE)), INK, THICK)
    return [
        Layer(
            _plane(lens.piece),
            NUMERAL,
            Group((Path(_outline(lens, shape), style),), "numeral", shape.char),
        )
        for shape in _shapes(lens)
    ]


def _shapes(lens: Lens) -> list[NumeralShape]:
    fit = lens.piece.fit
    return [
        shape
        for shape in (fit.numerals if fit else ())
        if lens.reaches(shape.x, shape.y, hypot(shape.width, shape.height) / 2)
    ]


def _outline(lens: Lens, shape: NumeralShape) -> str:
    return "".join(_rings(lens, shape.polygon()))


def _rings(lens: Lens, shape: Geometry) -> Iterator[str]:
    for part in getattr(shape, "geoms", [shape]):
        for ring in (part.exterior, *part.interiors):
            yield _polyline(lens, ring, closed=True)


def _polyline(lens: Lens, line: Geometry, closed: bool = False) -> str:
    points = np.asarray(line.coords)[: -1 if closed else None]
    x, y = lens.eye.origin
    return lines(points * (lens.eye.scale, -lens.eye.scale) + (x, y), closed).data(places=3)


def _hidden(lens: Lens) -> tuple[Item, ...]:
    """The numerals' edges where a balloon in front covers them."""
    from shapely import Point as Spot
    from shapely import line_merge, union_all

    over = [b for b in in_front(lens.piece) if lens.reaches(*b.centre[:2], b.radius)]
    field = Spot(lens.middle).buffer(lens.radius / lens.eye.scale)
    cover = union_all([Spot(b.centre[:2]).buffer(b.radius, quad_segs=64) for b in over])
    style = Style(stroke=INK, stroke_width=THIN, dash=_DASH)
    edges = [
        each
        for shape in _shapes(lens)
        for each in _parts(
            line_merge(shape.polygon().boundary.intersection(cover).intersection(field))
        )
    ]
    data = "".join(_polyline(lens, each) for each in edges)
    return (Group((Path(data, style),), kind="hidden edge"),) if data else ()


def _parts(shape: Geometry) -> list[Geometry]:
    return [
        p
        for p in getattr(shape, "geoms", [shape])
        if p.geom_type == "LineString" and not p.is_empty
    ]
