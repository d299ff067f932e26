"""The record as plain lists, which the page replays on a canvas.

A canvas only paints, so nothing in a drawing can run in the page; and the balls, which are the same
few symbols placed many times, are shaded once a size and then copied. Gradients and symbols are
named by their content, so that the page keeps those it has.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from mockup.render.record import (
    Circle,
    Ellipse,
    Group,
    Item,
    Line,
    Linear,
    Paint,
    Path,
    Place,
    Radial,
    Rect,
    Style,
    Symbol,
    Text,
)
from mockup.render.text import left_of_anchor, runs

Plain = list[Any]
_PLACES = 3


def played(items: tuple[Item, ...]) -> dict[str, Any]:
    """``items`` (sheet mm) as data: ``items``, and the ``paints``, ``symbols`` and ``glyphs`` used.

    Each item is a list that begins with its kind: c circle, e ellipse, p path, l line, r rectangle,
    u a symbol placed, g a group, t a run of glyphs, b a ball by its number and what lies on it.

    >>> played((Circle((1.0, 2.0), 3.0, Style(fill="#aa0000")),))["items"]
    [['c', 1.0, 2.0, 3.0, ['#aa0000']]]
    """
    part = _Part()
    return {
        "items": part.all(items),
        "paints": part.paints,
        "symbols": part.symbols,
        "glyphs": part.glyphs,
    }


def with_symbols(told: dict[str, Any], symbols: list[Symbol]) -> dict[str, Any]:
    """``told`` with symbols, which it names, and the paints that they need."""
    part = _Part()
    for each in symbols:
        part._symbol(each)
    return {**told, "paints": part.paints, "symbols": part.symbols}


def as_json(data: object) -> str:
    """The shortest JSON of plain data; refuses what is not finite."""
    return json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


class _Part:
    def __init__(self) -> None:
        self.paints: dict[str, Plain] = {}
        self.symbols: dict[str, Plain] = {}
        self.glyphs: dict[str, str] = {}
        self.done: Plain = []

    def all(self, items: tuple[Item, ...]) -> Plain:
        return [self._one(item) for item in items]

    def _one(self, item: Any) -> Plain:
        known = _KINDS.get(type(item))
        if known is None:
            raise TypeError(f"no drawing is known for a {type(item).__name__}")
        return known(self, item)

    def _circle(self, item: Circle) -> Plain:
        x, y = item.centre
        return ["c", _n(x), _n(y), _n(item.r), self._style(item.style)]

    def _ellipse(self, item: Ellipse) -> Plain:
        x, y = item.centre
        look = self._style(item.style)
        return ["e", _n(x), _n(y), _n(item.rx), _n(item.ry), _n(item.turn), look]

    def _path(self, item: Path) -> Plain:
        if isinstance(item.style.fill, Radial) or _in_box(item.style.fill):
            raise ValueError("a path is painted plainly or along the sheet, not in its own box")
        return ["p", item.d, self._style(item.style), int(item.evenodd)]

    def _line(self, item: Line) -> Plain:
        (x1, y1), (x2, y2) = item.start, item.end
        return ["l", _n(x1), _n(y1), _n(x2), _n(y2), self._style(item.style)]

    def _rect(self, item: Rect) -> Plain:
        box = (item.x, item.y, item.width, item.height, item.corner)
        return ["r", *map(_n, box), self._style(item.style)]

    def _place(self, item: Place) -> Plain:
        x, y = item.at
        return ["u", self._symbol(item.symbol), _n(x), _n(y), round(item.scale, 6), _n(item.turn)]

    def _group(self, item: Group) -> Plain:
        if item.kind == "ball":
            return ["b", int(item.name), self.all(item.items)]
        return ["g", item.clip, round(item.opacity, 3), self.all(item.items)]

    def _text(self, item: Text) -> Plain:
        start = -left_of_anchor(item)
        x, y = item.at
        parts = []
        for run in runs(item.text, item.height, item.weight):
            for glyph, _ in run.glyphs:
                self.glyphs.setdefault(f"{run.face.key}-{glyph}", run.face.outline(glyph))
            placed = [[f"{run.face.key}-{glyph}", round(at)] for glyph, at in run.glyphs]
            parts.append([_n(start + run.start), _n(-run.rise), round(run.scale, 7), placed])
        return ["t", _n(x), _n(y), _n(item.turn), item.colour, parts]

    def _symbol(self, one: Symbol) -> str:
        if one.id not in self.symbols:
            part = _symbol_part(one)
            self.symbols |= {**part.symbols, one.id: part.done}
            self.paints |= part.paints
        return one.id

    def _style(self, style: Style) -> Plain:
        """[fill, stroke, width, opacity, dash, round ends], without the usual ones at its end."""
        look: Plain = [
            self._paint(style.fill),
            self._paint(style.stroke),
            _n(style.stroke_width) if style.stroke != "none" else 0,
            round(style.opacity, 4),
            list(style.dash),
            int(style.round_ends),
        ]
        usual: Plain = ["", "", 0, 1.0, [], 0]
        while look and look[-1] == usual[len(look) - 1]:
            look.pop()
        return look

    def _paint(self, paint: Paint) -> str:
        if isinstance(paint, str):
            return "" if paint == "none" else paint
        if paint.id not in self.paints:
            self.paints[paint.id] = _gradient(paint)
        return paint.id


_KINDS: dict[type, Callable[[_Part, Any], Plain]] = {
    Circle: _Part._circle,
    Ellipse: _Part._ellipse,
    Path: _Part._path,
    Line: _Part._line,
    Rect: _Part._rect,
    Place: _Part._place,
    Group: _Part._group,
    Text: _Part._text,
}

_SYMBOLS: dict[str, _Part] = {}
_MOST_SYMBOLS = 400


def _symbol_part(one: Symbol) -> _Part:
    """A symbol's own lists, kept: its id names its content, and a numeral's are long."""
    if one.id not in _SYMBOLS:
        if len(_SYMBOLS) >= _MOST_SYMBOLS:
            _SYMBOLS.clear()
        part = _Part()
        part.done = part.all(one.items)
        _SYMBOLS[one.id] = part
    return _SYMBOLS[one.id]


def _gradient(paint: Radial | Linear) -> Plain:
    stops = [[round(stop.offset, 4), _rgba(stop.colour, stop.opacity)] for stop in paint.stops]
    if isinstance(paint, Radial):
        return ["radial", paint.cx, paint.cy, paint.r, paint.fx, paint.fy, stops]
    return ["linear", *paint.start, *paint.end, int(paint.on_sheet), stops]


def _rgba(colour: str, opacity: float) -> str:
    if opacity == 1.0:
        return colour
    red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return f"rgba({red},{green},{blue},{round(opacity, 4)})"


def _in_box(paint: Paint) -> bool:
    return isinstance(paint, Linear) and not paint.on_sheet


def _n(value: float) -> float:
    return round(value, _PLACES)
