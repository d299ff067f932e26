"""From where a piece is looked at, and how its millimetres land on the sheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mockup.design.model import ColourUse
from mockup.render.record import Item, Point
from mockup.render.tones import Recolour, as_it_is

Floats = NDArray[np.float64]
Side = Literal["front", "right", "above"]
Triple = tuple[float, float, float]


@dataclass(frozen=True)
class Viewpoint:
    """Three unit axes of the piece: to the right on the sheet, up on it, and toward the viewer.

    Seen from the right, z runs to the left, so that the front of the piece lies next to a front
    view drawn on its left; seen from above, z runs down the sheet, so that the front of the piece
    lies next to a front view drawn below (third-angle places, ISO 5456-2).
    """

    name: Side
    right: Triple
    up: Triple
    toward: Triple

    def turned(self, points: Floats) -> Floats:
        """Piece points (k, 3) as right, up and toward, mm.

        >>> RIGHT.turned(np.array([[1.0, 2.0, 3.0]])).tolist()
        [[-3.0, 2.0, 1.0]]
        """
        axes = np.array([self.right, self.up, self.toward])
        return np.asarray(points @ axes.T + 0.0)


FRONT = Viewpoint("front", (1, 0, 0), (0, 1, 0), (0, 0, 1))
RIGHT = Viewpoint("right", (0, 0, -1), (0, 1, 0), (1, 0, 0))
ABOVE = Viewpoint("above", (1, 0, 0), (0, 0, -1), (0, 1, 0))


@dataclass(frozen=True)
class ViewOptions:
    """How a view is drawn.

    ``letters`` writes each balloon's letter on it. ``colours`` maps letters to colours in place of
    the design's own (a colourway), ``foil`` likewise. ``recolour`` changes every colour at the
    last moment (grey, or as another eye sees it). Without ``shadows`` nothing throws a shade.
    """

    letters: bool = False
    colours: Mapping[str, ColourUse] | None = None
    foil: ColourUse | None = None
    recolour: Recolour = as_it_is
    shadows: bool = True


@dataclass(frozen=True)
class Eye:
    """A view being drawn: from where, how large (sheet mm to a mm), where it lands, and how.

    A turned point (a, b) is drawn at (x + a*scale, y - b*scale) of ``origin``, sheet mm.

    >>> Eye(FRONT, 0.1, (100.0, 150.0)).at(50.0, 20.0)
    (105.0, 148.0)
    """

    viewpoint: Viewpoint
    scale: float
    origin: Point
    options: ViewOptions = ViewOptions()

    def at(self, a: float, b: float) -> Point:
        """The sheet point of a turned point, mm."""
        return (self.origin[0] + a * self.scale, self.origin[1] - b * self.scale)

    def turned(self, points: ArrayLike) -> Floats:
        """Piece points (k, 3) as right, up and toward, mm."""
        return self.viewpoint.turned(np.asarray(points, dtype=np.float64).reshape(-1, 3))

    def recolour(self, colour: str) -> str:
        """A colour as this view shows it."""
        return self.options.recolour(colour)


POLE, TUBE, KNOT, BALLOON, NUMERAL = range(5)
"""Ranks: what of two things at one depth lies on top."""


class Layer(NamedTuple):
    """Something to draw at a depth (mm toward the viewer); of one depth, lower ``rank`` first."""

    depth: float
    rank: int
    item: Item


def in_order(layers: list[Layer]) -> tuple[Item, ...]:
    """The items from the back to the front; equal depths (to 1 nm) keep rank, then list order."""
    return tuple(each.item for each in sorted(layers, key=lambda it: (round(it.depth, 6), it.rank)))
