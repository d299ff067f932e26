"""The views of a piece that go on a sheet, each with its dimensions, laid beside each other."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from mockup.piece.placed import Piece
from mockup.render.dimensions import Dimensioned, Heights, dimensioned
from mockup.render.fonts import Faces, faces
from mockup.render.record import Point
from mockup.render.sheets.areas import Area, hull
from mockup.render.sheets.lettering import Hand, Lettering
from mockup.render.sheets.measures import (
    Printed,
    Span,
    depth_span,
    front_spans,
    measured,
    plan_depth_span,
)
from mockup.render.sheets.scale import Scaled
from mockup.render.sheets.scale_figure import ScaleFigure, Standing, standing

Aspect = Literal["front", "side", "plan"]
APART = 9.0
"""White between two views, mm."""

Range = tuple[float, float]


@dataclass(frozen=True)
class Seen:
    """A piece from one side: its caption, and its extent to the right and up as seen, mm.

    ``figure`` stands beside it for scale.
    """

    aspect: Aspect
    caption: str
    across: Range
    up: Range
    spans: tuple[Span, ...]
    figure: ScaleFigure | None = None


def all_seen(
    piece: Piece, aspects: Sequence[Aspect], figure: ScaleFigure | None = None
) -> tuple[Seen, ...]:
    """The piece as it is seen in its views; a scale figure stands beside its front only.

    The view from above tells the depth where no view from the side does.
    """
    views = tuple(_SEEN[aspect](piece) for aspect in aspects)
    depth = (plan_depth_span(piece),) if "side" not in aspects else ()
    return tuple(
        replace(
            view,
            figure=figure if view.aspect == "front" else None,
            spans=depth if view.aspect == "plan" else view.spans,
        )
        for view in views
    )


def _front(piece: Piece) -> Seen:
    spans = tuple(front_spans(piece))
    return Seen("front", "Front", piece.extent.x, piece.extent.y, spans)


def _side(piece: Piece) -> Seen:
    spans = (depth_span(piece),)
    return Seen("side", "From the right", _backward(piece.extent.z), piece.extent.y, spans)


def _plan(piece: Piece) -> Seen:
    return Seen("plan", "From above", piece.extent.x, _backward(piece.extent.z), ())


def _backward(z: Range) -> Range:
    return (-z[1], -z[0])


_SEEN: dict[str, Callable[[Piece], Seen]] = {"front": _front, "side": _side, "plan": _plan}


@dataclass(frozen=True)
class Laid:
    """A view with its dimensions where it lies at 1 : ``scale``, its caption under it."""

    seen: Seen
    scale: int
    origin: Point
    dimensions: Dimensioned
    caption: Point | None = None
    figure: Standing | None = None

    @property
    def on_sheet(self) -> Scaled:
        """Piece mm as seen (right, up) to the sheet."""
        return Scaled(self.scale, self.origin)

    @property
    def areas(self) -> tuple[Area, ...]:
        """Everything it inks but the caption."""
        own = tuple(Area(x0, y0, x1 - x0, y1 - y0) for x0, y0, x1, y1 in self.dimensions.boxes)
        return (*own, *self.figure.areas) if self.figure else own


@dataclass(frozen=True)
class Layout:
    """Views about the origin of the first one, ready to be moved onto a sheet."""

    views: tuple[Seen, ...]
    offsets: tuple[Point, ...]
    scale: int
    printed: Printed
    lettering: Lettering

    def at(self, origin: Point) -> tuple[Laid, ...]:
        """The views with the first one's origin at ``origin`` on the sheet."""
        return tuple(
            self._laid(view, (origin[0] + x, origin[1] + y))
            for view, (x, y) in zip(self.views, self.offsets, strict=True)
        )

    def areas(self) -> tuple[Area, ...]:
        """Everything that is inked, about the first view's origin."""
        return tuple(area for laid in self.at((0.0, 0.0)) for area in _with_caption(laid, self))

    def _laid(self, view: Seen, origin: Point) -> Laid:
        laid = self._with_figure(Laid(view, self.scale, origin, self._dimensions(view, origin)))
        if len(self.views) == 1 and view.aspect == "front":
            return laid  # a front view alone explains itself
        box = hull(laid.areas)
        return replace(laid, caption=(laid.areas[0].x, box.bottom + 1.8 * self.lettering.body))

    def _with_figure(self, laid: Laid) -> Laid:
        """The view with its scale figure left of it, on the floor that the piece stands on."""
        view = laid.seen
        if view.figure is None:
            return laid
        ground, beside = laid.on_sheet.at(view.across[1], view.up[0]), hull(laid.areas)
        figure = standing(
            view.figure,
            beside,
            ground,
            self.scale,
            printed=self.printed,
            lettering=self.lettering,
        )
        return replace(laid, figure=figure)

    def _dimensions(self, view: Seen, origin: Point) -> Dimensioned:
        scaled = Scaled(self.scale, origin)
        return _dimensions(view, scaled, self.printed, self.lettering, faces())


