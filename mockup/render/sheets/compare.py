"""The comparison sheet: versions of a piece in a row at one scale, their figures under them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from mockup.errors import MockupError
from mockup.lengths import Unit
from mockup.piece.placed import Piece
from mockup.render.front_view import front_view
from mockup.render.record import Document, Group, Item, Line, Point, Rect, Sheet, Style
from mockup.render.sheets.areas import Area, Block, cell
from mockup.render.sheets.compare_foot import foot, foot_height
from mockup.render.sheets.compare_tapers import tapers, tapers_height
from mockup.render.sheets.inks import FRAME_LINE, GOOD, HAIRLINE, SOFT
from mockup.render.sheets.lettering import SMALL_SHEET, Hand, Lettering
from mockup.render.sheets.overlaps import PICTURE, require_clear
from mockup.render.sheets.paper import MARGIN, Paper, family, paper_named
from mockup.render.sheets.rulers import check_rulers
from mockup.render.sheets.scale import SCALES, DoesNotFit, scale_words

MOST_A_SHEET = 5
_LABEL_WIDTH = 30.0
_LEAST_COLUMN, _MOST_COLUMN = 44.0, 130.0
_GAP = 3.0
_WELL = 10
_BEST_GROUND = "#e8f3ec"


@dataclass(frozen=True)
class Compared:
    """One version: its name, the piece, and a few words beneath the name."""

    name: str
    piece: Piece
    says: str = ""


@dataclass(frozen=True)
class _Head:
    """What stands over a sheet: its title, a line about it, and which sheet of how many it is."""

    title: str
    about: str
    sheet: int
    sheets: int


@dataclass(frozen=True)
class CompareRow:
    """One line of figures: a label, a cell for each version, and the word for those that are best.

    ``marks`` holds the word ("largest") for each cell that is the best, "" for the others.
    """

    label: str
    cells: tuple[str, ...]
    marks: tuple[str, ...]


class NothingToCompare(MockupError):
    """A comparison of nothing."""


def compare_document(
    title: str,
    versions: Sequence[Compared],
    rows: Sequence[CompareRow],
    *,
    about: str = "",
    paper: str | None = None,
) -> Document:
    """The sheets, at most five versions on each and all pictures at one scale.

    Raises ``NothingToCompare``, or ``DoesNotFit`` where no preferred scale holds the pictures.
    """
    if not versions:
        raise NothingToCompare("there is no version to compare")
    size, scale = _sized(versions, rows, paper)
    groups = list(_groups(versions, rows))
    frames = [_Frame(size, len(own)) for own, _ in groups]
    sheets = tuple(
        require_clear(
            Sheet(
                size.width,
                size.height,
                tuple(_sheet(_Head(title, about, number, len(groups)), frame, own, lines, scale)),
                name=f"Comparison {number}",
            )
        )
        for number, (frame, (own, lines)) in enumerate(zip(frames, groups, strict=True), start=1)
    )
    return Document(sheets, title=f"{title}: versions compared", subject=about)


def _sized(
    versions: Sequence[Compared], rows: Sequence[CompareRow], name: str | None
) -> tuple[Paper, int]:
    """The smallest paper that shows the pictures at 1 : 10, or the one that shows them largest."""
    sizes = (paper_named(name),) if name else family(versions[0].piece.design.unit)
    found: list[tuple[Paper, int]] = []
    refused: DoesNotFit | None = None
    for size in (each.turned(landscape=True) for each in sizes):
        try:
            scale = max(
                _scale(_Frame(size, len(own)), own, lines) for own, lines in _groups(versions, rows)
            )
        except DoesNotFit as trouble:
            refused = trouble
        else:
            found.append((size, scale))
            if scale <= _WELL:
                break
    if not found:
        raise refused or DoesNotFit("no paper is large enough")
    return min(found, key=lambda each: each[1])


def _groups(
    versions: Sequence[Compared], rows: Sequence[CompareRow]
) -> Iterator[tuple[Sequence[Compared], list[CompareRow]]]:
    for start in range(0, len(versions), MOST_A_SHEET):
        part = slice(start, start + MOST_A_SHEET)
        yield (
            versions[part],
            [CompareRow(row.label, row.cells[part], row.marks[part]) for row in rows],
        )


class _Frame:
    """Where things stand on a sheet of ``count`` versions."""

    def __init__(self, paper: Paper, count: int) -> None:
        self.paper = paper
        self.lettering: Lettering = SMALL_SHEET
        width, height = paper.width - 2 * MARGIN, paper.height - 2 * MARGIN
        self.area = Area(MARGIN, MARGIN, width, height)
        self.column = min(_MOST_COLUMN, (width - _LABEL_WIDTH) / max(1, count))
        self.columns = count
        if self.column < _LEAST_COLUMN:
            raise DoesNotFit(f"{count} versions do not go side by side on {paper.words}")

    @property
    def head(self) -> float:
        """Height of the title."""
        return 2.6 * self.lettering.title

    def left(self, number: int) -> float:
        """The left edge of a version's column."""
        return self.area.x + _LABEL_WIDTH + number * self.column


