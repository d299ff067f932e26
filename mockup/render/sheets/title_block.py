"""The title block: the data fields of ISO 7200 in plain words, at the foot of every sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import accumulate

from mockup.design.days import day
from mockup.design.model import Design
from mockup.render.record import Item, Line, Point
from mockup.render.sheets.areas import PAD, Area, Block, cell
from mockup.render.sheets.inks import FRAME_LINE, HAIRLINE, SOFT
from mockup.render.sheets.lettering import Hand, Lettering, set_height
from mockup.render.sheets.scale import scale_words
from mockup.render.text import HEIGHTS

DOCUMENT_TYPE = "Colour proof"
_RIGHT_PAD = 1.0
_ROW = 4.4
"""Least height of a row of fields, in heights of the body lettering."""


@dataclass(frozen=True)
class Field:
    """One labelled value over ``span`` columns of the grid, on ``lines`` before it is shrunk."""

    label: str
    value: str
    span: float = 1
    strong: bool = False
    lines: int = 1


@dataclass(frozen=True)
class TitleBlock:
    """Everything a title block says: owner, number, date of issue, sheet, title and type."""

    design: Design
    code: str
    scale: int
    paper: str
    sheet: int = 1
    sheets: int = 1
    studio: str = ""
    issued: date | None = None
    document_type: str = DOCUMENT_TYPE
    colourway: str = ""

    def people(self) -> tuple[Field, ...]:
        """Who, where and when: six columns in two threes."""
        return (
            Field("Studio", self.studio, 2),
            Field("Event date", day(self.design.event_date)),
            Field("Venue", self.design.venue, 2),
            Field("Issued", day(self.issued)),
        )

    def numbers(self, wordy: bool = False) -> tuple[tuple[Field, ...], tuple[Field, ...]]:
        """What tells this sheet from any other: six columns in two threes.

        Where the document's type is ``wordy`` it has two columns and two lines, and the short
        fields share three columns.
        """
        wide, brief = (2, 0.75) if wordy else (1, 1)
        fields = (
            Field("Document", self.document_type, wide, lines=wide),
            Field("Proof code", self.code, strong=True),
            Field("Revision", str(self.design.revision), brief, strong=True),
            Field("Sheet", f"{self.sheet} of {self.sheets}", brief),
            Field("Scale", scale_words(self.scale), brief),
            Field("Paper", self.paper, brief),
        )
        first = 2 if wordy else 3
        return fields[:first], fields[first:]


def title_block(
    at: Point, width: float, lettering: Lettering, says: TitleBlock, column: float
) -> Block:
    """The block from its top left corner, its fields on a grid of ``column`` mm from the right.

    The title stands beside two rows of six columns where these leave it half as much room again;
    otherwise beside two rows of three, with a row of six under all.
    """
    if width - 6 * column >= 3 * column:
        return _beside(at, width, lettering, says, column)
    return _above(at, width, lettering, says, column)


def _beside(
    at: Point, width: float, lettering: Lettering, says: TitleBlock, column: float
) -> Block:
    left = width - 6 * column
    first, second = _numbers(says, lettering, column)
    rows = (says.people(), (*first, *second))
    head = _head(at, left, column, lettering, says, rows=rows)
    return Block((*_edges(at, width, left, head.height), *head.items), head.height)


def _head(
    at: Point,
    left: float,
    column: float,
    lettering: Lettering,
    says: TitleBlock,
    *,
    rows: Sequence[Sequence[Field]],
) -> Block:
    """The title in a cell ``left`` mm wide, half way down it, with rows of fields beside it."""
    title = _title(at, left, lettering, says)
    grid = _grid((at[0] + left, at[1]), column, lettering, rows, title.height)
    spare = max(0.0, grid.height - title.height)
    title = _title((at[0], at[1] + spare / 2), left, lettering, says)
    return Block((*title.items, *grid.items), title.height + spare)


def _above(at: Point, width: float, lettering: Lettering, says: TitleBlock, column: float) -> Block:
    left = width - 3 * column
    rows = _numbers(says, lettering, column)
    head = _head(at, left, column, lettering, says, rows=rows)
    foot = at[1] + head.height
    under = _grid((at[0], foot), width / 6, lettering, (says.people(),))
    rule = Line((at[0], foot), (at[0] + width, foot), HAIRLINE)
    items = (*_edges(at, width, left, head.height), *head.items, rule, *under.items)
    return Block(items, head.height + under.height)


def _numbers(
    says: TitleBlock, lettering: Lettering, column: float
) -> tuple[tuple[Field, ...], tuple[Field, ...]]:
    """The numbers, the document's type over two columns where one would make it small."""
    room = column - PAD - _RIGHT_PAD
    return says.numbers(wordy=Hand(lettering.body).width(says.document_type) > room)


