"""A hole larger than a page, on tiles to cut and join: marks meet where two tiles meet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, hypot

from mockup.render.record import Group, Item, Line, Path, Point, Rect, Style
from mockup.render.sheets.areas import Area
from mockup.render.sheets.gauge_holes import WEB, Hole, hole_circle
from mockup.render.sheets.inks import INK, SOFT, THIN
from mockup.render.sheets.lettering import SMALL_SHEET, Hand

LAP = 10.0
"""How far a tile is printed beyond its join line, for the next tile to be glued on, mm."""

_MARK = 3.0
_LABEL = (40.0, 32.0)
_JOIN = Style(stroke=SOFT, stroke_width=THIN, dash=(2.0, 1.2))
_CUT_HERE = Style(stroke=INK, stroke_width=THIN)


@dataclass(frozen=True)
class Tile:
    """One page of a large hole."""

    name: str
    items: tuple[Item, ...]


@dataclass(frozen=True)
class _Grid:
    hole: Hole
    room: Area

    @property
    def side(self) -> float:
        return self.hole.diameter + 2 * WEB

    @property
    def step(self) -> tuple[float, float]:
        return self.room.width - LAP, self.room.height - LAP

    @property
    def counts(self) -> tuple[int, int]:
        """Columns and rows."""
        across, down = self.step
        return ceil((self.side - LAP) / across), ceil((self.side - LAP) / down)

    def corner(self, column: int, row: int) -> Point:
        """Where the tile's own corner lies in the square round the hole, mm."""
        return column * self.step[0], row * self.step[1]

    def is_cut(self, column: int, row: int) -> bool:
        """Whether the line to cut, or the card beside it, crosses the tile."""
        (x, y), middle = self.corner(column, row), self.side / 2
        left, right = x - middle, x + self.room.width - middle
        top, bottom = y - middle, y + self.room.height - middle
        nearest = hypot(max(left, 0.0, -right), max(top, 0.0, -bottom))
        furthest = hypot(max(abs(left), abs(right)), max(abs(top), abs(bottom)))
        radius = self.hole.diameter / 2
        return nearest <= radius + WEB and furthest >= radius


def tiles(hole: Hole, room: Area) -> Iterator[Tile]:
    """The tiles of a hole, row by row, without those wholly inside it or off its card."""
    grid = _Grid(hole, room)
    columns, rows = grid.counts
    for row in range(rows):
        for column in range(columns):
            if grid.is_cut(column, row):
                yield _tile(grid, column, row)


def tile_name(column: int, row: int) -> str:
    """Rows by letter, columns by number.

    >>> tile_name(0, 1)
    'B1'
    """
    return f"{chr(ord('A') + row)}{column + 1}"


def _tile(grid: _Grid, column: int, row: int) -> Tile:
    room, (x, y) = grid.room, grid.corner(column, row)
    name = tile_name(column, row)
    origin = (room.x - x, room.y - y)
    middle = (origin[0] + grid.side / 2, origin[1] + grid.side / 2)
    edge = f"M{room.x} {room.y}H{room.right}V{room.bottom}H{room.x}Z"
    inside = (hole_circle(grid.hole, middle), *_joins(grid, column, row, origin))
    items: tuple[Item, ...] = (
        Group(inside, kind="tile", name=name, clip=edge),
        Rect(room.x, room.y, room.width, room.height, _CUT_HERE),
        *_label(grid, middle, name),
    )
    return Tile(f"{grid.hole.name}, tile {name}", items)


def _joins(grid: _Grid, column: int, row: int, origin: Point) -> Iterator[Item]:
    """Join lines with diamonds that two neighbours print at the same place of the hole's square."""
    columns, rows = grid.counts
    across, down = grid.step
    room = grid.room
    for line in range(max(1, column), min(column + 2, columns)):
        x = origin[0] + line * across
        yield Line((x, room.y), (x, room.bottom), _JOIN)
        for share in (0.25, 0.75):
            yield _diamond((x, room.y + share * room.height), f"{line}")
    for line in range(max(1, row), min(row + 2, rows)):
        y = origin[1] + line * down
        yield Line((room.x, y), (room.right, y), _JOIN)
        for share in (0.25, 0.75):
            yield _diamond((room.x + share * room.width, y), f"{line}")


def _diamond(at: Point, name: str) -> Group:
    (x, y), r = at, _MARK
    d = f"M{x - r:.3f} {y:.3f}L{x:.3f} {y - r:.3f}L{x + r:.3f} {y:.3f}L{x:.3f} {y + r:.3f}Z"
    return Group((Path(d, Style("#d9dbde", INK, THIN)),), kind="join mark", name=name)


def _label(grid: _Grid, middle: Point, name: str) -> tuple[Item, ...]:
    """The tile's name and how to join it, inside the hole: as near its middle as the tile goes."""
    bold = Hand(SMALL_SHEET.title, "bold", SOFT, role="tile")
    quiet = Hand(SMALL_SHEET.small, colour=SOFT, role="join")
    columns, rows = grid.counts
    said = (
        f"Tile {name} of A1 to {tile_name(columns - 1, rows - 1)}, hole {grid.hole.name}. "
        "Cut along the solid edge; lay each tile's edge on the dashed line of the one before it, "
        "so that the diamonds close."
    )
    lines = quiet.wrapped(said, _LABEL[0])
    x = _within(middle[0] - _LABEL[0] / 2, grid.room.x, grid.room.width, _LABEL[0])
    y = _within(middle[1] + 4.0, grid.room.y, grid.room.height, _LABEL[1])
    return (bold.at((x, y + bold.height), name), *quiet.set(lines, (x, y + bold.pitch))[0])


def _within(wanted: float, start: float, long: float, own: float) -> float:
    """``wanted``, moved so that ``own`` mm from it stay clear of the tile's joins."""
    return min(max(wanted, start + 5.0), start + long - LAP - 4.0 - own)
