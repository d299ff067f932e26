"""What words and lines take of a sheet: boxes that nothing else may stand in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mockup.render.pathdata import bounding_box
from mockup.render.record import Circle, Ellipse, Group, Item, Line, Path, Place, Rect, Text
from mockup.render.sheets.areas import Area, hull
from mockup.render.text import bounds

TITLE_BLOCK = "title block"
_TO_WRITE = 9.0
"""Kept free over a line across, on which something may be written by hand, mm."""


def inked(items: Iterable[Item]) -> Iterator[Area]:
    """The box of each item; a title block is one box, and a rectangle only where it is filled.

    >>> from mockup.render.record import Style
    >>> line = Line((10.0, 40.0), (60.0, 40.0), Style(stroke="#000000"))
    >>> [(box.y, box.bottom) for box in inked([line])]
    [(31.0, 40.0)]
    """
    for item in items:
        if isinstance(item, Group):
            inside = list(inked(item.items))
            yield from [hull(inside)] if item.kind == TITLE_BLOCK and inside else inside
        elif isinstance(item, Place):
            inside = list(inked(item.symbol.items))
            if inside:
                yield _placed(hull(inside), item)
        else:
            yield from _box(item)


def _placed(box: Area, place: Place) -> Area:
    """The box of what is placed, whichever way it is turned."""
    (x, y), scale = place.at, place.scale
    if not place.turn:
        return Area(x + scale * box.x, y + scale * box.y, scale * box.width, scale * box.height)
    far = scale * max(map(abs, (box.x, box.y, box.right, box.bottom))) * 2**0.5
    return Area(x - far, y - far, 2 * far, 2 * far)


def _box(item: Item) -> Iterator[Area]:
    if isinstance(item, Text):
        yield _between(*bounds(item))
    elif isinstance(item, Line):
        (x0, y0), (x1, y1) = item.start, item.end
        over = _TO_WRITE if y0 == y1 else 0.0
        yield _between(min(x0, x1), min(y0, y1) - over, max(x0, x1), max(y0, y1))
    elif isinstance(item, Circle):
        (x, y), r = item.centre, item.r
        yield _between(x - r, y - r, x + r, y + r)
    elif isinstance(item, Ellipse):
        (x, y), r = item.centre, max(item.rx, item.ry)
        yield _between(x - r, y - r, x + r, y + r)
    elif isinstance(item, Path):
        yield _between(*bounding_box(item.d))
    elif isinstance(item, Rect) and item.style.fill != "none":
        yield Area(item.x, item.y, item.width, item.height)


def _between(left: float, top: float, right: float, bottom: float) -> Area:
    return Area(left, top, right - left, bottom - top)
