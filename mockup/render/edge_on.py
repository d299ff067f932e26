"""Things seen along their plane: the tube as a straight bar, a numeral as a welded pillow."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.colour.tones import tone
from mockup.packing.frames import Frame
from mockup.panel.numerals import NumeralShape
from mockup.panel.pen import Stroke
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
_SEAM, _SEAM_WIDTH = -0.55, 0.2
"""How dark the seam of a foil is, and how wide its line, mm on the sheet."""
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


def pillow(shape: NumeralShape, depths: tuple[float, float], colour: str, eye: Eye) -> Layer:
    """A numeral seen along its plane: its strokes blown up round, the weld round them all.

    ``depths`` are those of the weld in z, mm. A stroke is a ball drawn along its centre-line, which
    from the side is a bar with round ends; strokes that overlap there are one bar.
    """
    wide, high = shape.width / 2, shape.height / 2
    corners = [
        (shape.x - wide, shape.y - high, depths[0]),
        (shape.x + wide, shape.y + high, depths[1]),
    ]
    turned = eye.turned(corners)
    low, high_ = turned.min(axis=0).tolist(), turned.max(axis=0).tolist()
    along = 1 if high_[1] - low[1] > high_[0] - low[0] else 0
    upright, thin = along == 1, high_[1 - along] - low[1 - along]
    style = Style(fill=bar(colour, upright, eye.options.recolour))
    weld = _box(low, high_, eye, style, thin / 2 * eye.scale)
    bars = _blown(shape, (low[1 - along] + high_[1 - along]) / 2, along, style, eye)
    seam = _seam(low, high_, along, eye.options.recolour(tone(colour, _SEAM)), eye)
    foil = Group((weld, *bars, seam), "numeral", title=shape.char)
    return Layer((low[2] + high_[2]) / 2, NUMERAL, foil)


def _blown(
    shape: NumeralShape, middle: float, along: int, style: Style, eye: Eye
) -> tuple[Rect, ...]:
    """The bars of the strokes, ``middle`` mm across the view and as thick as they are blown up."""
    r = shape.bulge
    ends = sorted(
        (float(at.min()) - r, float(at.max()) + r)
        for at in (_along(stroke, along, eye) for stroke in shape.strokes)
    )
    bars: list[tuple[float, float]] = []
    for start, end in ends:
        if bars and start <= bars[-1][1]:
            bars[-1] = (bars[-1][0], max(bars[-1][1], end))
        else:
            bars.append((start, end))
    return tuple(
        _box(*_spans(along, bar_, (middle - r, middle + r)), eye, style, r * eye.scale)
        for bar_ in bars
    )


def _along(stroke: Stroke, along: int, eye: Eye) -> NDArray[np.float64]:
    return eye.turned(np.column_stack([stroke, np.zeros(len(stroke))]))[:, along]


def _spans(
    along: int, long: tuple[float, float], across: tuple[float, float]
) -> tuple[list[float], list[float]]:
    """The low and high corners of a box that is ``long`` along one axis of the view."""
    low, high = [across[0]] * 2, [across[1]] * 2
    low[along], high[along] = long
    return low, high


def _seam(low: list[float], high: list[float], along: int, colour: str, eye: Eye) -> Rect:
    """The weld in the middle plane, as a thin line from end to end."""
    middle, half = (low[1 - along] + high[1 - along]) / 2, _SEAM_WIDTH / 2 / eye.scale
    ends = (low[along] + half, high[along] - half)
    return _box(*_spans(along, ends, (middle - half, middle + half)), eye, Style(fill=colour), 0.0)


def _box(low: list[float], high: list[float], eye: Eye, style: Style, corner: float) -> Rect:
    (x0, y0), (x1, y1) = eye.at(low[0], high[1]), eye.at(high[0], low[1])
    return Rect(x0, y0, x1 - x0, y1 - y0, style, corner)
