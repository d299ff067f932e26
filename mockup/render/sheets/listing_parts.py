"""The parts of a listing as blocks that flow down a page, each as tall as it comes out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial
from itertools import accumulate

from mockup.design.model import ColourUse
from mockup.render.finishes import body, skin
from mockup.render.listing import (
    Column,
    Heading,
    Notes,
    Part,
    Picture,
    Row,
    Table,
    Tone,
    Words,
)
from mockup.render.record import Group, Item, Line, Place, Point, Rect, Style
from mockup.render.sheets.areas import Area, Block, Builder, cell
from mockup.render.sheets.cautions import cautions_block
from mockup.render.sheets.headings import heading
from mockup.render.sheets.inks import ALARM, CARE, HAIRLINE, INK, SOFT, THIN
from mockup.render.sheets.lettering import Hand, Lettering
from mockup.render.tones import as_it_is

INKS: dict[Tone, str] = {"plain": INK, "soft": SOFT, "care": CARE, "alarm": ALARM}
_TICK = 3.0
_TICK_ROOM = 5.5
_SWATCH_ROOM = 6.0
_GUTTER = 2.5
_OVER_TABLE = 1.4
_FEWEST = 3
"""So many rows of a table stand together on either side of a page's turn."""

_LEAST_WORDS = 0.4
"""Columns of words keep this share of a table's width, however wide its figures are."""


@dataclass(frozen=True)
class Flow:
    """One thing that is not broken across pages.

    ``with_next`` keeps it on the page of what follows; ``head`` is drawn above it again where it
    comes first on a page (the titles of a table's columns). ``known`` is its height where it need
    not be built to be measured.
    """

    build: Builder
    with_next: bool = False
    head: Builder | None = None
    gap: float = 0.0
    known: float | None = None


def flows(part: Part, lettering: Lettering, after: Part | None = None) -> Iterator[Flow]:
    """The part as pieces in order; words stay on the page of a table that comes ``after``."""
    if isinstance(part, Heading):
        yield Flow(lambda at, width: _heading(at, width, lettering, part), True, gap=5.0)
    elif isinstance(part, Words):
        told = isinstance(after, Table)
        yield Flow(lambda at, width: _words(at, width, lettering, part), told, gap=2.0)
    elif isinstance(part, Picture):
        yield Flow(lambda at, width: _picture(at, width, part), gap=2.0, known=part.height)
    elif isinstance(part, Notes):
        yield Flow(lambda at, width: cautions_block(at, width, lettering, part.says, 2), gap=5.0)
    else:
        yield from _table(part, lettering, noted=isinstance(after, Words))


def _heading(at: Point, width: float, lettering: Lettering, part: Heading) -> Block:
    return heading(at, width, lettering, part.text, part.aside)


def _words(at: Point, width: float, lettering: Lettering, part: Words) -> Block:
    hand = Hand(lettering.body, "bold" if part.strong else "regular", INKS[part.tone], role="words")
    items, height = hand.set(_lines(hand, part.text, width), at)
    return Block((cell("words", Area(*at, width, height), items),), height)


def _lines(hand: Hand, text: str, width: float) -> list[str]:
    return [line for piece in text.split("\n") for line in hand.wrapped(piece, width)]


def _picture(at: Point, width: float, part: Picture) -> Block:
    x = at[0] + (width - part.width) / 2
    return Block((_placed(part, (x, at[1])),), part.height)


def _placed(part: Picture, at: Point) -> Group:
    return Group(part.draw(at), kind="picture", title=part.says)


def _table(table: Table, lettering: Lettering, *, noted: bool) -> Iterator[Flow]:
    """Its head and its rows. ``noted`` keeps the last row on the page of the words after it."""
    titled = any(column.title for column in table.columns)
    grid = _Grid(table, lettering)
    head = grid.head if titled else None
    if head:
        yield Flow(head, with_next=True, gap=_OVER_TABLE)
    for place, row in enumerate(table.rows, start=1):
        last = place == len(table.rows)
        kept = noted if last else row.lead or _in_company(place, len(table.rows))
        gap = _OVER_TABLE if place == 1 and not head else 0.0
        yield Flow(partial(grid.row, row), with_next=kept, head=head, gap=gap)


def _in_company(place: int, rows: int) -> bool:
    """Whether a page that turned after this row would leave too few of them on one side."""
    return place < _FEWEST or place > rows - _FEWEST


