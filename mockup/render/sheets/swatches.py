"""The swatch sheet: every colour of the palettes, shaded and flat, with its name and finish."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from math import ceil
from typing import cast

from mockup.colour.palettes import Colour, Palette
from mockup.design.model import ColourUse, Finish
from mockup.render.balloons import shaded_ball
from mockup.render.record import Document, Item, Line, Point, Rect, Sheet, Style
from mockup.render.sheets.areas import PAD, Area, Block, cell, stacked
from mockup.render.sheets.inks import FRAME_LINE, HAIR, HAIRLINE, SOFT, THIN
from mockup.render.sheets.lettering import SMALL_SHEET, Hand, set_height
from mockup.render.sheets.overlaps import require_clear
from mockup.render.sheets.paper import MARGIN, Paper, paper_named

MOST_ACROSS = 6
GAP = 4.0
_BALL = 4.8
_ROW = 18.2
_HEAD, _FOOT = 15.0, 5.0
TRUE_COLOUR = "Screens and printers change colours. Choose against a filled sample."


def swatch_document(palettes: Sequence[Palette], paper: str = "a4") -> Document:
    """A swatch sheet for each paperful of palettes, in the order given."""
    sheet = paper_named(paper)
    pages = list(_pages(palettes, sheet))
    sheets = tuple(_sheet(page, sheet, number, len(pages)) for number, page in enumerate(pages, 1))
    return Document(
        tuple(require_clear(each) for each in sheets),
        title="Palettes",
        subject="Colours with their suggested finish",
        keywords=tuple(palette.name for palette in palettes),
    )


def _inner(paper: Paper) -> Area:
    return Area(0.0, 0.0, paper.width, paper.height).inset(MARGIN + PAD)


def _pages(palettes: Sequence[Palette], paper: Paper) -> Iterator[list[Palette]]:
    inner = _inner(paper)
    room = inner.height - _HEAD - _FOOT
    page: list[Palette] = []
    used = 0.0
    for palette in palettes:
        height = _palette((0.0, 0.0), inner.width, palette).height + GAP
        if page and used + height - GAP > room:
            yield page
            page, used = [], 0.0
        page.append(palette)
        used += height
    if page:
        yield page


def _sheet(palettes: Sequence[Palette], paper: Paper, number: int, sheets: int) -> Sheet:
    inner = _inner(paper)
    outer = inner.inset(-PAD)
    title = Hand(SMALL_SHEET.title, "bold", role="title").at((inner.x, inner.y + 7.0), "Palettes")
    quiet = Hand(SMALL_SHEET.small, colour=SOFT, role="label")
    items: tuple[Item, ...] = (
        Rect(outer.x, outer.y, outer.width, outer.height, FRAME_LINE),
        title,
        *_set_palettes(palettes, (inner.x, inner.y + _HEAD), inner.width).items,
        quiet.at((inner.x, inner.bottom), TRUE_COLOUR),
        quiet.at((inner.right, inner.bottom), f"Sheet {number} of {sheets}", "end"),
    )
    return Sheet(paper.width, paper.height, items, name=f"Palettes, sheet {number}")


def _set_palettes(palettes: Sequence[Palette], at: Point, width: float) -> Block:
    builders = tuple(partial(_palette, palette=palette) for palette in palettes)
    return stacked(builders, at, width, GAP)


def _palette(at: Point, width: float, palette: Palette) -> Block:
    """A palette's name and line, over its colours in even rows."""
    x, y = at
    name = Hand(SMALL_SHEET.lead, "bold", role="heading").at((x, y + 6.5), palette.name)
    quiet = Hand(SMALL_SHEET.small, colour=SOFT, role="label")
    says, lines = quiet.fitted(palette.says, 0.72 * width, set_height(SMALL_SHEET.small, 1))
    top = y + 9.5
    items: list[Item] = [
        Line((x, y), (x + width, y), HAIRLINE),
        name,
        *(
            says.at((x + width, y + 6.5 + row * says.pitch), line, "end")
            for row, line in enumerate(lines)
        ),
    ]
    top += (len(lines) - 1) * says.pitch
    rows = ceil(len(palette.colours) / MOST_ACROSS)
    deep = ceil(len(palette.colours) / rows)
    each = width / deep
    for place, colour in enumerate(palette.colours):
        row, column = divmod(place, deep)
        items.append(_colour(Area(x + column * each, top + row * _ROW, each, _ROW), colour))
    return Block(tuple(items), top + rows * _ROW - y)


def _colour(area: Area, colour: Colour) -> Item:
    """One colour: ball and flat side by side, its words below."""
    use = ColourUse("", colour.name, colour.srgb, cast(Finish, colour.finish))
    middle = area.y + _BALL + 0.5
    flat = Rect(
        area.x + 2 * _BALL + 1.5,
        middle - 0.8 * _BALL,
        1.8 * _BALL,
        1.6 * _BALL,
        Style(colour.srgb, HAIR, THIN),
        corner=0.3,
    )
    room = area.width - 1.5
    bold = Hand(1.8, "bold", role="key")
    quiet = Hand(1.8, colour=SOFT, role="key")
    name, _ = bold.set(bold.wrapped(colour.name, room)[:1], (area.x, middle + _BALL + 0.6))
    base = middle + _BALL + 0.6 + bold.pitch + 1.8
    says = quiet.at((area.x, base), f"{colour.finish} {colour.srgb}")
    ball = shaded_ball((area.x + _BALL, middle), _BALL, use)
    return cell(colour.name, area, (ball, flat, *name, says))
