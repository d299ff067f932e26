"""A listing set on paper: its parts flow down standing pages, each with its head and its foot."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

from mockup.render.listing import Heading, Listing, Notes, Part
from mockup.render.record import Document, Item, Line, Point, Rect, Sheet, Style
from mockup.render.sheets.areas import Area, Block, cell
from mockup.render.sheets.inks import ALARM, FRAME_LINE, HAIRLINE, INK, SOFT
from mockup.render.sheets.lettering import SMALL_SHEET, Hand, Lettering
from mockup.render.sheets.listing_parts import Flow, flows
from mockup.render.sheets.paper import Paper

MARGIN = 15.0
_FOOT = 8.0
_SHORT = 0.5
"""What takes up to this share of a page is not broken across two."""


def listing_document(listing: Listing, paper: Paper, author: str = "") -> Document:
    """The listing as a document of as many pages as it takes."""
    lettering = SMALL_SHEET
    area = Area(MARGIN, MARGIN, paper.width - 2 * MARGIN, paper.height - 2 * MARGIN - _FOOT)
    pages = _Pages(area, lettering, listing)
    for section in _sections(listing.parts):
        pages.add(section, lettering)
    sheets = tuple(
        Sheet(
            paper.width,
            paper.height,
            (*items, *_foot(listing, area, lettering, number, len(pages.done))),
            name=f"{listing.kind} {number}",
        )
        for number, items in enumerate(pages.done, start=1)
    )
    return Document(sheets, f"{listing.kind}: {listing.title}", author, subject=listing.about)


def _sections(parts: Sequence[Part]) -> list[list[Part]]:
    """The parts from one heading to the next; a joined heading stays with what is before it."""
    sections: list[list[Part]] = [[]]
    for part in parts:
        if isinstance(part, Notes) or (isinstance(part, Heading) and not part.joined):
            sections.append([])
        sections[-1].append(part)
    return [section for section in sections if section]


@dataclass(frozen=True)
class _Measured:
    """A piece with the room it takes down the page, its gap included, mm."""

    flow: Flow
    tall: float


def _kept_together(every: Sequence[_Measured]) -> list[list[_Measured]]:
    """Runs of pieces that share a page: each piece with what it keeps with it."""
    runs: list[list[_Measured]] = [[]]
    for one in every:
        runs[-1].append(one)
        if not one.flow.with_next:
            runs.append([])
    return [run for run in runs if run]


def _taken(run: Sequence[_Measured]) -> float:
    return sum(one.tall for one in run)


@dataclass
class _Pages:
    area: Area
    lettering: Lettering
    listing: Listing
    done: list[list[Item]] = field(default_factory=list)
    y: float = 0.0
    fresh: bool = True

    def __post_init__(self) -> None:
        self._turn()

    def add(self, section: Sequence[Part], lettering: Lettering) -> None:
        """A section: on one page where it is to stay whole or is short, and else run by run."""
        nexts = (*section[1:], None)
        every = [
            _Measured(flow, flow.gap + self._height(flow))
            for part, after in zip(section, nexts, strict=True)
            for flow in flows(part, lettering, after)
        ]
        whole = isinstance(section[0], Heading) and section[0].whole
        room = self._page * (1.0 if whole else _SHORT)
        if _taken(every) <= room and not self._holds(every):
            self._turn()
        for run in _kept_together(every):
            self._run(run)

    def _run(self, run: list[_Measured]) -> None:
        if not self._holds(run):
            self._turn()
            head = run[0].flow.head
            if head:
                self._draw(Flow(head))
        for one in run:
            self._draw(one.flow)

    def _holds(self, run: Sequence[_Measured]) -> bool:
        return self.fresh or self.y + _taken(run) <= self.area.bottom

    def _height(self, flow: Flow) -> float:
        known = flow.known
        return known if known is not None else flow.build((0.0, 0.0), self.area.width).height

    @cached_property
    def _page(self) -> float:
        """How much a page other than the first holds under its head, mm."""
        head = _head((0.0, 0.0), self.area.width, self.lettering, self.listing, first=False)
        return self.area.height - head.height

    def _draw(self, flow: Flow) -> None:
        self.y += 0.0 if self.fresh else flow.gap
        block = flow.build((self.area.x, self.y), self.area.width)
        self.done[-1] += block.items
        self.y += block.height
        self.fresh = False

    def _turn(self) -> None:
        first = not self.done
        head = _head(
            (self.area.x, self.area.y), self.area.width, self.lettering, self.listing, first
        )
        self.done.append(list(head.items))
        self.y = self.area.y + head.height
        self.fresh = True


def _head(at: Point, width: float, lettering: Lettering, listing: Listing, first: bool) -> Block:
    """Title, client and facts on the first page, the title on the others, the banner on all."""
    x, y = at
    kind = Hand(lettering.body, colour=SOFT, role="kind")
    title, lines = Hand(lettering.title if first else lettering.lead, "bold", role="title").shrunk(
        listing.title, width - kind.width(listing.kind) - 6, 2 if first else 1
    )
    items, height = title.set(lines, (x, y))
    every: list[Item] = [*items, kind.at((x + width, y + title.height), listing.kind, "end")]
    y += height + 2.0
    if first and listing.client:
        client, height = Hand(lettering.lead, role="client").set(
            Hand(lettering.lead).wrapped(f"for {listing.client}", width), (x, y)
        )
        every += client
        y += height + 2.0
    if first and listing.facts:
        block = _facts((x, y + 1.0), width, lettering, listing)
        every += block.items
        y += block.height + 1.0
    every.append(Line((x, y), (x + width, y), FRAME_LINE))
    y += 3.0
    if listing.banner:
        block = _banner((x, y), width, lettering, listing.banner)
        every += block.items
        y += block.height + 3.0
    return Block(tuple(every), y - at[1])


def _facts(at: Point, width: float, lettering: Lettering, listing: Listing) -> Block:
    """Labelled values in up to four columns, row by row."""
    columns = min(4, len(listing.facts))
    each = width / columns
    label = Hand(lettering.small, colour=SOFT, role="label")
    value = Hand(lettering.body, role="field")
    items: list[Item] = []
    y = at[1]
    for start in range(0, len(listing.facts), columns):
        tall = 0.0
        for number, (name, text) in enumerate(listing.facts[start : start + columns]):
            corner = (at[0] + number * each, y)
            lines, height = value.set(
                value.wrapped(text, each - 3), (corner[0], y + 1.8 * label.height)
            )
            own = (label.at((corner[0], y + label.height), name), *lines)
            bounds = Area(*corner, each, 1.8 * label.height + height)
            items.append(cell(name, bounds, own))
            tall = max(tall, bounds.height)
        y += tall + 1.5
    return Block(tuple(items), y - at[1])


def _banner(at: Point, width: float, lettering: Lettering, text: str) -> Block:
    hand = Hand(lettering.body, "bold", "#ffffff", role="banner", ground=ALARM)
    lines, height = hand.set(hand.wrapped(text, width - 6), (at[0] + 3, at[1] + 2.2))
    strip = Rect(at[0], at[1], width, height + 4, Style(ALARM), corner=1.0)
    bounds = Area(at[0], at[1], width, height + 4)
    return Block((cell("banner", bounds, (strip, *lines)),), height + 4)


def _foot(
    listing: Listing, area: Area, lettering: Lettering, number: int, of: int
) -> tuple[Item, ...]:
    y = area.bottom + _FOOT
    quiet = Hand(lettering.small, colour=SOFT, role="foot")
    page = Hand(lettering.small, "bold", INK, role="foot")
    said = "  ·  ".join(one for one in (listing.sender, listing.about) if one)
    room = area.width - page.width(f"Page {number} of {of}") - 4
    return (
        Line((area.x, y - 3.6), (area.right, y - 3.6), HAIRLINE),
        quiet.at((area.x, y), quiet.wrapped(said, room)[0] if said else ""),
        page.at((area.right, y), f"Page {number} of {of}", "end"),
    )
