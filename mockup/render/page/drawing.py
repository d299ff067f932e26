"""The drawing of the page: the piece in all its colourways at one scale, with its dimensions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from mockup.design.ways import Way, ways
from mockup.piece.placed import Piece
from mockup.render.balloons import shaded_ball
from mockup.render.front_view import front_view
from mockup.render.page.inline import Inline, inline
from mockup.render.page.switching import Turner
from mockup.render.record import Group, Item, Sheet
from mockup.render.sheets.areas import Area, hull
from mockup.render.sheets.aspects import Aspect, Laid, all_seen, laid_out
from mockup.render.sheets.hatching import hatched
from mockup.render.sheets.key import KeyRow
from mockup.render.sheets.lettering import Lettering
from mockup.render.sheets.measures import Printed, Units
from mockup.render.sheets.rulers import bar_size, scale_bar
from mockup.render.sheets.scale_figure import ScaleFigure
from mockup.render.side_view import plan_view, side_view
from mockup.render.viewpoint import ViewOptions

PAGE_LETTERING = Lettering(small=2.5, body=3.5, lead=5.0, title=7.0)
"""Larger than on paper, since a phone shows the drawing small."""
BALL = 5.0
"""Radius of a ball of the key, mm."""

_ROOM = 3.0
_VIEWS = {"front": front_view, "side": side_view, "plan": plan_view}


@dataclass(frozen=True)
class PageDrawing:
    """Markup of the drawing and of its scale bar with their sizes (mm), and of the key's balls."""

    parts: Inline
    width: float
    height: float
    bar: tuple[float, float]

    @property
    def view_box(self) -> str:
        """The drawing's own coordinates."""
        return f"0 0 {self.width:g} {self.height:g}"

    def ball(self, way: int, row: int) -> str:
        """The ball of a row of a colourway's key, about the origin."""
        return self.parts.groups[_ball_name(way, row)]


def page_drawing(
    piece: Piece,
    keys: Sequence[Sequence[KeyRow]],
    *,
    scale: int,
    views: tuple[Aspect, ...] = ("front",),
    units: Units = "own",
    options: ViewOptions | None = None,
    figure: ScaleFigure | None = None,
) -> PageDrawing:
    """The piece at 1 : ``scale``; ``keys`` are the rows of each colourway's key."""
    printed = Printed(piece.design.unit, units)
    aspects = all_seen(piece, views, figure)
    layout = laid_out(aspects, scale, PAGE_LETTERING, printed)
    box = hull(layout.areas())
    size = Area(0.0, 0.0, _up(box.width + 2 * _ROOM), _up(box.height + 2 * _ROOM))
    laid = layout.at((_ROOM - box.x, _ROOM - box.y))
    turner, chosen = Turner(), options or ViewOptions()
    drawn = tuple(item for each in laid for item in _drawn(piece, each, turner, chosen))
    unit = piece.design.unit
    items = (
        Group(drawn, kind="drawing"),
        Group(scale_bar((1.0, 1.0), PAGE_LETTERING, scale, unit).items, kind="bar"),
        *_balls(keys),
    )
    wide, tall = bar_size(PAGE_LETTERING, scale, unit)
    parts = inline(Sheet(size.width, size.height, items, background="none"))
    return PageDrawing(parts, size.width, size.height, (wide + 2.0, tall + 2.0))


def _up(length: float) -> float:
    return round(length + 0.05, 1)


def _drawn(piece: Piece, laid: Laid, turner: Turner, options: ViewOptions) -> tuple[Item, ...]:
    """One view in all colourways, between its extension lines and its dimensions."""
    front = laid.seen.aspect == "front"
    draw = _VIEWS[laid.seen.aspect]
    pictures = [
        draw(piece, 1 / laid.scale, laid.origin, way_options(options, way))
        for way in ways(piece.design)
    ]
    return (
        *(laid.figure.items(options.recolour) if laid.figure else ()),
        *(hatched(piece.window, laid.on_sheet.at) if front and piece.fit else ()),
        Group((laid.dimensions.behind,), kind="dimensions"),
        *turner.together(pictures),
        Group((laid.dimensions.over,), kind="dimensions"),
    )


def way_options(options: ViewOptions, way: Way) -> ViewOptions:
    """The same drawing in a colourway's colours."""
    return replace(options, colours=way.colours, foil=way.foil)


def _balls(keys: Sequence[Sequence[KeyRow]]) -> list[Group]:
    """Every row's ball; the rows' colours are already as they are to be seen."""
    return [
        Group((shaded_ball((0.0, 0.0), BALL, row.colour),), kind=_ball_name(way, number))
        for way, rows in enumerate(keys, start=1)
        for number, row in enumerate(rows, start=1)
    ]


def _ball_name(way: int, row: int) -> str:
    return f"ball-{way}-{row}"
