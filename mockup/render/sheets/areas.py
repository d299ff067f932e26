"""Rectangles of a sheet, and the pieces of a sheet that know how tall they came out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mockup.render.record import Group, Item, Point, Rect
from mockup.render.sheets.inks import UNSEEN

PAD = 5.0
"""White between a line of the frame and what stands beside it, mm."""


@dataclass(frozen=True)
class Area:
    """An upright rectangle on a sheet, mm, y down.

    >>> Area(10, 10, 80, 40).inset(5).bottom
    45
    """

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """x of the right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """y of the lower edge."""
        return self.y + self.height

    def inset(self, by: float) -> Area:
        """The area without a margin of ``by`` mm all round."""
        return Area(self.x + by, self.y + by, self.width - 2 * by, self.height - 2 * by)

    def moved(self, x: float, y: float) -> Area:
        """The area moved right by ``x`` and down by ``y``."""
        return Area(self.x + x, self.y + y, self.width, self.height)

    def holds(self, other: Area, slack: float = 0.0) -> bool:
        """Whether ``other`` lies within, give or take ``slack`` mm."""
        return (
            other.x >= self.x - slack
            and other.y >= self.y - slack
            and other.right <= self.right + slack
            and other.bottom <= self.bottom + slack
        )

    def meets(self, other: Area) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.x < other.right
            and other.x < self.right
            and self.y < other.bottom
            and other.y < self.bottom
        )


def hull(areas: Sequence[Area]) -> Area:
    """The smallest area that holds them all.

    >>> hull([Area(0, 0, 10, 10), Area(20, 5, 10, 10)])
    Area(x=0, y=0, width=30, height=15)
    """
    left, top = min(area.x for area in areas), min(area.y for area in areas)
    right, bottom = max(area.right for area in areas), max(area.bottom for area in areas)
    return Area(left, top, right - left, bottom - top)


@dataclass(frozen=True)
class Block:
    """Items drawn from a top left corner downward, and the height they came to, mm."""

    items: tuple[Item, ...]
    height: float


Builder = Callable[[Point, float], Block]
"""Draws a block from a top left corner at a width: measuring and drawing are one function."""


def cell(name: str, area: Area, items: tuple[Item, ...]) -> Group:
    """Items that belong inside ``area``; a text of theirs that leaves it is found as a fault."""
    bounds = Rect(area.x, area.y, area.width, area.height, UNSEEN)
    return Group((bounds, *items), kind="cell", name=name)


def stacked(builders: Sequence[Builder], at: Point, width: float, gap: float) -> Block:
    """Blocks one under another with ``gap`` mm between them."""
    items: list[Item] = []
    y = at[1]
    for build in builders:
        block = build((at[0], y), width)
        items += block.items
        y += block.height + (gap if block.height else 0.0)
    return Block(tuple(items), max(0.0, y - at[1] - gap))
