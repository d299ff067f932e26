"""The SVG writer: a sheet of the record as SVG text, in mm. Only this module knows svgwrite.

One user unit is one mm. Gradients, clips, symbols and glyphs are defined once and reused; ids come
from names and counts, so that the same sheet is always the same text. Letters are outlines, and
the real words lie under the opaque page, where a search still finds them.
"""

from __future__ import annotations

import re
from functools import singledispatchmethod
from math import isfinite
from typing import Any

from mockup.render.fonts import Face, packaged_face
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
    Point,
    Radial,
    Rect,
    Sheet,
    Stop,
    Style,
    Symbol,
    Text,
)
from mockup.render.text import left_of_anchor, plain, runs

_COLOUR = re.compile("#[0-9a-fA-F]{6}")
_PATH = re.compile("[MLHVCQAZ0-9eE.,+\\- ]*")
_NAME = re.compile("[A-Za-z][A-Za-z0-9_.-]*")
_NOT_IN_NAME = re.compile("[^A-Za-z0-9_.]+")

Shape = Circle | Ellipse | Path | Line | Rect


def svg_text(
    sheet: Sheet,
    *,
    title: str = "",
    language: str = "en",
    search_text: bool = True,
    debug: bool = False,
) -> str:
    """``sheet`` as the text of an SVG file of its true size.

    With ``search_text`` the words lie under the page as real text as well. ``debug`` has svgwrite
    check every attribute (slower by 2 to 3 times). Raises ``ValueError`` for a number that is not
    finite, a colour that is not ``#rrggbb`` and an id used for two different things.

    >>> page = Sheet(210.0, 297.0, (Circle((50.0, 60.0), 10.0, Style(fill="#aa0000")),))
    >>> 'viewBox="0 0 210 297" width="210mm"' in svg_text(page)
    True
    """
    return _SvgWriter(sheet, title or sheet.name, language, debug).text(search_text)


def number(value: float, places: int = 3) -> float | int:
    """``value`` rounded as the file holds it: an int where it is whole, never NaN or infinite.

    >>> number(2.0), number(1 / 3), number(-0.00001)
    (2, 0.333, 0)
    """
    if not isfinite(value):
        raise ValueError(f"a drawing holds finite numbers only, not {value}")
    rounded = round(float(value), places)
    return int(rounded) if rounded.is_integer() else rounded


