"""Several front views on one sheet at one preferred scale, each with its caption and words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from mockup.lengths import Unit
from mockup.piece.placed import Piece
from mockup.render.front_view import front_view
from mockup.render.record import Group, Item, Point, Rect, Sheet
from mockup.render.sheets.areas import PAD, Area, Block, Builder
from mockup.render.sheets.cautions import LOOKS_ONLY
from mockup.render.sheets.inks import FRAME_LINE
from mockup.render.sheets.lettering import LARGE_SHEET, SMALL_SHEET, Hand, Lettering, set_height
from mockup.render.sheets.overlaps import PICTURE, require_clear
from mockup.render.sheets.paper import MARGIN, Paper
from mockup.render.sheets.rulers import bar_size, check_rulers, scale_bar
from mockup.render.sheets.scale import SCALES, DoesNotFit, Scaled
from mockup.render.sheets.title_block import TitleBlock, title_block
from mockup.render.viewpoint import ViewOptions

GAP = 6.0
"""White between two pictures, and between a picture and its words, mm."""
_LEAST = (40.0, 30.0)
"""A cell smaller than this, mm, is none for a picture and its words."""

Marks = Callable[[Scaled], tuple[Item, ...]]


def _no_marks(sheet: Scaled) -> tuple[Item, ...]:
    del sheet
    return ()


def _no_words(at: Point, width: float) -> Block:
    del at, width
    return Block((), 0.0)


@dataclass(frozen=True)
class Shown:
    """One picture: its caption, how the piece is drawn, marks laid over it, words under it."""

    caption: str
    piece: Piece
    options: ViewOptions
    marks: Marks = _no_marks
    words: Builder = _no_words


@dataclass(frozen=True)
class _Grid:
    """So many columns and rows of equal cells in an area."""

    area: Area
    columns: int
    rows: int

    @property
    def cell(self) -> tuple[float, float]:
        """Width and height of one cell, mm."""
        wide = (self.area.width - (self.columns - 1) * GAP) / self.columns
        tall = (self.area.height - (self.rows - 1) * GAP) / self.rows
        return wide, tall

    def at(self, number: int) -> Area:
        """A cell by its number, along the rows."""
        wide, tall = self.cell
        row, column = divmod(number, self.columns)
        x = self.area.x + column * (wide + GAP)
        return Area(x, self.area.y + row * (tall + GAP), wide, tall)


def side_by_side(
    paper: Paper, shown: Sequence[Shown], title: TitleBlock, words: Builder = _no_words
) -> Sheet:
    """A sheet of pictures; ``words`` go under them all across its width.

    The scale is the largest preferred one at which all go in, and is printed; the paper is turned
    where that shows them larger. Raises ``DoesNotFit`` where none does.
    """
    ways = (paper, paper.turned(not paper.landscape))
    found = [each for way in ways if (each := _fitted(way, shown, title, words))]
    if not found:
        raise DoesNotFit(f"{len(shown)} pictures do not go side by side on {paper.name}")
    page = min(found, key=lambda each: each.scale)
    return require_clear(page.sheet(shown, title, words))


def lettering_of(paper: Paper) -> Lettering:
    """The lettering of a paper's size."""
    return LARGE_SHEET if paper.large else SMALL_SHEET


