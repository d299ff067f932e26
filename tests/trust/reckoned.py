"""The measures of a piece reckoned anew from its plain data, to hold what is printed against."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt
from typing import Any

import numpy as np
import shapely

from mockup.panel.numerals import NumeralShape
from mockup.piece.assemble import panel_plane
from mockup.piece.layout import layout_data
from mockup.piece.placed import Piece

DENSE = 1.0
"""Steps along a frame's centre line, mm."""


def boxes(piece: Piece) -> Iterator[tuple[float, float, float, float, float, float]]:
    """Left, low, back, right, high, front of all that stands, from the layout's plain data."""
    data: dict[str, Any] = layout_data(piece)
    for ball in data["balloons"]:
        r = ball["diameter"] / 2
        x, y, z = ball["x"], ball["y"], ball["z"]
        yield x - r, y - r, z - r, x + r, y + r, z + r
    for sign, shape in zip(data["panel"].get("numerals", ()), foils(piece), strict=True):
        w, h = sign["width"] / 2, sign["height"] / 2
        # A filled foil is as thick as its stroke is wide between the welds.
        blown = shape.half_width - min(6.0, 0.2 * shape.half_width)
        t, z = max(piece.design.panel.thickness / 2, blown), slab(piece)  # type: ignore[union-attr]  # it has numerals
        yield sign["x"] - w, sign["y"] - h, z - t, sign["x"] + w, sign["y"] + h, z + t
    tube = piece.design.frame.tube / 2
    (x0, y0, x1, y1) = line_box(piece)
    yield x0 - tube, y0 - tube, -tube, x1 + tube, y1 + tube, tube
    if piece.design.stand:
        half, floor = piece.design.stand.plate / 2, y0 - tube - piece.design.stand.rise
        # A wall has a plate under each upright, the outermost at its ends; a ring has one below.
        for x in (x0, x1) if piece.design.wall else (0.0,):
            yield x - half, floor, -half, x + half, floor + piece.design.stand.plate_thickness, half


def foils(piece: Piece) -> tuple[NumeralShape, ...]:
    return piece.fit.numerals if piece.fit else ()


def slab(piece: Piece) -> float:
    assert piece.design.panel is not None
    return panel_plane(piece.design.panel, piece.frame)


def line_box(piece: Piece) -> tuple[float, float, float, float]:
    line = np.asarray(piece.frame.sample(DENSE))
    (x0, y0), (x1, y1) = line.min(axis=0), line.max(axis=0)
    return float(x0), float(y0), float(x1), float(y1)


def overall(piece: Piece) -> tuple[float, float, float]:
    low = np.min([box[:3] for box in boxes(piece)], axis=0)
    high = np.max([box[3:] for box in boxes(piece)], axis=0)
    x, y, z = (high - low).tolist()
    return x, y, z


def first_hit(piece: Piece, way: tuple[int, int]) -> float:
    """How far from the opening's centre a straight line runs until something stands in it."""
    assert piece.design.panel is not None
    disc = piece.frame.opening(piece.design.panel.place)
    assert disc is not None
    (cx, cy, far), z0, half = disc, slab(piece), piece.design.panel.thickness / 2
    for ball in piece.balloons:
        x, y, z = ball.centre
        gap = 0.0 if z > z0 else max(0.0, z0 - z - half)
        blocked = ball.radius**2 - gap**2
        along, aside = (x - cx) * way[0] + (y - cy) * way[1], (x - cx) * way[1] - (y - cy) * way[0]
        if blocked > aside**2:
            reach = sqrt(blocked - aside**2)
            if along + reach > 0:
                far = min(far, max(0.0, along - reach))
    return far


def deepest_overlap(piece: Piece) -> float:
    """How far, mm, a balloon before the numerals' plane reaches over one, by shapely's distance."""
    plane, outlines = slab(piece), [shape.polygon() for shape in foils(piece)]
    before = [ball for ball in piece.balloons if ball.centre[2] > plane]
    return max(
        ball.radius - float(outline.distance(shapely.Point(ball.centre[:2])))
        for ball in before
        for outline in outlines
    )