class _SvgWriter:
    """One sheet on its way into one svgwrite drawing."""

    def __init__(self, sheet: Sheet, title: str, language: str, debug: bool) -> None:
        import svgwrite

        self.sheet = sheet
        self.lib = svgwrite
        wide, high = number(sheet.width), number(sheet.height)
        self.drawing = svgwrite.Drawing(
            size=(f"{wide}mm", f"{high}mm"),
            viewBox=f"0 0 {wide} {high}",
            debug=debug,
            fill="none",
            **{"xml:lang": language},
        )
        self.options = {"factory": self.drawing}
        self.drawing.set_desc(title=plain(title))
        self.defined: dict[str, object] = {}
        self.clips: dict[str, str] = {}

    def text(self, search_text: bool) -> str:
        """The whole file."""
        if search_text and self.sheet.background != "none":
            self.drawing.add(self._real_words())
        page = Style(fill=self.sheet.background)
        self._draw(Rect(0.0, 0.0, self.sheet.width, self.sheet.height, page), self.drawing)
        self._draw_all(self.sheet.items, self.drawing)
        return f'<?xml version="1.0" encoding="utf-8"?>\n{self.drawing.tostring()}\n'

    def _draw_all(self, items: tuple[Item, ...], parent: Any) -> None:
        for item in items:
            self._draw(item, parent)

    @singledispatchmethod
    def _draw(self, item: Any, parent: Any) -> None:  # noqa: ARG002 - the registered ones need it
        raise TypeError(f"no drawing is known for a {type(item).__name__}")

    @_draw.register
    def _circle(self, item: Circle, parent: Any) -> None:
        made = self.lib.shapes.Circle(_pair(item.centre), number(item.r), **self._look(item.style))
        parent.add(self._faded(made, item.style))

    @_draw.register
    def _ellipse(self, item: Ellipse, parent: Any) -> None:
        made = self.lib.shapes.Ellipse(
            _pair(item.centre), _pair((item.rx, item.ry)), **self._look(item.style)
        )
        if item.turn:
            made["transform"] = _turned(item.turn, item.centre)
        parent.add(self._faded(made, item.style))

    @_draw.register
    def _line(self, item: Line, parent: Any) -> None:
        made = self.lib.shapes.Line(_pair(item.start), _pair(item.end), **self._look(item.style))
        parent.add(self._faded(made, item.style))

    @_draw.register
    def _rect(self, item: Rect, parent: Any) -> None:
        made = self.lib.shapes.Rect(
            _pair((item.x, item.y)), _pair((item.width, item.height)), **self._look(item.style)
        )
        if item.corner:
            made["rx"] = number(item.corner)
        parent.add(self._faded(made, item.style))

    @_draw.register
    def _path(self, item: Path, parent: Any) -> None:
        made = self.lib.path.Path(_path_data(item.d), **self._look(item.style))
        if item.evenodd:
            made["fill-rule"] = "evenodd"
        parent.add(self._faded(made, item.style))

    @_draw.register
    def _group(self, item: Group, parent: Any) -> None:
        made = self.lib.container.Group(**self.options)
        if item.kind:
            made["class"] = _slug(item.kind)
        if item.name:
            made["id"] = self._new_id(_slug(f"{item.kind or 'group'}-{item.name}"))
        if item.title:
            made.set_desc(title=plain(item.title))
        if item.clip:
            made["clip-path"] = f"url(#{self._clip(item.clip)})"
        if item.opacity != 1.0:
            made["opacity"] = number(item.opacity)
        self._draw_all(item.items, made)
        parent.add(made)

    @_draw.register
    def _place(self, item: Place, parent: Any) -> None:
        if self._is_new(item.symbol.id, item.symbol):
            made = self.lib.container.Group(id=item.symbol.id, **self.options)
            self._draw_all(item.symbol.items, made)
            self.drawing.defs.add(made)
        parent.add(
            self.lib.container.Use(f"#{item.symbol.id}", transform=_placed(item), **self.options)
        )

    @_draw.register
    def _text(self, item: Text, parent: Any) -> None:
        start = -left_of_anchor(item)
        for run in runs(item.text, item.height, item.weight):
            made = self.lib.container.Group(
                fill=_colour(item.colour),
                transform=_run_transform(item, start + run.start, run.scale, run.rise),
                **self.options,
            )
            for glyph, x in run.glyphs:
                self._glyph(run.face, glyph, x, made)
            parent.add(made)

    def _glyph(self, face: Face, glyph: str, x: float, parent: Any) -> None:
        id_ = f"{face.key}-{glyph}"
        if id_ not in self.defined:
            outline = face.outline(glyph)
            self.defined[id_] = outline
            if outline:
                self.drawing.defs.add(self.lib.path.Path(outline, id=id_, **self.options))
        if self.defined[id_]:
            made = self.lib.container.Use(f"#{id_}", **self.options)
            if x:
                made["x"] = number(x)
            parent.add(made)

    def _look(self, style: Style) -> dict[str, Any]:
        look: dict[str, Any] = dict(self.options)
        if style.fill != "none":
            look["fill"] = self._paint(style.fill)
        if style.stroke != "none":
            look["stroke"] = self._paint(style.stroke)
            look["stroke_width"] = number(style.stroke_width)
            if style.dash:
                look["stroke_dasharray"] = ",".join(str(number(dash)) for dash in style.dash)
            if style.round_ends:
                look |= {"stroke_linecap": "round", "stroke_linejoin": "round"}
        return look

    def _faded(self, made: Any, style: Style) -> Any:
        """``made`` at the style's opacity; fill and stroke together, as SVG means it."""
        if style.opacity == 1.0:
            return made
        if "none" not in (style.fill, style.stroke):
            together = self.lib.container.Group(opacity=number(style.opacity), **self.options)
            together.add(made)
            return together
        made["opacity"] = number(style.opacity)
        return made

    def _paint(self, paint: Paint) -> str:
        if isinstance(paint, str):
            return _colour(paint)
        if self._is_new(paint.id, paint):
            self.drawing.defs.add(
                self._radial(paint) if isinstance(paint, Radial) else self._linear(paint)
            )
        return f"url(#{paint.id})"

    def _radial(self, paint: Radial) -> Any:
        made = self.lib.gradients.RadialGradient(
            _pair((paint.cx, paint.cy)),
            number(paint.r),
            _pair((paint.fx, paint.fy)),
            id=paint.id,
            **self.options,
        )
        return _with_stops(made, paint.stops)

    def _linear(self, paint: Linear) -> Any:
        made = self.lib.gradients.LinearGradient(
            _pair(paint.start), _pair(paint.end), id=paint.id, **self.options
        )
        if paint.on_sheet:
            made["gradientUnits"] = "userSpaceOnUse"
        return _with_stops(made, paint.stops)

    def _clip(self, data: str) -> str:
        if data not in self.clips:
            id_ = self._new_id(f"clip-{len(self.clips) + 1}")
            made = self.lib.masking.ClipPath(id=id_, **self.options)
            made.add(self.lib.path.Path(_path_data(data), **self.options))
            self.drawing.defs.add(made)
            self.clips[data] = id_
        return self.clips[data]

    def _is_new(self, id_: str, thing: Radial | Linear | Symbol) -> bool:
        """Whether ``id_`` is yet to be defined; the same id for another thing is refused."""
        if not _NAME.fullmatch(id_):
            raise ValueError(f"{id_!r} is not an id an SVG file can hold")
        if id_ not in self.defined:
            self.defined[id_] = thing
            return True
        if self.defined[id_] is not thing and self.defined[id_] != thing:
            raise ValueError(f"the id {id_!r} stands for two different things")
        return False

    def _new_id(self, wanted: str) -> str:
        id_, count = wanted, 1
        while id_ in self.defined:
            count += 1
            id_ = f"{wanted}-{count}"
        self.defined[id_] = id_
        return id_

    def _real_words(self) -> Any:
        words = self.lib.container.Group(
            id=self._new_id("words"),
            fill=_colour(self.sheet.background),
            font_family=packaged_face().family,
            **self.options,
        )
        self._add_words(self.sheet.items, words)
        return words

    def _add_words(self, items: tuple[Item, ...], parent: Any) -> None:
        for item in items:
            if isinstance(item, Text):
                parent.add(self._word(item))
            elif isinstance(item, Group):
                self._add_words(item.items, parent)
            elif isinstance(item, Place):
                moved = self.lib.container.Group(transform=_placed(item), **self.options)
                self._add_words(item.symbol.items, moved)
                if moved.elements:
                    parent.add(moved)

    def _word(self, item: Text) -> Any:
        face = packaged_face(item.weight)
        made = self.lib.text.Text(
            plain(item.text),
            insert=_pair(item.at),
            font_size=number(item.height * face.units_per_em / face.cap_height),
            **self.options,
        )
        if item.anchor != "start":
            made["text-anchor"] = item.anchor
        if item.weight == "bold":
            made["font-weight"] = "bold"
        if item.turn:
            made["transform"] = _turned(item.turn, item.at)
        return made


