"""Light and shade that lie on one flank of a blown stroke only: soft crescents along its edge.

What a shape covers and the same shape moved away from the light does not is a crescent along its
lit edge, thick where the edge faces the light and nothing where it runs with it: the cosine law of
a matt surface for the price of one difference. Several within one another make it soft.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from mockup.render.record import Path, Style
from mockup.render.rounded import TOWARD_LIGHT
from mockup.render.tones import Ink
from mockup.render.tracks import lines as polyline

if TYPE_CHECKING:
    from shapely import Geometry, MultiLineString

_SLACK, _SOFT_SLACK, _FAINT = 0.02, 0.07, 0.1
_SLIVER = 0.004


@dataclass(frozen=True)
class Flank:
    """A soft crescent, all lengths in half widths of the blown stroke.

    Its colour is the foil's own tone ``amount``.
    ``middle`` is its place toward the light (below zero: away from it); it fades from half width
    ``outer`` to ``inner`` in ``layers``, to opacity ``peak``. With ``outer`` 0 it lies on the edge
    itself and fades inward over ``inner``.
    """

    amount: float
    middle: float
    outer: float
    inner: float
    peak: float
    layers: int

    def bands(self) -> Iterator[tuple[float, float]]:
        """Outer radius and thickness of each layer's crescent."""
        for k in range(self.layers):
            share = (k + 0.5) / self.layers
            if self.outer == 0:
                yield abs(self.middle), self.inner * (1 - share)
            else:
                half = self.outer + (self.inner - self.outer) * share
                yield abs(self.middle) + half, 2 * half


def flank_paths(spine: MultiLineString, blown: float, flank: Flank, ink: Ink) -> Iterator[Path]:
    """The layers of a flank as filled paths. ``spine`` is the centre-lines in sheet mm, y down."""
    each = 1 - (1 - flank.peak) ** (1 / flank.layers)
    slack = _SLACK if each > _FAINT else _SOFT_SLACK
    style = Style(fill=ink(flank.amount), opacity=round(each, 4))
    for data in crescents(spine, blown, flank, slack):
        yield Path(data, style)


def crescents(spine: MultiLineString, blown: float, flank: Flank, slack: float) -> Iterator[str]:
    """Path data of each layer of a flank that leaves anything, within ``slack`` mm."""
    from shapely import buffer, difference, simplify, transform

    radii, thick = np.array(list(flank.bands())).T * blown
    sizes, which = np.unique(radii, return_inverse=True)
    wholes = simplify(buffer(spine, sizes, quad_segs=8), slack, preserve_topology=False)
    away = np.array(TOWARD_LIGHT) * (-1.0 if flank.middle > 0 else 1.0)
    for whole, far in zip(wholes[which], thick.tolist(), strict=True):
        data = _rings(difference(whole, transform(whole, lambda xy, by=far: xy + away * by)))
        if data:
            yield data


def _rings(shape: Geometry) -> str:
    """Path data of polygons, the exterior one way round and holes the other (nonzero rule)."""
    return "".join(
        polyline(np.asarray(ring.coords)[:-1], closed=True).data()
        for part in getattr(shape, "geoms", [shape])
        if part.geom_type == "Polygon" and part.area > _SLIVER
        for ring in (part.exterior, *part.interiors)
    )
