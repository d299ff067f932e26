"""The record painted by the cairo library, for the PDF and the PNG. Only this module imports it.

The library is the machine's own (not a Python package), so it may be missing: ``cairo`` then
raises ``NoCairo`` and the fallback draws instead.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import lru_cache
from math import isfinite, radians, tau
from typing import Any

from mockup.errors import MockupError
from mockup.render.fonts import NOTHING, Face, packaged_face
from mockup.render.pathdata import Box, bounding_box, rounded_rectangle, steps
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
    Sheet,
    Style,
    Symbol,
    Text,
    Weight,
)
from mockup.render.text import Run, left_of_anchor, runs
from mockup.render.word_layer import WordLayer

_FINE = 256.0
"""Symbols are recorded this much larger, because cairo keeps 1/256 of a unit."""

_NO_BOX: Box = (0.0, 0.0, 0.0, 0.0)
_MITER = 4.0
"""SVG's limit for pointed corners (cairo's own would be 10)."""


class NoCairo(MockupError):
    """The cairo library is not on this machine."""


def cairo() -> Any:
    """The cairo binding. Raises ``NoCairo`` where the library or its binding is missing."""
    try:
        import cairocffi
    except (ImportError, OSError) as missing:
        raise NoCairo("the cairo library is not installed on this machine") from missing
    return cairocffi


@dataclass
class Painter:
    """Paints items in mm onto a cairo ``context`` whose unit is one mm.

    With ``forms`` each symbol is recorded once and placed as a whole, which a PDF stores once;
    without, its shapes are painted at every place, which is what a picture of pixels wants. With
    ``real_text`` letters of the packaged font are set as text of that font, not as outlines: a PDF
    embeds each glyph once, and its words can be searched where they are seen.
    """

    context: Any
    forms: dict[str, tuple[Symbol, Any]] | None = None
    lib: Any = field(default_factory=cairo)
    gradients: dict[tuple[Radial | Linear, float], Any] = field(default_factory=dict)
    paints: dict[tuple[int, float], tuple[Paint, Any]] = field(default_factory=dict)
    real_text: bool = False

    def sheet(self, sheet: Sheet, *, words: bool) -> None:
        """The whole page; with ``words`` the text lies under it as real text too."""
        self.context.set_miter_limit(_MITER)
        if sheet.background != "none":
            self.context.set_source_rgb(*_rgb(sheet.background))
            if words:
                WordLayer(self).lay(sheet.items)
                # Painting all of the surface would drop the words, so it is a rectangle.
                self.context.rectangle(0.0, 0.0, sheet.width, sheet.height)
                self.context.fill()
            else:
                self.context.paint()
        self.items(sheet.items)

    def items(self, items: tuple[Item, ...]) -> None:
        """Items in drawing order."""
        for item in items:
            paint = _PAINTERS.get(type(item))
            if paint is None:
                raise TypeError(f"no painting is known for a {type(item).__name__}")
            paint(self, item)

    def _circle(self, item: Circle) -> None:
        self.context.new_path()
        self.context.arc(*item.centre, item.r, 0.0, tau)
        self.context.close_path()
        (x, y), r = item.centre, item.r
        self._finish(item.style, (x - r, y - r, x + r, y + r))

    def _ellipse(self, item: Ellipse) -> None:
        if not (item.rx and item.ry):
            return
        with self.moved(item.centre, item.turn, 1.0):
            self.context.new_path()
            self.context.save()
            self.context.scale(item.rx, item.ry)
            self.context.arc(0.0, 0.0, 1.0, 0.0, tau)
            self.context.close_path()
            self.context.restore()
            self._finish(item.style, (-item.rx, -item.ry, item.rx, item.ry))

    def _line(self, item: Line) -> None:
        _require_finite(*item.start, *item.end)
        self.context.new_path()
        self.context.move_to(*item.start)
        self.context.line_to(*item.end)
        (x0, y0), (x1, y1) = item.start, item.end
        self._finish(item.style, (min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)))

    def _rect(self, item: Rect) -> None:
        self.context.new_path()
        if item.corner:
            box = (item.x, item.y, item.width, item.height)
            self._trace(rounded_rectangle(*box, item.corner))
        else:
            self.context.rectangle(item.x, item.y, item.width, item.height)
        self._finish(item.style, (item.x, item.y, item.x + item.width, item.y + item.height))

    def _path(self, item: Path) -> None:
        self.context.new_path()
        self._trace(item.d)
        # The box of a path takes as long as the path; only gradients ask for it.
        plain = isinstance(item.style.fill, str) and isinstance(item.style.stroke, str)
        box = _NO_BOX if plain else bounding_box(item.d)
        if not item.evenodd:
            self._finish(item.style, box)
            return
        self.context.save()
        self.context.set_fill_rule(self.lib.FILL_RULE_EVEN_ODD)
        self._finish(item.style, box)
        self.context.restore()

    def _group(self, item: Group) -> None:
        if not item.clip and item.opacity == 1.0:
            self.items(item.items)
            return
        self.context.save()
        if item.clip:
            self.context.new_path()
            self._trace(item.clip)
            self.context.clip()
        if item.opacity == 1.0:
            self.items(item.items)
        else:
            with self._faded(item.opacity):
                self.items(item.items)
        self.context.restore()

    def _place(self, item: Place) -> None:
        if not item.scale:
            return
        # As ``moved`` does it, without its cost: there are several places to a balloon.
        _require_finite(*item.at, item.turn, item.scale)
        context = self.context
        context.save()
        context.translate(*item.at)
        if item.turn:
            context.rotate(radians(item.turn))
        if item.scale != 1.0:
            context.scale(item.scale, item.scale)
        if self.forms is None:
            self.items(item.symbol.items)
        else:
            context.scale(1.0 / _FINE, 1.0 / _FINE)
            context.set_source_surface(self._form(item.symbol, self.forms))
            context.paint()
        context.restore()

    def _text(self, item: Text) -> None:
        _require_finite(*item.at, item.height, item.turn)
        if not item.height:
            return
        self.context.set_source_rgb(*_rgb(item.colour))
        start = -left_of_anchor(item)
        for run in runs(item.text, item.height, item.weight):
            with self.moved(item.at, item.turn, 1.0):
                self.context.translate(start + run.start, -run.rise)
                if self.is_real(run):
                    self._set(run, item.weight)
                else:
                    self._outline(run)

    def is_real(self, run: Run) -> bool:
        """Whether a run is set as text; a box for what no font has would be no letter."""
        packaged = run.face in (packaged_face("regular"), packaged_face("bold"))
        return self.real_text and packaged and all(glyph != NOTHING for glyph, _ in run.glyphs)

    def _set(self, run: Run, weight: Weight) -> None:
        """A run as text of the packaged font, its letters where kerning puts them."""
        self.letter_with(run.face, weight, run.scale * run.face.units_per_em)
        self.context.show_glyphs(
            [(run.face.glyph_number(glyph), x * run.scale, 0.0) for glyph, x in run.glyphs]
        )

    def _outline(self, run: Run) -> None:
        self.context.scale(run.scale, -run.scale)
        self.context.new_path()
        for glyph, x in run.glyphs:
            self._trace(run.face.outline(glyph), x)
        self.context.fill()

    def letter_with(self, face: Face, weight: Weight, size: float) -> None:
        """Choose the font that real text is set in from here on, and its size in mm."""
        heavy = self.lib.FONT_WEIGHT_BOLD if weight == "bold" else self.lib.FONT_WEIGHT_NORMAL
        self.context.select_font_face(face.family, self.lib.FONT_SLANT_NORMAL, heavy)
        self.context.set_font_size(size)

    def _form(self, symbol: Symbol, forms: dict[str, tuple[Symbol, Any]]) -> Any:
        if symbol.id not in forms:
            surface = self.lib.RecordingSurface(self.lib.CONTENT_COLOR_ALPHA, None)
            context = self.lib.Context(surface)
            context.scale(_FINE, _FINE)
            context.set_miter_limit(_MITER)
            inner = Painter(
                context, forms, self.lib, self.gradients, self.paints, real_text=self.real_text
            )
            inner.items(symbol.items)
            forms[symbol.id] = (symbol, surface)
        known, surface = forms[symbol.id]
        if known is not symbol and known != symbol:
            raise ValueError(f"the id {symbol.id!r} stands for two different symbols")
        return surface

    def _trace(self, data: str, x: float = 0.0) -> None:
        """Path data added to the current path, ``x`` further right."""
        curve_to, line_to = self.context.curve_to, self.context.line_to
        for letter, at in steps(data):
            if letter == "C":
                a, b, c, d, e, f = at
                curve_to(a + x, b, c + x, d, e + x, f)
            elif letter == "L":
                line_to(at[0] + x, at[1])
            elif letter == "M":
                self.context.move_to(at[0] + x, at[1])
            else:
                self.context.close_path()

    def _finish(self, style: Style, box: Box) -> None:
        """Fill and stroke the current path; a faded shape that has both fades as one.

        ``box`` is the shape's own, which gradients are measured in (cairo knows only the upright
        box on the page, which is another one for whatever is turned).
        """
        _require_finite(*box, style.stroke_width, style.opacity, *style.dash)
        if style.opacity == 1.0 or "none" in (style.fill, style.stroke):
            self._fill_and_stroke(style, style.opacity, box)
        else:
            with self._faded(style.opacity):
                self._fill_and_stroke(style, 1.0, box)
        self.context.new_path()

    def _fill_and_stroke(self, style: Style, opacity: float, box: Box) -> None:
        if style.fill != "none" and self._source(style.fill, opacity, box):
            self.context.fill_preserve()
        if style.stroke != "none" and self._source(style.stroke, opacity, box):
            self._stroke(style)

    def _stroke(self, style: Style) -> None:
        context = self.context
        context.save()
        context.set_line_width(style.stroke_width)
        context.set_dash(list(style.dash))
        if style.round_ends:
            context.set_line_cap(self.lib.LINE_CAP_ROUND)
            context.set_line_join(self.lib.LINE_JOIN_ROUND)
        context.stroke_preserve()
        context.restore()

    def _source(self, paint: Paint, opacity: float, box: Box) -> bool:
        """Set what to paint with; False for a gradient over a path that has no area."""
        if isinstance(paint, str):
            self.context.set_source_rgba(*_rgb(paint), opacity)
            return True
        left, top, right, bottom = box
        kept = self.context.get_matrix()
        if not (isinstance(paint, Linear) and paint.on_sheet):
            if right <= left or bottom <= top:
                return False
            self.context.translate(left, top)
            self.context.scale(right - left, bottom - top)
        self.context.set_source(self._gradient(paint, opacity))
        self.context.set_matrix(kept)
        return True

    def _gradient(self, paint: Radial | Linear, opacity: float) -> Any:
        """The gradient, made once; found by the paint itself before it is compared by value."""
        known = self.paints.get((id(paint), opacity))
        if known is None:
            known = self.paints[id(paint), opacity] = paint, self._made(paint, opacity)
        return known[1]

    def _made(self, paint: Radial | Linear, opacity: float) -> Any:
        if (paint, opacity) not in self.gradients:
            made = (
                self.lib.RadialGradient(paint.fx, paint.fy, 0.0, paint.cx, paint.cy, paint.r)
                if isinstance(paint, Radial)
                else self.lib.LinearGradient(*paint.start, *paint.end)
            )
            for stop in paint.stops:
                made.add_color_stop_rgba(stop.offset, *_rgb(stop.colour), stop.opacity * opacity)
            self.gradients[paint, opacity] = made
        return self.gradients[paint, opacity]

    @contextmanager
    def moved(self, at: tuple[float, float], turn: float, scale: float) -> Iterator[None]:
        """The page moved to ``at`` (mm), turned clockwise (degrees) and scaled, for a while."""
        _require_finite(*at, turn, scale)
        self.context.save()
        self.context.translate(*at)
        if turn:
            self.context.rotate(radians(turn))
        if scale != 1.0:
            self.context.scale(scale, scale)
        yield
        self.context.restore()

    @contextmanager
    def _faded(self, opacity: float) -> Iterator[None]:
        if opacity == 1.0:
            yield
            return
        self.context.push_group()
        yield
        self.context.pop_group_to_source()
        self.context.paint_with_alpha(opacity)


def _require_finite(*numbers: float) -> None:
    # What is not finite leaves no sum finite; none is as large as to overflow one.
    if not isfinite(sum(numbers)):
        raise ValueError(f"a drawing holds finite numbers only, not {numbers}")


@lru_cache(maxsize=512)
def _rgb(colour: str) -> tuple[float, float, float]:
    if len(colour) != 7 or not colour.startswith("#"):
        raise ValueError(f"{colour!r} is not a colour as the drawing holds them (#rrggbb)")
    return int(colour[1:3], 16) / 255, int(colour[3:5], 16) / 255, int(colour[5:7], 16) / 255


_PAINTERS: dict[type, Callable[[Painter, Any], None]] = {
    Circle: Painter._circle,
    Ellipse: Painter._ellipse,
    Line: Painter._line,
    Rect: Painter._rect,
    Path: Painter._path,
    Group: Painter._group,
    Place: Painter._place,
    Text: Painter._text,
}
