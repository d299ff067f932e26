"""The record of a drawing: plain shapes on a sheet, in millimetres, before any file format.

A sheet is drawn once into a record; the writers (SVG, PDF, PNG, HTML) replay it, and tests measure
it. On a sheet x runs right and y runs *down* from the top left corner, as the writers need it; the
front view turns the piece's y-up millimetres over once, where it applies the scale.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]
Weight = Literal["regular", "bold"]


@dataclass(frozen=True)
class Stop:
    """One stop of a gradient: ``offset`` from 0 to 1, ``colour`` as #rrggbb."""

    offset: float
    colour: str
    opacity: float = 1.0


@dataclass(frozen=True)
class Radial:
    """A radial gradient in units of the painted shape's own box, so that all sizes share it."""

    id: str
    stops: tuple[Stop, ...]
    cx: float = 0.5
    cy: float = 0.5
    r: float = 0.5
    fx: float = 0.5
    fy: float = 0.5


@dataclass(frozen=True)
class Linear:
    """A linear gradient from ``start`` to ``end``: box units, or sheet mm with ``on_sheet``."""

    id: str
    stops: tuple[Stop, ...]
    start: Point = (0.0, 0.0)
    end: Point = (0.0, 1.0)
    on_sheet: bool = False


Gradient = Radial | Linear
Paint = str | Radial | Linear
"""``#rrggbb``, ``none``, or a gradient (the writer defines each gradient once, by its id)."""


@dataclass(frozen=True)
class Style:
    """How a shape is painted. Widths and dashes in mm."""

    fill: Paint = "none"
    stroke: Paint = "none"
    stroke_width: float = 0.25
    opacity: float = 1.0
    dash: tuple[float, ...] = ()
    round_ends: bool = False


@dataclass(frozen=True)
class Circle:
    """A circle of radius ``r`` round ``centre``, mm."""

    centre: Point
    r: float
    style: Style


@dataclass(frozen=True)
class Ellipse:
    """An ellipse of half axes ``rx``, ``ry``, turned ``turn`` degrees clockwise on the sheet."""

    centre: Point
    rx: float
    ry: float
    style: Style
    turn: float = 0.0


@dataclass(frozen=True)
class Path:
    """SVG path data in sheet mm (only M L H V C Q A Z, absolute), already rounded by its maker."""

    d: str
    style: Style
    evenodd: bool = False


@dataclass(frozen=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    style: Style


@dataclass(frozen=True)
class Rect:
    """An upright rectangle from its top left corner."""

    x: float
    y: float
    width: float
    height: float
    style: Style
    corner: float = 0.0


@dataclass(frozen=True)
class Text:
    """One line of text. ``height`` is the ISO 3098 lettering height, i.e. of capitals, in mm.

    ``at`` is on the base line; ``turn`` is degrees clockwise on the sheet. ``role`` names what the
    text is ("dimension", "title", "key" ...), so that tests and writers can find it.
    """

    at: Point
    text: str
    height: float
    anchor: Anchor = "start"
    weight: Weight = "regular"
    colour: str = "#1c1c1e"
    turn: float = 0.0
    role: str = ""
    ground: str = "#ffffff"


@dataclass(frozen=True)
class Symbol:
    """Shapes drawn once round their own origin and placed many times."""

    id: str
    items: tuple[Item, ...]


@dataclass(frozen=True)
class Place:
    """``symbol`` placed at ``at``, scaled by ``scale`` (x and y alike) and turned clockwise."""

    symbol: Symbol
    at: Point
    scale: float = 1.0
    turn: float = 0.0


@dataclass(frozen=True)
class Group:
    """Items kept together: clipped to ``clip`` (path data in the same space), faded, and named.

    ``kind`` names what the group is ("balloon", "numeral", "dimension", "frame" ...), ``name`` the
    particular one (a balloon's id), ``title`` the words a pointer or a screen reader gets.
    """

    items: tuple[Item, ...]
    kind: str = ""
    name: str = ""
    title: str = ""
    clip: str = ""
    opacity: float = 1.0


Item = Circle | Ellipse | Path | Line | Rect | Text | Place | Group


@dataclass(frozen=True)
class Sheet:
    """One page: its size in mm, its items in drawing order, and what it is called."""

    width: float
    height: float
    items: tuple[Item, ...]
    name: str = ""
    background: str = "#ffffff"


@dataclass(frozen=True)
class Document:
    """The pages of one output with the words that describe it to a reader or a search."""

    sheets: tuple[Sheet, ...]
    title: str
    author: str = ""
    subject: str = ""
    keywords: tuple[str, ...] = ()
    language: str = "en"
    extra: dict[str, str] = field(default_factory=dict)


def walk(items: tuple[Item, ...]) -> Iterator[Item]:
    """Every item in drawing order, going into groups (not into symbols)."""
    for item in items:
        yield item
        if isinstance(item, Group):
            yield from walk(item.items)