def _pair(point: Point) -> tuple[float | int, float | int]:
    return number(point[0]), number(point[1])


def _colour(colour: str) -> str:
    if colour != "none" and not _COLOUR.fullmatch(colour):
        raise ValueError(f"{colour!r} is not a colour as the drawing holds them (#rrggbb)")
    return colour


def _path_data(data: str) -> str:
    if not _PATH.fullmatch(data):
        raise ValueError(f"not path data of finite absolute steps: {data[:60]!r}")
    return data


def _slug(text: str) -> str:
    return _NOT_IN_NAME.sub("-", text).strip("-") or "x"


def _turned(turn: float, about: Point) -> str:
    x, y = _pair(about)
    return f"rotate({number(turn)} {x} {y})"


def _placed(item: Place) -> str:
    x, y = _pair(item.at)
    turn = f" rotate({number(item.turn)})" if item.turn else ""
    scale = f" scale({number(item.scale, 6)})" if item.scale != 1.0 else ""
    return f"translate({x} {y}){turn}{scale}"


def _run_transform(item: Text, start: float, scale: float, rise: float) -> str:
    """From font units (y up) at the run's start to the sheet; ``start`` mm along the line."""
    x, y = _pair((item.at[0], item.at[1] - (0.0 if item.turn else rise)))
    fine = number(scale, 7)
    flipped = f"scale({fine} -{fine})"
    if not item.turn:
        return f"translate({number(item.at[0] + start)} {y}) {flipped}"
    turned = f"translate({x} {y}) rotate({number(item.turn)})"
    return f"{turned} translate({number(start)} {number(-rise)}) {flipped}"


def _with_stops(gradient: Any, stops: tuple[Stop, ...]) -> Any:
    for stop in stops:
        gradient.add_stop_color(
            number(stop.offset),
            _colour(stop.colour),
            number(stop.opacity) if stop.opacity != 1.0 else None,
        )
    return gradient
