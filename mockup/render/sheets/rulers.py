"""A scale bar to measure the piece by, and two rulers that show whether the print is true."""

from __future__ import annotations

from mockup.lengths import Unit
from mockup.render.record import Group, Item, Line, Point, Rect, Style
from mockup.render.sheets.areas import Area, Block, cell
from mockup.render.sheets.inks import INK, SOFT, THIN
from mockup.render.sheets.lettering import Hand, Lettering
from mockup.render.sheets.scale import scale_words

_BAR = {"cm": (50.0, 5), "in": (50.8, 4)}
_RULER = {"cm": (100.0, 10), "in": (101.6, 8)}
_RULER_WORDS = {"cm": "must measure 100 mm", "in": "must measure 4 in"}


def bar_words(scale: int, unit: Unit) -> str:
    """What the scale bar stands for, and what it must measure on paper.

    >>> bar_words(10, "cm"), bar_words(5, "in")
    ('50 cm at 1:10 must measure 5 cm', '10 in at 1:5 must measure 2 in')
    """
    paper = 5 if unit == "cm" else 2
    return f"{paper * scale} {unit} at {scale_words(scale)} must measure {paper} {unit}"


def bar_size(lettering: Lettering, scale: int, unit: Unit) -> Point:
    """Width and height that the scale bar with its words takes, mm."""
    words = Hand(lettering.small).width(bar_words(scale, unit))
    return (max(_BAR[unit][0], words) + 4.0, scale_bar((0.0, 0.0), lettering, scale, unit).height)


def scale_bar(at: Point, lettering: Lettering, scale: int, unit: Unit) -> Block:
    """The stated scale over a bar of alternate parts, with its words beneath."""
    (x, y), (long, parts) = at, _BAR[unit]
    bold = Hand(lettering.body, "bold", role="scale")
    quiet = Hand(lettering.small, colour=SOFT, role="scale")
    top = y + 1.8 * lettering.body
    words = top + 1.3 + 1.9 * lettering.small
    each = long / parts
    bars = tuple(
        Rect(x + n * each, top, each, 1.3, Style(INK if n % 2 == 0 else "#ffffff", INK, THIN))
        for n in range(parts)
    )
    said = bar_words(scale, unit)
    items: tuple[Item, ...] = (
        bold.at((x, y + lettering.body), f"SCALE {scale_words(scale)}"),
        Group(bars, kind="scale bar", name=f"{long:g} mm"),
        quiet.at((x, words), said),
    )
    height = words + 0.4 * lettering.small - y
    area = Area(x, y, max(long, quiet.width(said)), height)
    return Block((cell("scale bar", area, items),), height)


def check_rulers(frame: Area, unit: Unit) -> tuple[Item, ...]:
    """Rulers in the margin along the frame's lower edge and left edge, from their corner."""
    return (_along_foot(frame, unit), _along_side(frame, unit))


def _along_foot(frame: Area, unit: Unit) -> Group:
    long, parts = _RULER[unit]
    x, y = frame.x, frame.bottom
    ticks = tuple(
        Line((x + n * long / parts, y), (x + n * long / parts, y + _tick(n, parts)), _TICK)
        for n in range(parts + 1)
    )
    words = _words().at((x + long + 2, y + 2.6), _RULER_WORDS[unit])
    return Group((*ticks, words), kind="check ruler", name="across")


def _along_side(frame: Area, unit: Unit) -> Group:
    long, parts = _RULER[unit]
    x, y = frame.x, frame.bottom
    ticks = tuple(
        Line((x, y - n * long / parts), (x - _tick(n, parts), y - n * long / parts), _TICK)
        for n in range(parts + 1)
    )
    words = _words().at((x - 0.8, y - long - 2), _RULER_WORDS[unit], turn=-90.0)
    return Group((*ticks, words), kind="check ruler", name="down")


_TICK = Style(stroke=INK, stroke_width=THIN)


def _words() -> Hand:
    return Hand(1.8, colour=SOFT, role="ruler")


def _tick(number: int, parts: int) -> float:
    return 2.2 if number in (0, parts // 2, parts) else 1.3
