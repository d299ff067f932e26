"""A measuring strip at 1:1 for those who size a balloon by its girth: C = pi d."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, pi

from mockup.lengths import Unit, format_length
from mockup.render.record import Group, Item, Line, Point, Rect, Style
from mockup.render.sheets.areas import Area
from mockup.render.sheets.gauge_holes import Hole
from mockup.render.sheets.inks import INK, SOFT, THIN
from mockup.render.sheets.lettering import SMALL_SHEET, Hand

_TALL = 20.0
_PITCH = 25.0
_TAB = 10.0
_WORDS = 12.0
_EDGE = Style(stroke=INK, stroke_width=THIN)
_TICK = Style(stroke=INK, stroke_width=THIN)
_MARK = Style(stroke=INK, stroke_width=0.5)
_TICKS: dict[Unit, tuple[float, int]] = {"cm": (5.0, 2), "in": (6.35, 4)}
"""Mm between two ticks, and every which tick is long."""

SAYS = (
    "Measuring strip: cut the strips out, glue each one's left edge on the line of the tab before "
    "it, and lay it round the balloon's widest part. Zero is the left end of strip 1."
)


@dataclass(frozen=True)
class _Strips:
    """The whole strip cut into ``count`` parts of ``long`` mm."""

    holes: tuple[Hole, ...]
    unit: Unit
    long: float
    count: int


def strip_pages(holes: Sequence[Hole], room: Area, unit: Unit) -> Iterator[tuple[Item, ...]]:
    """Strips long enough for the largest hole's girth, with a mark at each hole's; page by page."""
    step, _ = _TICKS[unit]
    long = (room.width - _TAB) // step * step
    girth = max((pi * hole.diameter for hole in holes), default=0.0)
    strips = _Strips(tuple(holes), unit, long, ceil((girth + 5.0) / long))
    on_page = int((room.height - _WORDS) // _PITCH)
    for first in range(0, strips.count, on_page):
        items: list[Item] = list(_words(room)) if first == 0 else []
        for number in range(first, min(strips.count, first + on_page)):
            at = (room.x, room.y + _WORDS + (number - first) * _PITCH)
            items.append(_strip(strips, number, at))
        yield tuple(items)


def _words(room: Area) -> tuple[Item, ...]:
    hand = Hand(SMALL_SHEET.small, colour=SOFT, role="strip")
    return hand.set(hand.wrapped(SAYS, room.width), (room.x, room.y + 1.0))[0]


def _strip(strips: _Strips, number: int, at: Point) -> Group:
    (x, y), long = at, strips.long
    last = number == strips.count - 1
    start = number * long
    small = Hand(SMALL_SHEET.small, colour=SOFT, role="strip")
    items: tuple[Item, ...] = (
        Rect(x, y, long + (0.0 if last else _TAB), _TALL, _EDGE),
        *(() if last else _tab((x + long, y), number)),
        *_scale(at, start, long, strips.unit),
        *_marks(at, start, long, strips.holes),
        small.at((x + 1.5, y + _TALL - 1.5), f"strip {number + 1}"),
    )
    return Group(items, kind="strip", name=f"{number + 1}")


def _tab(at: Point, number: int) -> tuple[Item, ...]:
    x, y = at
    hand = Hand(SMALL_SHEET.small, colour=SOFT, role="strip")
    return (
        Line((x, y), (x, y + _TALL), Style(stroke=SOFT, stroke_width=THIN, dash=(2.0, 1.2))),
        hand.at((x + _TAB / 2 + 0.7, y + _TALL - 2), f"glue {number + 2} here", turn=-90.0),
    )


def _scale(at: Point, start: float, long: float, unit: Unit) -> Iterator[Item]:
    (x, y), (step, every) = at, _TICKS[unit]
    hand = Hand(SMALL_SHEET.small, colour=SOFT, role="strip")
    first = round(start / step)
    for tick in range(round(long / step) + 1):
        whole = (first + tick) % every == 0
        left = x + tick * step
        yield Line((left, y), (left, y + (3.5 if whole else 2.0)), _TICK)
        if whole and 0 < tick < round(long / step):
            said = format_length((first + tick) * step, unit, with_unit=False).removesuffix(".0")
            yield hand.at((left, y + 5.8), said, "middle")


def _marks(at: Point, start: float, long: float, holes: Sequence[Hole]) -> Iterator[Item]:
    """A bold line at the girth of each hole that ends on this strip, its name beside it."""
    x, y = at
    hand = Hand(SMALL_SHEET.small, "bold", INK, role="girth")
    free = [x, x]
    for hole in sorted(holes, key=lambda one: one.diameter):
        along = pi * hole.diameter - start
        if not 0 < along <= long:
            continue
        wide = hand.width(hole.name) + 2.5
        left = x + along
        begins = (
            left - wide if left - wide >= x + 1.0 else left
        )  # the name goes after, near the edge
        level = 0 if begins >= free[0] or free[0] <= free[1] else 1
        free[level] = begins + wide
        base = y + 11.0 + 3.6 * level
        mark = Line((left, y), (left, base + 0.6), _MARK)
        yield Group((mark,), kind="girth", name=hole.name, title=f"girth of hole {hole.name}")
        before = begins < left
        yield hand.at(
            (left + (-1.0 if before else 1.0), base), hole.name, "end" if before else "start"
        )
