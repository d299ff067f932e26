"""A setting with the pieces that stand in it, seen from the front."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mockup.design.setting import HEAD_ROOM, SettingSpec
from mockup.piece.elevation.standing import Elevation
from mockup.piece.elevation.ways import Way
from mockup.render.front_view import front_view
from mockup.render.person import FIGURE_INK, person_outline
from mockup.render.record import Group, Item, Line, Path, Point, Rect, Style
from mockup.render.tones import Recolour, linear, ramp, veil
from mockup.render.viewpoint import ViewOptions

_WOOD, _CLOTH, _WALL, _BEYOND, _TRIM = "#8b7a66", "#f3efe8", "#eeebe6", "#d5d1cb", "#b9b2a8"
_SHADE = "#17121c"
_CLEAR, _NARROW = "#1d6b43", "#8f1d21"
WALL_ABOVE, BESIDE, FLOOR = 350.0, 450.0, 60.0
"""How far a wall goes on above what is before it and beside it, and how deep a floor is drawn."""
_TOP, _HEM, _FOLD = 40.0, 25.0, 240.0

Box = tuple[float, float, float, float]
"""Left, low, right, high, mm of the setting."""


def drawn_box(elevation: Elevation) -> Box:
    """All that is drawn, mm of the setting."""
    setting, pieces = elevation.setting, elevation.pieces_box
    half = setting.width / 2
    left, right = min(-half, pieces.x[0]), max(half, pieces.x[1])
    high = max(setting.height, pieces.y[1], HEAD_ROOM if setting.exits else 0.0)
    if setting.kind == "doorway":
        left, right, high = left - BESIDE, right + BESIDE, high + WALL_ABOVE
    elif setting.kind != "floor":
        left, right = left - BESIDE / 2, right + BESIDE / 2
    if setting.figure:
        left -= 0.42 * setting.figure
        high = max(high, setting.figure)
    return left, min(0.0, pieces.y[0]) - FLOOR, right, high


def elevation_view(
    elevation: Elevation,
    ways: Sequence[Way],
    scale: float,
    origin: Point,
    options: ViewOptions | None = None,
) -> Group:
    """The whole at ``scale`` sheet mm to a mm; the middle of the setting's floor at ``origin``."""
    draw = _Drawing(elevation, scale, origin, options or ViewOptions())
    items = (*draw.behind(), *draw.clear(ways), *draw.person(), *draw.pieces())
    return Group(items, "view", "elevation")


