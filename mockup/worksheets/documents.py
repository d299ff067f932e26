"""The sheets of an order, ready to be written: what the commands and the bench both hand out.

Each takes an ``Order`` (``worksheets.opening.read_order``) and a ``Paper`` and answers with a
``Document`` of true-size pages, which ``render.routes.make_pdf`` turns into a PDF's bytes.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from mockup.errors import MockupError

if TYPE_CHECKING:
    from mockup.render.listing import Listing
    from mockup.render.record import Document
    from mockup.render.sheets.paper import Paper
    from mockup.stock.order import Order
    from mockup.stock.quoting import ClientQuote


class Unpriced(MockupError):
    """A quote for the client was asked of a job that the book has no price for."""

    exit_code = 1


def buy_document(order: Order, paper: Paper) -> Document:
    """The list to take to the shop, with boxes to tick."""
    from mockup.stock.buying import buy_list
    from mockup.worksheets.buy_sheet import buy_listing
    from mockup.worksheets.gauge_sheet import gauge_sheets

    bought = buy_list(order.picking, order.studio)
    return _set(buy_listing(order, bought, gauge_sheets(order, paper)), paper)


def client_quote(order: Order, issued: date) -> ClientQuote:
    """What the client is asked for: all that their sheet is made from.

    Raises ``Unpriced`` where the studio book has no price for something the job takes.
    """
    from mockup.stock.quoting import quote
    from mockup.worksheets.quote_sheet import unpriced_words

    quoted = quote(order, issued)
    if quoted.unpriced:
        raise Unpriced(f"There is no quote for the client. {unpriced_words(quoted)}")
    return quoted.client


def quote_document(order: Order, issued: date, paper: Paper) -> Document:
    """The quote for the client, which holds no cost.

    Raises ``Unpriced`` as ``client_quote`` does.
    """
    from mockup.worksheets.quote_sheet import VIEWS, client_listing

    quoted = client_quote(order, issued)
    best = _set(client_listing(order, quoted, issued, VIEWS[0]), paper)
    for tall in VIEWS[1:]:
        if len(best.sheets) == 1:
            break
        other = _set(client_listing(order, quoted, issued, tall), paper)
        best = min(best, other, key=lambda document: len(document.sheets))
    return best


def cost_document(order: Order, issued: date, paper: Paper) -> Document:
    """The studio's own page of cost and margin: never for the client."""
    from mockup.stock.quoting import quote
    from mockup.worksheets.quote_sheet import internal_listing

    return _set(internal_listing(order, quote(order, issued), issued), paper)


def build_document(order: Order, paper: Paper) -> Document:
    """The sheet that a helper builds by."""
    from mockup.worksheets.build_sheet import build_listing

    return _set(build_listing(order), paper)


def build_page(order: Order) -> bytes:
    """The same as one HTML file for a phone."""
    from mockup.render.build_page import page_bytes
    from mockup.worksheets.build_sheet import build_listing

    return page_bytes(build_listing(order))


def gauge_document(order: Order, paper: Paper) -> Document:
    """The sizing gauge and the measuring strip at 1:1."""
    from mockup.render.sheets.gauge import gauge_document as gauge_of
    from mockup.worksheets.gauge_sheet import gauge_words, holes_of

    return gauge_of(holes_of(order), paper, gauge_words(order))


def _set(listing: Listing, paper: Paper) -> Document:
    from mockup.render.sheets.listing_sheet import listing_document

    return listing_document(listing, paper, listing.sender)
