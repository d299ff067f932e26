"""A picture turned into balloons: each cell's mean colour, and the nearest of the colours at hand.

Colours are averaged in linear light, as the eye does from afar (IEC 61966-2-1 decodes sRGB), and
compared by CIEDE2000.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from mockup.colour.difference import difference
from mockup.colour.srgb import decoded, from_linear

Bytes = NDArray[np.uint8]
Floats = NDArray[np.float64]
Box = tuple[float, float, float, float]
"""Left, top, right and bottom in pixels; what lies outside the picture is seen through."""

_DECODED = np.array([decoded(value / 255) for value in range(256)])
_SEEN_THROUGH = 0.5


class Seen(NamedTuple):
    """What a cell shows: its mean colour as #rrggbb, "" where it is more clear than not."""

    colour: str


class Nearest(NamedTuple):
    """A cell's letter and how far (CIEDE2000) its colour is from what it shows."""

    letter: str
    away: float


def mean_colours(rgba: Bytes, boxes: Sequence[Box]) -> Iterator[Seen]:
    """The mean of the picture (height, width, 4) over each box, exact to parts of a pixel.

    The picture's transparency weighs its colours.

    >>> black_and_white = np.array([[[0, 0, 0, 255], [255, 255, 255, 255]]], dtype=np.uint8)
    >>> [seen.colour for seen in mean_colours(black_and_white, [(0, 0, 2, 1), (1, 0, 2, 1)])]
    ['#bcbcbc', '#ffffff']
    """
    corners = np.array(boxes, dtype=np.float64).reshape(-1, 4)
    alpha = rgba[:, :, 3] / 255.0
    inked = _over(alpha, corners)
    light = [_over(_DECODED[rgba[:, :, k]] * alpha, corners) for k in range(3)]
    area = (corners[:, 2] - corners[:, 0]) * (corners[:, 3] - corners[:, 1])
    for red, green, blue, ink, whole in zip(*light, inked, area, strict=True):
        if ink < _SEEN_THROUGH * whole:
            yield Seen("")
        else:
            yield Seen(from_linear((float(red / ink), float(green / ink), float(blue / ink))))


def _over(values: Floats, corners: Floats) -> Floats:
    """The integral of an array of pixels over each box, by sums from its top left corner."""
    high, wide = values.shape
    sums = np.zeros((high + 1, wide + 1))
    np.cumsum(np.cumsum(values, axis=0), axis=1, out=sums[1:, 1:])

    def upto(x: Floats, y: Floats) -> Floats:
        x, y = np.clip(x, 0, wide), np.clip(y, 0, high)
        left = np.minimum(x.astype(np.intp), wide - 1)
        top = np.minimum(y.astype(np.intp), high - 1)
        a, b = x - left, y - top
        upper = (1 - a) * sums[top, left] + a * sums[top, left + 1]
        lower = (1 - a) * sums[top + 1, left] + a * sums[top + 1, left + 1]
        return np.asarray((1 - b) * upper + b * lower)

    x0, y0, x1, y1 = corners.T
    return upto(x1, y1) - upto(x0, y1) - upto(x1, y0) + upto(x0, y0)


def nearest_letter(colour: str, letters: Mapping[str, str]) -> Nearest:
    """The letter whose colour is nearest to ``colour`` (#rrggbb); of equals the first.

    >>> nearest_letter("#1a1a1a", {"A": "#ffffff", "B": "#000000"}).letter
    'B'
    """
    away = {letter: difference(colour, own) for letter, own in letters.items()}
    best = min(away, key=lambda letter: away[letter])
    return Nearest(best, away[best])
