"""Flat things seen along their plane: the tube as a straight bar, a numeral as a thin slab."""

from __future__ import annotations

import numpy as np

from mockup.packing.frames import Frame
from mockup.panel.numerals import NumeralShape
from mockup.render.record import Group, Linear, Rect, Style
from mockup.render.tones import Recolour, linear, ramp
from mockup.render.viewpoint import NUMERAL, TUBE, Eye, Layer

METAL = "#c3a05c"
"""The colour every frame and stand is drawn in: a pale brass."""
_BAR = (
    (0.0, -0.50),
    (0.08, -0.30),
    (0.22, 0.25),
    (0.32, 0.82),
    (0.42, 0.42),
    (0.60, -0.05),
    (0.80, -0.42),
    (0.92, -0.50),
    (1.0, -0.28),
)
_PIECES = 160
_LAP = 0.1


def bar(colour: str, upright: bool, recolour: Recolour) -> Linear:
    """The shading of a round bar across its width, lit from the left (or from above)."""
    stops = ramp(colour, _BAR, recolour)
    end = (1.0, 0.0) if upright else (0.0, 1.0)
    return linear("bar", stops, (0.0, 0.0), end)


def tube_edge_on(frame: Frame, eye: Eye) -> list[Layer]:
    """The tube seen along its own plane: a straight bar, in pieces that each have their depth.

    Each piece laps a little over the next; the outermost ones are rounded off as the bend is.
    """
    line = np.asarray(frame.sample(max(frame.tube, frame.length / _PIECES)))
    points = eye.turned(np.column_stack([line, np.zeros(len(line))]))
    low, high = np.minimum(points[:-1], points[1:]), np.maximum(points[:-1], points[1:])
    half = frame.tube / 2
    spread = np.ptp(points, axis=0)
    along = 1 if spread[1] > spread[0] else 0
    style = Style(fill=bar(METAL, along == 1, eye.options.recolour))
    last = (low[:, along] <= points[:, along].min()) | (high[:, along] >= points[:, along].max())
    grown = np.full((len(low), 2), half)
    grown[:, along] = np.where(last, half, _LAP)
    depths = (low[:, 2] + high[:, 2]) / 2 - half
    return [
        Layer(depth, TUBE, _box(a, b, eye, style, half * eye.scale * outer))
        for depth, a, b, outer in zip(
            depths.tolist(),
            (low[:, :2] - grown).tolist(),
            (high[:, :2] + grown).tolist(),
            last.tolist(),
            strict=True,
        )
    ]


def slab(shape: NumeralShape, depths: tuple[float, float], colour: str, eye: Eye) -> Layer:
    """A numeral seen along its plane: a bar as long as its box, between two depths of z, mm."""
    wide, high = shape.width / 2, shape.height / 2
    corners = [
        (shape.x - wide, shape.y - high, depths[0]),
        (shape.x + wide, shape.y + high, depths[1]),
    ]
    turned = eye.turned(corners)
    low, high_ = turned.min(axis=0).tolist(), turned.max(axis=0).tolist()
    thin = min(high_[0] - low[0], high_[1] - low[1])
    upright = thin == high_[0] - low[0]
    style = Style(fill=bar(colour, upright, eye.options.recolour))
    foil = _box(low, high_, eye, style, thin / 2 * eye.scale)
    return Layer((low[2] + high_[2]) / 2, NUMERAL, Group((foil,), "numeral", title=shape.char))


def _box(low: list[float], high: list[float], eye: Eye, style: Style, corner: float) -> Rect:
    (x0, y0), (x1, y1) = eye.at(low[0], high[1]), eye.at(high[0], low[1])
    return Rect(x0, y0, x1 - x0, y1 - y0, style, corner)