def _edges(at: Point, width: float, left: float, height: float) -> tuple[Line, Line]:
    x, y = at
    return (
        Line((x, y), (x + width, y), FRAME_LINE),
        Line((x + left, y), (x + left, y + height), HAIRLINE),
    )


def _title(at: Point, width: float, lettering: Lettering, says: TitleBlock) -> Block:
    """The title, large, and whom it is for."""
    room = width - 2 * PAD
    title, lines = _title_words(says.design.title, room, lettering)
    client, for_lines = Hand(lettering.lead, role="client").shrunk(_for(says.design), room, 2)
    x, y = at[0] + PAD, at[1] + 0.8 * PAD
    title_items, title_height = title.set(lines, (x, y))
    gap = 0.4 * lettering.body
    client_items, client_height = client.set(for_lines, (x, y + title_height + gap))
    height = title_height + (gap + client_height if for_lines else 0.0) + 1.4 * PAD
    area = Area(at[0], at[1], width, height)
    return Block((cell("title", area, (*title_items, *client_items)),), height)


def _title_words(title: str, room: float, lettering: Lettering) -> tuple[Hand, tuple[str, ...]]:
    """On one line at the title's height or the next below; else on more, smaller the longer."""
    large = Hand(lettering.title, "bold", role="title")
    below = replace(large, height=max(h for h in HEIGHTS if h < lettering.title))
    for hand in (large, below):
        if hand.width(title) <= room:
            return hand, (title,) if title else ()
    return below.fitted(title, room, set_height(lettering.title, 2))


def _for(design: Design) -> str:
    return f"for {design.client}" if design.client else ""


def _grid(
    at: Point,
    column: float,
    lettering: Lettering,
    rows: Sequence[Sequence[Field]],
    least: float = 0.0,
) -> Block:
    """Rows of fields, together at least ``least`` mm high."""
    heights = [max(_field_height(field, column, lettering) for field in row) for row in rows]
    spare = max(0.0, least - sum(heights)) / len(rows)
    tops = list(accumulate((tall + spare for tall in heights), initial=at[1]))
    items: list[Item] = []
    for row, top, bottom in zip(rows, tops, tops[1:], strict=False):
        items += _row((at[0], top), column, lettering, row, bottom - top)
    long = column * sum(field.span for field in rows[0])
    items += [Line((at[0], top), (at[0] + long, top), HAIRLINE) for top in tops[1:-1]]
    return Block(tuple(items), tops[-1] - at[1])


def _row(
    at: Point, column: float, lettering: Lettering, row: Sequence[Field], height: float
) -> list[Item]:
    items: list[Item] = []
    x = at[0]
    for field in row:
        if x > at[0]:
            items.append(Line((x, at[1]), (x, at[1] + height), HAIRLINE))
        items.append(_field(field, Area(x, at[1], column * field.span, height), lettering))
        x += column * field.span
    return items


def _value(field: Field, width: float, lettering: Lettering) -> tuple[Hand, tuple[str, ...]]:
    hand = Hand(lettering.body, "bold" if field.strong else "regular", role="field")
    return hand.shrunk(field.value, width - PAD - _RIGHT_PAD, field.lines)


def _value_top(lettering: Lettering) -> float:
    """From the top of a field to the top of its value, mm."""
    return 0.8 * lettering.body + 1.8 * lettering.small


def _field_height(field: Field, column: float, lettering: Lettering) -> float:
    hand, lines = _value(field, column * field.span, lettering)
    tall = _value_top(lettering) + set_height(hand.height, len(lines)) + 0.3 * lettering.body
    return max(_ROW * lettering.body, tall)


def _field(field: Field, area: Area, lettering: Lettering) -> Item:
    hand, lines = _value(field, area.width, lettering)
    label = Hand(lettering.small, colour=SOFT, role="label")
    base = area.y + 0.8 * lettering.body + lettering.small
    values, _ = hand.set(lines, (area.x + PAD, area.y + _value_top(lettering)))
    return cell(field.label, area, (label.at((area.x + PAD, base), field.label), *values))