def _scale(frame: _Frame, versions: Sequence[Compared], rows: Sequence[CompareRow]) -> int:
    """The largest preferred scale at which every picture goes into its place."""
    table = _table(frame, rows, 0.0).height
    names = _names(frame, versions, 0.0).height
    strip = _strip(frame, versions)
    rest = frame.area.height - frame.head - names - strip - table - 6 * _GAP
    wide = frame.column - 2 * _GAP
    box = (
        max(one.piece.extent.width for one in versions),
        max(one.piece.extent.height for one in versions),
    )
    for scale in SCALES:
        tall = rest - _foot_height(frame, versions, scale)
        if box[0] / scale <= wide and box[1] / scale <= tall:
            return scale
    raise DoesNotFit(
        f"the pictures do not fit above their figures on {frame.paper.words}; take a larger paper "
        "or fewer versions"
    )


def _sheet(
    head: _Head,
    frame: _Frame,
    versions: Sequence[Compared],
    rows: Sequence[CompareRow],
    scale: int,
) -> Iterator[Item]:
    yield from _title(frame, head, scale)
    y = frame.area.y + frame.head + _GAP
    names = _names(frame, versions, y)
    yield from names.items
    y += names.height + _GAP
    tallest = max(one.piece.extent.height for one in versions) / scale
    yield from _pictures(frame, versions, scale, y, tallest)
    y += tallest + _GAP
    strip = _strip(frame, versions)
    if strip:
        quiet = Hand(frame.lettering.small, colour=SOFT, role="label")
        lines = quiet.wrapped("Taper, from the middle outward", _LABEL_WIDTH - _GAP)
        yield from quiet.set(lines, (frame.area.x, y))[0]
    for number, one in enumerate(versions):
        place = Area(frame.left(number) + _GAP, y, frame.column - 2 * _GAP, strip)
        yield from tapers(one.piece, place, frame.lettering)
    yield from _table(frame, rows, y + strip + _GAP).items
    tall, area, unit = _foot_height(frame, versions, scale), frame.area, _unit(versions)
    place = Area(area.x, area.bottom - tall, area.width, tall)
    yield from foot([one.piece for one in versions], place, frame.lettering, scale, unit)
    beside = Area(area.x - 2.0, area.y, area.width, area.height + 2.0)
    yield from check_rulers(beside, unit)


def _strip(frame: _Frame, versions: Sequence[Compared]) -> float:
    """The height of the tapers where they are most."""
    return max(tapers_height(one.piece, frame.lettering) for one in versions)


def _foot_height(frame: _Frame, versions: Sequence[Compared], scale: int) -> float:
    pieces = [one.piece for one in versions]
    return foot_height(pieces, frame.area.width, frame.lettering, scale, _unit(versions))


def _unit(versions: Sequence[Compared]) -> Unit:
    return versions[0].piece.design.unit