class _Drawing:
    """The elevation while it is drawn: from mm of the setting to the sheet."""

    def __init__(
        self, elevation: Elevation, scale: float, origin: Point, options: ViewOptions
    ) -> None:
        self.elevation, self.scale, self.origin, self.options = elevation, scale, origin, options
        self.setting: SettingSpec = elevation.setting
        self.box = drawn_box(elevation)

    @property
    def recolour(self) -> Recolour:
        return self.options.recolour

    def at(self, x: float, y: float) -> Point:
        return self.origin[0] + x * self.scale, self.origin[1] - y * self.scale

    def rect(self, box: Box, style: Style, corner: float = 0.0) -> Rect:
        x, y = self.at(box[0], box[3])
        wide, tall = (box[2] - box[0]) * self.scale, (box[3] - box[1]) * self.scale
        return Rect(x, y, wide, tall, style, corner * self.scale)

    def line(self, a: Point, b: Point, style: Style) -> Line:
        return Line(self.at(*a), self.at(*b), style)

    def behind(self) -> tuple[Item, ...]:
        """Wall, floor, and the stage or the table."""
        kind = self.setting.kind
        wall = self._wall() if kind == "doorway" else ()
        on = {"stage": self._stage, "table": self._table}.get(kind)
        return (*wall, *self._floor(), *(on() if on else ()))

    def _floor(self) -> Iterator[Item]:
        left, low, right, _ = self.box
        down = veil(_SHADE, ((0.0, 0.20), (0.4, 0.07), (1.0, 0.0)), self.recolour)
        paint = linear("floor", down, (0.0, 0.0), (0.0, 1.0))
        yield self.rect((left, low, right, 0.0), Style(fill=paint))
        ink = Style(stroke=self.recolour("#5b5e64"), stroke_width=0.35)
        yield self.line((left, 0.0), (right, 0.0), ink)

    def _wall(self) -> Iterator[Item]:
        left, _, right, high = self.box
        half, tall = self.setting.width / 2, self.setting.height
        up = ramp(_WALL, ((0.0, 0.30), (1.0, -0.03)), self.recolour)
        paint = linear("wall", up, (0.0, 0.0), (0.0, 1.0))
        yield self.rect((left, 0.0, right, high), Style(fill=paint))
        trim = min(90.0, half / 3)
        edge = Style(self.recolour(_TRIM), self.recolour("#8a8e95"), 0.18)
        yield self.rect((-half - trim, 0.0, half + trim, tall + trim), edge)
        deep = ramp(_BEYOND, ((0.0, -0.12), (0.5, 0.10), (1.0, 0.22)), self.recolour)
        beyond = linear("beyond", deep, (0.0, 0.0), (0.0, 1.0))
        yield self.rect((-half, 0.0, half, tall), Style(beyond, self.recolour("#8a8e95"), 0.18))

    def _stage(self) -> Iterator[Item]:
        half, tall = self.setting.width / 2, self.setting.height
        front = ramp(_WOOD, ((0.0, -0.34), (0.25, -0.08), (1.0, -0.24)), self.recolour)
        paint = linear("stage", front, (0.0, 0.0), (0.0, 1.0))
        yield self.rect((-half, 0.0, half, tall), Style(fill=paint))
        boards = max(1, round(2 * half / 1200.0))
        seam = Style(stroke=self.recolour("#3d342a"), stroke_width=0.18, opacity=0.45)
        for k in range(1, boards):
            x = -half + k * 2 * half / boards
            yield self.line((x, 0.0), (x, tall - _TOP), seam)
        lip = ramp(_WOOD, ((0.0, 0.45), (0.6, 0.18), (1.0, -0.1)), self.recolour)
        top = (-half - _HEM, tall - min(_TOP, tall / 2), half + _HEM, tall)
        yield self.rect(top, Style(fill=linear("boards", lip, (0.0, 0.0), (0.0, 1.0))), 6.0)

    def _table(self) -> Iterator[Item]:
        half, tall = self.setting.width / 2, self.setting.height
        folds = max(3, round(2 * half / _FOLD))
        stops = tuple((k / (2 * folds), 0.35 if k % 2 else -0.035) for k in range(2 * folds + 1))
        cloth = ramp(_CLOTH, stops, self.recolour)
        paint = linear("cloth", cloth, (0.0, 0.0), (1.0, 0.0))
        yield self.rect((-half, _HEM, half, tall), Style(fill=paint))
        down = veil(_SHADE, ((0.0, 0.0), (0.1, 0.05), (1.0, 0.16)), self.recolour)
        shade = linear("drop", down, (0.0, 0.0), (0.0, 1.0))
        yield self.rect((-half, _HEM, half, tall), Style(fill=shade))
        edge = Style(self.recolour(_CLOTH), self.recolour("#b9bcc2"), 0.18)
        yield self.rect((-half - _HEM / 2, tall - _HEM, half + _HEM / 2, tall), edge, 8.0)

    def clear(self, ways: Sequence[Way]) -> Iterator[Item]:
        """Every way that is wide enough, and every one that must be, up to head height."""
        ground = self.setting.top if self.setting.kind == "stage" else 0.0
        for way in ways:
            wide = way.width >= way.limit
            if way.width <= 0.0 or not (wide or way.must):
                continue
            colour = self.recolour(_CLEAR if wide else _NARROW)
            box = (way.low, ground, way.high, ground + HEAD_ROOM)
            yield self.rect(box, Style(fill=colour, opacity=0.10))
            ink = Style(stroke=colour, stroke_width=0.25, dash=(1.6, 1.0))
            for x in (way.low, way.high):
                yield self.line((x, ground), (x, ground + HEAD_ROOM), ink)
            yield self.line((way.low, box[3]), (way.high, box[3]), ink)

    def person(self) -> Iterator[Item]:
        """A plain figure for the size of things, standing on the floor at the left."""
        tall = self.setting.figure
        if tall:
            left = self.box[0] + 0.19 * tall
            outline = person_outline(self.at(left, 0.0), tall * self.scale)
            yield Path(outline, Style(self.recolour(FIGURE_INK)))

    def pieces(self) -> Iterator[Item]:
        """The pieces, those that stand further back first."""
        for one in sorted(self.elevation.standings, key=lambda one: one.at[2]):
            picture = front_view(one.piece, self.scale, self.at(*one.at[:2]), self.options)
            name = f"{one.row}-{one.number}"
            yield Group((picture,), "piece", name, one.piece.design.title)
