"""Holes of a sizing gauge laid out on pages, each with its label on the card that stays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from mockup.render.record import Circle, Group, Item, Line, Point, Style
from mockup.render.sheets.areas import Area, cell
from mockup.render.sheets.inks import HAIR, INK, SOFT, THIN
from mockup.render.sheets.lettering import SMALL_SHEET, Hand, set_height

WEB = 6.0
"""Card left between two holes or beside the edge, mm, so that it does not tear."""

CUT = Style(stroke=INK, stroke_width=0.25)
_CENTRE = Style(stroke=HAIR, stroke_width=THIN)


@dataclass(frozen=True)
class Hole:
    """One hole: its true ``diameter`` in mm, what it is called, and lines that say its use."""

    diameter: float
    name: str
    says: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Cell:
    hole: Hole
    lines: tuple[str, ...]
    width: float
    height: float


def packed(holes: Sequence[Hole], room: Area) -> tuple[list[tuple[Item, ...]], list[Hole]]:
    """The pages of holes that fit one, the largest first, and the holes that are too large."""
    cells = [_cell(hole, room.width) for hole in sorted(holes, key=lambda h: -h.diameter)]
    large = [c.hole for c in cells if c.width > room.width or c.height > room.height]
    shelves = _Shelves(room)
    for one in cells:
        if one.hole not in large:
            shelves.add(one)
    return [tuple(page) for page in shelves.pages], large


def _name_hand() -> Hand:
    return Hand(SMALL_SHEET.lead, "bold", role="hole")


def _use_hand() -> Hand:
    return Hand(SMALL_SHEET.small, colour=SOFT, role="use")


def _cell(hole: Hole, widest: float) -> _Cell:
    """The hole over its label; the label is as wide as the hole, and never narrower than a name."""
    width = max(hole.diameter + WEB, min(widest, _name_hand().width(hole.name) + WEB))
    wrapped = tuple(line for text in hole.says for line in _use_hand().wrapped(text, width - WEB))
    label = _name_hand().pitch + set_height(SMALL_SHEET.small, len(wrapped))
    return _Cell(hole, wrapped, width, hole.diameter + WEB + label + 2.0)


@dataclass
class _Shelves:
    """Cells in rows from the top, each row as tall as its first (tallest) cell."""

    room: Area
    pages: list[list[Item]] = field(default_factory=list)
    x: float = 0.0
    y: float = 0.0
    row: float = 0.0

    def add(self, one: _Cell) -> None:
        if not self.pages:
            self._turn()
        if self.x + one.width > self.room.right + 1e-9:
            self.x, self.y, self.row = self.room.x, self.y + self.row, 0.0
        if self.y + one.height > self.room.bottom + 1e-9:
            self._turn()
        self.pages[-1].append(_drawn(one, (self.x, self.y)))
        self.x += one.width
        self.row = max(self.row, one.height)

    def _turn(self) -> None:
        self.pages.append([])
        self.x, self.y, self.row = self.room.x, self.room.y, 0.0


def _drawn(one: _Cell, at: Point) -> Group:
    radius = one.hole.diameter / 2
    centre = (at[0] + one.width / 2, at[1] + WEB / 2 + radius)
    base = centre[1] + radius + WEB / 2
    name = _name_hand()
    uses, _ = _use_hand().set(one.lines, (centre[0], base + name.pitch - 1.0), "middle")
    items: tuple[Item, ...] = (
        hole_circle(one.hole, centre),
        name.at((centre[0], base + name.height), one.hole.name, "middle"),
        *uses,
    )
    return cell(one.hole.name, Area(*at, one.width, one.height), items)


def hole_circle(hole: Hole, centre: Point) -> Group:
    """The line to cut along, at its true size, with a small cross at the centre."""
    x, y = centre
    items: tuple[Item, ...] = (
        Circle(centre, hole.diameter / 2, CUT),
        Line((x - 2, y), (x + 2, y), _CENTRE),
        Line((x, y - 2), (x, y + 2), _CENTRE),
    )
    return Group(items, kind="hole", name=hole.name, title=f"hole {hole.name}")
