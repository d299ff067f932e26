"""The papers the page makes, written beside the piece file: proof, client page and work sheets.

A paper is made of the file as it is saved, so that both say the same. Each is written whole or not
at all, in the piece's own folder, and offered to be opened.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any, NamedTuple

from mockup.design.studio_usual import usual_for
from mockup.errors import CannotWrite, MockupError
from mockup.piece.findings import failing, find_all
from mockup.piece.placed import Piece
from mockup.piece.revisions import Standing, standing
from mockup.piece.visible import visible_shares
from mockup.render.writing import write_whole

if TYPE_CHECKING:
    from mockup.render.record import Document
    from mockup.render.sheets.paper import Paper as Sheet
    from mockup.render.sheets.proof import Asked
    from mockup.stock.buy_rows import BuyRow
    from mockup.stock.order import Order

_WRITING = Lock()
"""Papers are made one at a time: two tabs may ask for the same one."""


class NoSuchPaper(MockupError):
    """A paper of a kind that is not made here."""


@dataclass(frozen=True)
class Source:
    """What a paper is made of: the saved piece, and the colourway whose stock is meant."""

    piece: Piece
    file: Path
    letters: bool = False
    colourway: str = ""

    @cached_property
    def now(self) -> Standing:
        """The piece with its revision and what was approved of it."""
        return standing(self.piece.design, self.file)

    @cached_property
    def counted(self) -> Piece:
        """The piece under its own revision."""
        from dataclasses import replace

        return replace(self.piece, design=self.now.design)

    @cached_property
    def order(self) -> Order:
        """What the sheets for stock and build start from."""
        from mockup.worksheets.opening import read_order

        return read_order(self.file, colourway=self.colourway)

    @cached_property
    def sheet(self) -> Sheet:
        """The paper of the work sheets."""
        from mockup.worksheets.opening import paper_for

        return paper_for(self.order)

    @cached_property
    def asked(self) -> Asked:
        """How the proof is wished."""
        from mockup.render.sheets.proof import Asked
        from mockup.render.viewpoint import ViewOptions

        studio = usual_for(self.file.parent).studio
        return Asked(view=ViewOptions(letters=self.letters), studio=studio)


class Made(NamedTuple):
    """The bytes of a paper, what may be said of it (a scale), and what is amiss."""

    data: bytes
    about: str = ""
    note: str = ""


def _proof_document(source: Source) -> Document:
    from mockup.render.sheets.colourways import colourways_document

    piece = source.counted
    return colourways_document(
        piece,
        find_all(piece),
        code=source.now.code,
        shares=visible_shares(piece),
        asked=source.asked,
    )


def _proof(source: Source) -> Made:
    document = _proof_document(source)
    return _printed(document, f"scale {document.extra.get('scale', '')}")


def _client_page(source: Source) -> Made:
    from mockup.render.page.client_page import client_page
    from mockup.render.page.page_asked import PageAsked
    from mockup.render.sheets.colourways import paper_of

    document, piece, asked = _proof_document(source), source.counted, source.asked
    scale, paper = document.extra["scale"], paper_of(document)
    page = PageAsked(
        scale=int(scale.removeprefix("1:")),
        paper=(paper.width, paper.height),
        studio=asked.studio,
        view=asked.view,
    )
    shares = visible_shares(piece)
    text = client_page(piece, find_all(piece), code=source.now.code, asked=page, shares=shares)
    return Made(text.encode("utf-8"), f"printed at {scale}")


def _build(source: Source) -> Made:
    from mockup.worksheets.documents import build_document

    return _printed(build_document(source.order, source.sheet))


def _build_page(source: Source) -> Made:
    from mockup.worksheets.documents import build_page

    return Made(build_page(source.order), "for a phone")


def _gauge(source: Source) -> Made:
    from mockup.worksheets.documents import gauge_document

    return _printed(gauge_document(source.order, source.sheet), "print it at 100 %")


def _buy(source: Source) -> Made:
    from mockup.worksheets.documents import buy_document

    return _printed(buy_document(source.order, source.sheet))


def _buy_lines(order: Order, paper: Sheet) -> list[BuyRow]:
    from mockup.stock.buy_rows import buy_rows
    from mockup.stock.buying import buy_list
    from mockup.worksheets.gauge_sheet import gauge_sheets

    bought = buy_list(order.picking, order.studio)
    return list(buy_rows(bought, order.job.unit, gauge_sheets(order, paper)))


def _buy_book(source: Source) -> Made:
    from mockup.stock.buy_xlsx import xlsx_bytes

    order = source.order
    lines, changed = _buy_lines(order, source.sheet), " ".join(order.changed)
    return Made(xlsx_bytes(lines, order.job.title, order.studio.currency, changed))


def _buy_csv(source: Source) -> Made:
    from mockup.stock.buy_csv import csv_bytes

    order = source.order
    return Made(csv_bytes(_buy_lines(order, source.sheet), order.studio.currency))


def _quote(source: Source) -> Made:
    from mockup.worksheets.documents import quote_document

    return _printed(quote_document(source.order, date.today(), source.sheet))


def _options(source: Source) -> Made:
    from mockup.bench.versions import versions_document
    from mockup.design.opening import read_text

    return _printed(versions_document(read_text(source.file), source.file))


def _printed(document: Document, about: str = "") -> Made:
    from mockup.render.routes import make_pdf

    made = make_pdf(document)
    return Made(made.data, about, " ".join((made.note, *_lacking(document))).strip())


def _lacking(document: Document) -> Iterator[str]:
    from mockup.render.record import Text, walk
    from mockup.render.text import missing

    words = {i.text for s in document.sheets for i in walk(s.items) if isinstance(i, Text)}
    lacking = sorted({each for text in sorted(words) for each in missing(text)})
    if lacking:
        yield f"The lettering lacks {', '.join(lacking)}; a box stands in its place."


PAPERS: dict[str, tuple[str, Callable[[Source], Made]]] = {
    "proof": ("-proof.pdf", _proof),
    "page": ("-proof.html", _client_page),
    "build": ("-build.pdf", _build),
    "phone": ("-build.html", _build_page),
    "gauge": ("-gauge.pdf", _gauge),
    "buy": ("-buy.pdf", _buy),
    "workbook": ("-buy.xlsx", _buy_book),
    "lines": ("-buy.csv", _buy_csv),
    "quote": ("-quote.pdf", _quote),
    "options": ("-options.pdf", _options),
}
"""Every paper by its kind: how its name ends after the piece's, and what makes it."""

