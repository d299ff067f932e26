"""The sizing gauge at 1:1: a hole for every fill diameter, and a strip to measure round by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.lengths import Unit
from mockup.render.record import Document, Item, Sheet
from mockup.render.sheets.areas import Area
from mockup.render.sheets.gauge_holes import Hole, packed
from mockup.render.sheets.gauge_strip import strip_pages
from mockup.render.sheets.gauge_tiles import tiles
from mockup.render.sheets.inks import INK, SOFT
from mockup.render.sheets.lettering import SMALL_SHEET, Hand
from mockup.render.sheets.paper import MARGIN, Paper
from mockup.render.sheets.rulers import check_rulers

_HEAD = 15.5
CUT_WORDS = "Print at 100 %, not scaled to the page. Both rulers must measure true before you cut."


@dataclass(frozen=True)
class GaugeWords:
    """What stands at the head and foot of each page."""

    title: str
    about: str
    unit: Unit
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Page:
    name: str
    items: tuple[Item, ...]


def gauge_document(holes: Sequence[Hole], paper: Paper, words: GaugeWords) -> Document:
    """Every hole at its true size: small ones together, those larger than a page on tiles.

    The last pages are the measuring strip, marked at the circumference of every hole.
    """
    frame = Area(MARGIN, MARGIN, paper.width - 2 * MARGIN, paper.height - 2 * MARGIN)
    room = Area(frame.x, frame.y + _HEAD, frame.width, frame.height - _HEAD)
    pages: list[_Page] = []
    small, large = packed(holes, room)
    pages += [_Page("holes", items) for items in small]
    pages += [
        _Page(f"hole {tile.name}", tile.items) for hole in large for tile in tiles(hole, room)
    ]
    pages += [_Page("strip", items) for items in strip_pages(holes, room, words.unit)]
    sheets = tuple(
        Sheet(
            paper.width,
            paper.height,
            (*page.items, *_edge(page, frame, words, number, len(pages))),
            name=f"Gauge {number}",
        )
        for number, page in enumerate(pages, start=1)
    )
    return Document(sheets, f"Sizing gauge: {words.title}", subject=words.about)


def _edge(page: _Page, frame: Area, words: GaugeWords, number: int, of: int) -> tuple[Item, ...]:
    bold = Hand(SMALL_SHEET.lead, "bold", INK, role="title")
    quiet = Hand(SMALL_SHEET.small, colour=SOFT, role="head")
    base = frame.y + bold.height
    said = f"Sizing gauge 1:1, {page.name}, page {number} of {of}"
    hand, lines = bold.shrunk(words.title, frame.width - quiet.width(said) - 4)
    return (
        hand.at((frame.x, base), lines[0]),
        quiet.at((frame.right, base), said, "end"),
        quiet.at((frame.x, base + 4.2), f"{CUT_WORDS} {words.about}"),
        *_cautions(words.cautions, frame, base + 5.8),
        *check_rulers(frame, words.unit),
    )


def _cautions(cautions: Sequence[str], frame: Area, top: float) -> tuple[Item, ...]:
    hand = Hand(SMALL_SHEET.small, colour=INK, role="caution")
    lines = hand.wrapped(" ".join(cautions), frame.width) if cautions else []
    return hand.set(lines, (frame.x, top))[0]
