"""A listing: headings, text, tables with tick boxes and small pictures, before any page is chosen.

The printed sheets and the page for a phone are both set from it, so that they say the same.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from mockup.design.model import ColourUse
from mockup.render.record import Anchor, Item, Point

Tone = Literal["plain", "soft", "care", "alarm"]


@dataclass(frozen=True)
class Picture:
    """A small drawing of ``width`` x ``height`` mm; ``draw`` places it by its top left corner."""

    draw: Callable[[Point], tuple[Item, ...]]
    width: float
    height: float
    says: str


@dataclass(frozen=True)
class Heading:
    """The heading of a part, with an ``aside`` at the far side.

    ``whole`` keeps all up to the next heading on one page where a page holds it; ``joined`` keeps
    it on the page of the part before it as well.
    """

    text: str
    aside: str = ""
    whole: bool = False
    joined: bool = False


@dataclass(frozen=True)
class Words:
    """A paragraph."""

    text: str
    strong: bool = False
    tone: Tone = "plain"


@dataclass(frozen=True)
class Column:
    """A column of a table: its title and its ``share`` of the width."""

    title: str
    share: float
    anchor: Anchor = "start"


@dataclass(frozen=True)
class Row:
    """A row of a table. ``swatch`` shows a colour, ``picture`` a drawing, before the first cell.

    ``lead`` rows stand out: a sum, or the name of a group.
    """

    cells: tuple[str, ...]
    swatch: ColourUse | None = None
    picture: Picture | None = None
    lead: bool = False
    tone: Tone = "plain"


@dataclass(frozen=True)
class Table:
    """Rows under columns; with ``ticks`` each row that is no ``lead`` has a box to tick.

    ``swatches`` keeps room for colours also where no row has one, so that tables line up.
    """

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    ticks: bool = False
    swatches: bool = False


@dataclass(frozen=True)
class Notes:
    """Cautions under a heading of their own, in small print of two columns on paper."""

    says: tuple[str, ...]
    title: str = "Please note"


Part = Heading | Words | Table | Picture | Notes


@dataclass(frozen=True)
class Listing:
    """A whole listing. ``facts`` are short labelled values under the title.

    ``banner`` is an alarm that stands at the top of every page; ``about`` tells it from any other
    (a proof code, a revision) and ``sender`` who made it, at the foot of every page.
    """

    title: str
    kind: str
    parts: tuple[Part, ...]
    client: str = ""
    facts: tuple[tuple[str, str], ...] = ()
    banner: str = ""
    about: str = ""
    sender: str = ""