MEDIA = {
    ".pdf": "application/pdf",
    ".html": "text/html",
    ".csv": "text/csv; charset=utf-8",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
PAGE_POLICY = "; ".join(
    (
        "default-src 'none'",
        "style-src 'unsafe-inline'",
        "font-src data:",
        "img-src data:",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
        "sandbox allow-popups",
    )
)
"""A page that was made is shown in its own style and sealed off: nothing in it runs or fetches."""


def write_paper(kind: str, source: Source) -> dict[str, Any]:
    """Make one paper beside the piece; returns its name, what may be said of it, what fails.

    Raises ``NoSuchPaper``, ``CannotWrite``, and what the paper itself raises: then nothing that
    stood there has been touched.
    """
    if kind not in PAPERS:
        raise NoSuchPaper("there is no such paper")
    ending, make = PAPERS[kind]
    target = place_of(source.file, ending)
    with _WRITING:
        made = make(source)
        write_whole(target, made.data)
    return {
        "kind": kind,
        "name": target.name,
        "about": made.about,
        "revision": source.now.design.revision,
        "failing": [finding.name for finding in failing(find_all(source.piece))],
        "changed": source.now.changed(),
        "note": made.note,
    }


def place_of(file: Path, ending: str) -> Path:
    """Where a paper goes: beside the piece, and nowhere that a link there would lead to."""
    target = file.with_name(f"{file.stem}{ending}")
    if target == file:
        raise CannotWrite("the piece file itself would be written over; give it another name")
    if target.is_symlink():
        raise CannotWrite(f"{target.name} is a link to another place; take it away first")
    return target