@lru_cache(64)
def _dimensions(
    view: Seen, sheet: Scaled, printed: Printed, lettering: Lettering, _font: Faces
) -> Dimensioned:
    """Kept: a view is tried on several sheets, and every colourway's sheet has the same ones.

    How wide they are lettered goes with the font.
    """
    measures = measured(view.spans, sheet.at, printed)
    outline = (*sheet.at(view.across[0], view.up[1]), *sheet.at(view.across[1], view.up[0]))
    return dimensioned(measures, outline, dimension_heights(lettering))


def dimension_heights(lettering: Lettering) -> Heights:
    """Figures in the body's height, their names in the small one's."""
    return Heights(lettering.body, lettering.small)


def _with_caption(laid: Laid, layout: Layout) -> tuple[Area, ...]:
    if laid.caption is None:
        return laid.areas
    hand = caption_hand(layout.lettering)
    x, y = laid.caption
    wide = hand.width(laid.seen.caption)
    return (*laid.areas, Area(x, y - hand.height, wide, 1.4 * hand.height))


def caption_hand(lettering: Lettering) -> Hand:
    """How a view's caption is lettered."""
    return Hand(lettering.body, "bold", role="view")


Arrangement = Callable[[Sequence[Aspect], Sequence[Area]], list[Point]]
"""From views and the boxes they ink about their own origins to the offsets of these origins."""


def laid_out(
    views: Sequence[Seen],
    scale: int,
    lettering: Lettering,
    printed: Printed,
    *,
    arrangement: Arrangement | None = None,
) -> Layout:
    """The views at one scale, by projection unless another arrangement is given."""
    nowhere = tuple((0.0, 0.0) for _ in views)
    layout = Layout(tuple(views), nowhere, scale, printed, lettering)
    if len(views) == 1:
        return layout
    boxes = [hull(_with_caption(laid, layout)) for laid in layout.at((0.0, 0.0))]
    aspects = [view.aspect for view in views]
    return replace(layout, offsets=tuple((arrangement or by_projection)(aspects, boxes)))


def by_projection(aspects: Sequence[Aspect], boxes: Sequence[Area]) -> list[Point]:
    """The view from the right at the right of the first, the one from above on top of it.

    These are the places of third-angle projection (ISO 5456-2).
    """
    first = boxes[0]
    offsets: list[Point] = []
    for aspect, box in zip(aspects, boxes, strict=True):
        right = first.right + APART - box.x if aspect == "side" else 0.0
        down = first.y - APART - box.bottom if aspect == "plan" else 0.0
        offsets.append((right, down))
    return offsets


def in_a_row(aspects: Sequence[Aspect], boxes: Sequence[Area]) -> list[Point]:
    """Side by side, foot to foot."""
    del aspects
    offsets, x = [(0.0, 0.0)], boxes[0].right
    for box in boxes[1:]:
        offsets.append((x + 3 * APART - box.x, boxes[0].bottom - box.bottom))
        x = offsets[-1][0] + box.right
    return offsets


def in_a_column(aspects: Sequence[Aspect], boxes: Sequence[Area]) -> list[Point]:
    """One under another, the first on top."""
    del aspects
    offsets, y = [(0.0, 0.0)], boxes[0].bottom
    for box in boxes[1:]:
        offsets.append((0.0, y + 2 * APART - box.y))
        y = offsets[-1][1] + box.bottom
    return offsets