@dataclass(frozen=True)
class _Grid:
    table: Table
    lettering: Lettering

    def lefts(self, at: Point, width: float) -> list[tuple[float, float]]:
        """Left edge and width of every column, mm."""
        x = at[0] + self._indent
        widths = self._widths(width - self._indent - _GUTTER * (len(self.table.columns) - 1))
        lefts = accumulate((each + _GUTTER for each in widths), initial=x)
        return list(zip(lefts, widths, strict=False))

    def _widths(self, room: float) -> list[float]:
        """By their shares, but a column of figures is as wide as its widest figure needs."""
        columns = self.table.columns
        shared = _shared(room, [column.share for column in columns])
        figures = [
            max(own, figure) if column.anchor == "end" else 0.0
            for own, figure, column in zip(shared, self._figures, columns, strict=True)
        ]
        words = [0.0 if column.anchor == "end" else column.share for column in columns]
        left = room - sum(figures)
        if not any(words) or left < _LEAST_WORDS * room:
            return shared
        return [a + b for a, b in zip(figures, _shared(left, words), strict=True)]

    @cached_property
    def _figures(self) -> list[float]:
        """How wide each column's widest figure is, mm; nothing for a column of words."""
        plain, bold = (Hand(self.lettering.body, weight) for weight in ("regular", "bold"))
        return [
            max(
                (
                    (bold if row.lead else plain).width(line)
                    for row in self.table.rows
                    for line in row.cells[place].splitlines()
                ),
                default=0.0,
            )
            if column.anchor == "end"
            else 0.0
            for place, column in enumerate(self.table.columns)
        ]

    @cached_property
    def _indent(self) -> float:
        pictures = [row.picture.width + 4 for row in self.table.rows if row.picture]
        swatched = self.table.swatches or any(row.swatch for row in self.table.rows)
        marks = max([*pictures, _SWATCH_ROOM if swatched else 0.0])
        return marks + (_TICK_ROOM if self.table.ticks else 0.0)

    def head(self, at: Point, width: float) -> Block:
        hand = Hand(self.lettering.small, colour=SOFT, role="column")
        items: list[Item] = []
        for column, (x, room) in zip(self.table.columns, self.lefts(at, width), strict=True):
            items += _in_column(hand, [column.title], column, (x, at[1] + 0.6), room)
        height = hand.height * 2.4
        items.append(Line((at[0], at[1] + height), (at[0] + width, at[1] + height), HAIRLINE))
        return Block(tuple(items), height + 0.8)

    def row(self, row: Row, at: Point, width: float) -> Block:
        hand = Hand(
            self.lettering.body, "bold" if row.lead else "regular", INKS[row.tone], role="row"
        )
        places = list(zip(self.table.columns, self.lefts(at, width), row.cells, strict=True))
        lines = [hand.wrapped(text, room) if text else [] for _, (_, room), text in places]
        words = max(1, *(len(each) for each in lines)) * hand.pitch
        least = row.picture.height + 1.5 if row.picture else 0.0
        height = max(words + 0.9, least)
        top = at[1] + (height - words) / 2 + 0.35 * hand.height
        items: list[Item] = []
        for (column, (x, room), _), own in zip(places, lines, strict=True):
            items += _in_column(hand, own, column, (x, top), room)
        items += self._marks(at, row, height, top + hand.height / 2)
        foot = at[1] + height
        items.append(Line((at[0], foot), (at[0] + width, foot), replace(HAIRLINE, opacity=0.6)))
        return Block((cell("row", Area(*at, width, height), tuple(items)),), height)

    def _marks(self, at: Point, row: Row, height: float, middle: float) -> Iterator[Item]:
        x = at[0]
        if self.table.ticks:
            if not row.lead:
                box = Style("#ffffff", INK, THIN)
                yield Rect(x + 0.2, middle - _TICK / 2, _TICK, _TICK, box, corner=0.5)
            x += _TICK_ROOM
        if row.picture:
            yield _placed(row.picture, (x + 1, at[1] + (height - row.picture.height) / 2))
        elif row.swatch:
            yield from ball(row.swatch, (x + 2.2, middle), 1.9)


def _shared(room: float, shares: Sequence[float]) -> list[float]:
    return [room * share / sum(shares) for share in shares]


def ball(colour: ColourUse, at: Point, radius: float) -> tuple[Item, ...]:
    """A shaded balloon of a colour in its finish, mm."""
    own = (body(colour.srgb, colour.finish, as_it_is), skin(colour.srgb, colour.finish, as_it_is))
    return tuple(Place(symbol, at, radius) for symbol in own)


def _in_column(
    hand: Hand, lines: list[str], column: Column, at: Point, room: float
) -> tuple[Item, ...]:
    x = at[0] + {"start": 0.0, "middle": room / 2, "end": room}[column.anchor]
    return hand.set(lines, (x, at[1]), column.anchor)[0]