@dataclass(frozen=True)
class _Page:
    """A paper with the scale and the grid that hold the pictures."""

    paper: Paper
    scale: int
    grid: _Grid
    foot: float

    @property
    def lettering(self) -> Lettering:
        """The lettering of its size."""
        return lettering_of(self.paper)

    def sheet(self, shown: Sequence[Shown], title: TitleBlock, words: Builder) -> Sheet:
        """The sheet itself."""
        told = replace(title, scale=self.scale, paper=self.paper.name)
        unit = title.design.unit
        frame, inside = _framed(self.paper, told)
        bar = inside.bottom - bar_size(self.lettering, self.scale, unit)[1]
        items = (
            *(item for n, each in enumerate(shown) for item in self._cell(each, n, shown)),
            *words((inside.x, bar - GAP - self.foot), inside.width).items,
            *scale_bar((inside.x, bar), self.lettering, self.scale, unit).items,
            *check_rulers(Area(0, 0, self.paper.width, self.paper.height).inset(MARGIN), unit),
            *frame,
        )
        return Sheet(self.paper.width, self.paper.height, items, name=title.document_type)

    def _cell(self, each: Shown, number: int, shown: Sequence[Shown]) -> Iterator[Item]:
        """The picture stands on its caption, the words under that; all in a row stand level."""
        area = self.grid.at(number)
        under = max(other.words((0.0, 0.0), area.width).height for other in shown)
        hand, lines = _caption(each, area.width, self.lettering)
        head = max(_caption_height(other, area.width, self.lettering) for other in shown)
        tallest = max(other.piece.extent.height for other in shown) / self.scale
        spare = area.height - tallest - 0.5 * GAP - head - under
        box, foot = each.piece.extent, area.y + spare / 2 + tallest
        middle = area.x + area.width / 2 - (box.x[0] + box.x[1]) / 2 / self.scale
        sheet = Scaled(self.scale, (middle, foot + box.y[0] / self.scale))
        picture = front_view(each.piece, 1 / self.scale, sheet.origin, each.options)
        told = f"{each.caption}: {len(each.piece.balloons)} balloons"
        marked = (picture, *each.marks(sheet))
        yield Group(marked, kind=PICTURE, name=each.caption, title=told)
        yield from hand.set(lines, (area.x, foot + 0.5 * GAP))[0]
        yield from each.words((area.x, foot + 0.5 * GAP + head), area.width).items


def _fitted(
    paper: Paper, shown: Sequence[Shown], title: TitleBlock, words: Builder
) -> _Page | None:
    unit = title.design.unit
    for scale in SCALES:
        inside = _framed(paper, replace(title, scale=scale, paper=paper.name))[1]
        foot = words((0.0, 0.0), inside.width).height
        area = _pictures_area(inside, scale, unit, lettering_of(paper), foot)
        for columns in range(len(shown), 0, -1):
            grid = _Grid(area, columns, ceil(len(shown) / columns))
            if _go_in(shown, grid, scale, lettering_of(paper)):
                return _Page(paper, scale, grid, foot)
    return None


def _pictures_area(inside: Area, scale: int, unit: Unit, lettering: Lettering, foot: float) -> Area:
    bar = bar_size(lettering, scale, unit)[1]
    under = bar + GAP + (foot + GAP if foot else 0.0)
    return Area(inside.x, inside.y, inside.width, inside.height - under)


def _go_in(shown: Sequence[Shown], grid: _Grid, scale: int, lettering: Lettering) -> bool:
    wide, tall = grid.cell
    if wide < _LEAST[0] or tall < _LEAST[1]:
        return False
    words = max(each.words((0.0, 0.0), wide).height for each in shown)
    caption = max(_caption_height(each, wide, lettering) for each in shown)
    broad = max(each.piece.extent.width for each in shown) / scale
    high = max(each.piece.extent.height for each in shown) / scale
    return broad <= wide and high + 0.5 * GAP + caption + words <= tall


def _caption(each: Shown, width: float, lettering: Lettering) -> tuple[Hand, tuple[str, ...]]:
    return Hand(lettering.lead, "bold", role="view").shrunk(each.caption, width, 2)


def _caption_height(each: Shown, width: float, lettering: Lettering) -> float:
    hand, lines = _caption(each, width, lettering)
    return set_height(hand.height, len(lines)) + 1.5


def _framed(paper: Paper, title: TitleBlock) -> tuple[tuple[Item, ...], Area]:
    """Frame, title block and small print, and the area they leave."""
    lettering = lettering_of(paper)
    frame = Area(0.0, 0.0, paper.width, paper.height).inset(MARGIN)
    column = frame.width / (12 if paper.landscape else 6)
    tall = title_block((frame.x, 0.0), frame.width, lettering, title, column).height
    block = title_block((frame.x, frame.bottom - tall), frame.width, lettering, title, column)
    hand = Hand(lettering.small, role="caution")
    foot = frame.bottom - tall - PAD
    items: tuple[Item, ...] = (
        Group(block.items, kind="title block", name=title.code),
        Rect(frame.x, frame.y, frame.width, frame.height, FRAME_LINE),
        hand.at((frame.right - PAD, foot), LOOKS_ONLY, "end"),
    )
    high = frame.height - tall - 2 * PAD - 0.6 * hand.height
    return items, Area(frame.x + PAD, frame.y + PAD, frame.width - 2 * PAD, high)