def _title(frame: _Frame, head: _Head, scale: int) -> Iterator[Item]:
    area, lettering = frame.area, frame.lettering
    quiet = Hand(lettering.small, colour=SOFT, role="label")
    told = f"Front views at scale {scale_words(scale)}"
    if head.sheets > 1:
        told += f"  ·  sheet {head.sheet} of {head.sheets}"
    room = area.width - quiet.width(told) - 8
    hand, lines = Hand(lettering.title, "bold", role="title").shrunk(head.title, room)
    yield hand.at((area.x, area.y + hand.height), lines[0])
    yield quiet.at((area.right, area.y + lettering.title), told, "end")
    if head.about:
        under = quiet.wrapped(head.about, area.width)[:1]
        yield quiet.at((area.x, area.y + lettering.title + 2.4 * quiet.height), under[0])
    y = area.y + frame.head
    yield Line((area.x, y), (area.right, y), FRAME_LINE)


def _names(frame: _Frame, versions: Sequence[Compared], y: float) -> Block:
    items: list[Item] = []
    tallest = 0.0
    for number, one in enumerate(versions):
        x, room = frame.left(number) + _GAP, frame.column - 2 * _GAP
        bold, lines = Hand(frame.lettering.lead, "bold", role="name").shrunk(one.name, room)
        said, height = bold.set(lines, (x, y))
        own: list[Item] = [*said]
        if one.says:
            quiet = Hand(frame.lettering.small, colour=SOFT, role="says")
            more, deep = quiet.set(quiet.wrapped(one.says, room), (x, y + height + 0.6))
            own += more
            height += deep + 0.6
        items.append(cell(one.name, Area(x, y, room, height), tuple(own)))
        tallest = max(tallest, height)
    return Block(tuple(items), tallest)


def _pictures(
    frame: _Frame, versions: Sequence[Compared], scale: int, y: float, tallest: float
) -> Iterator[Item]:
    """Every picture stands on one line, its own middle in the middle of its column."""
    foot = y + tallest
    for number, one in enumerate(versions):
        box = one.piece.extent
        middle = frame.left(number) + frame.column / 2 - (box.x[0] + box.x[1]) / 2 / scale
        origin: Point = (middle, foot + box.y[0] / scale)
        picture = front_view(one.piece, 1 / scale, origin)
        told = f"{one.name}: {len(one.piece.balloons)} balloons"
        yield Group((picture,), kind=PICTURE, name=f"version {number + 1}", title=told)


def _table(frame: _Frame, rows: Sequence[CompareRow], y: float) -> Block:
    items: list[Item] = []
    start = y
    for row in rows:
        block = _row(frame, row, y)
        items += block.items
        y += block.height
    return Block(tuple(items), y - start)


def _row(frame: _Frame, row: CompareRow, y: float) -> Block:
    lettering = frame.lettering
    quiet = Hand(lettering.small, colour=SOFT, role="label")
    label, tallest = quiet.set(
        quiet.wrapped(row.label, _LABEL_WIDTH - _GAP), (frame.area.x, y + 1.0)
    )
    cells: list[Item] = []
    for number, (text, mark) in enumerate(zip(row.cells, row.marks, strict=True)):
        x, room = frame.left(number) + _GAP, frame.column - 2 * _GAP
        hand = Hand(lettering.small, "bold" if mark else "regular", role="figure")
        said = f"{text} ({mark})" if mark else text
        lines = [line for part in said.split("\n") for line in hand.wrapped(part, room)]
        if mark:
            hand = Hand(lettering.small, "bold", GOOD, role="figure", ground=_BEST_GROUND)
        set_lines, height = hand.set(lines, (x, y + 1.0))
        bounds = Area(x - 1.0, y, room + 2.0, height + 1.6)
        ground: tuple[Item, ...] = (
            (Rect(x - 1.0, y + 0.2, room + 2.0, height + 1.4, Style(_BEST_GROUND), 0.8),)
            if mark
            else ()
        )
        cells.append(cell(row.label, bounds, (*ground, *set_lines)))
        tallest = max(tallest, height)
    height = tallest + 1.8
    rule = Line((frame.area.x, y + height), (frame.left(frame.columns), y + height), HAIRLINE)
    area = Area(frame.area.x, y, _LABEL_WIDTH, tallest + 1.6)
    return Block((cell("label", area, label), *cells, rule), height)
