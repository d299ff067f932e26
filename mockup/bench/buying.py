"""The buy list and what the piece costs, as the page shows them: by the studio book in force."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mockup.bench.desk import Desk
from mockup.bench.edits import NotCarriedOut

if TYPE_CHECKING:
    from mockup.render.listing import Listing, Row
    from mockup.stock.order import Order
    from mockup.stock.quoting import Quote


def bought(desk: Desk, colourway: str = "") -> dict[str, Any]:
    """What to buy, in groups of lines; with a book also what it all costs.

    Raises ``FaultsFound`` with every fault of the book.
    """
    with desk.lock:
        good, file, version = desk.good, desk.file or desk.folder / "piece.toml", desk.version
    if good is None or good.piece is None:
        raise NotCarriedOut("there is no piece drawn yet")
    from mockup.design.job_reading import job_of
    from mockup.design.studio_book import studio_for
    from mockup.stock.buying import buy_list
    from mockup.stock.order import order
    from mockup.worksheets.buy_sheet import TITLES, buy_listing, to_find, total
    from mockup.worksheets.gauge_sheet import gauge_sheets
    from mockup.worksheets.opening import paper_for

    made = order(job_of(good.piece.design, file), studio_for(file.parent), colourway)
    listed = buy_list(made.picking, made.studio)
    cards = gauge_sheets(made, paper_for(made))
    return {
        "version": version,
        "book": Path(made.studio.file).name if made.studio.file else "",
        "titles": list(TITLES),
        "groups": list(_groups(buy_listing(made, listed, cards))),
        "total": total(made, listed),
        "tofind": to_find(listed) if listed.to_find and made.studio.file else "",
        "changed": list(made.changed),
        "cost": _cost(made) if made.studio.file else [],
    }


def _groups(listing: Listing) -> Iterator[dict[str, Any]]:
    from mockup.render.listing import Heading, Table

    heading = ""
    for part in listing.parts:
        if isinstance(part, Heading):
            heading = part.text
        elif isinstance(part, Table) and part.ticks:
            yield {"name": heading, "lines": [_line(row) for row in part.rows]}


def _line(row: Row) -> dict[str, Any]:
    return {
        "cells": list(row.cells),
        "srgb": row.swatch.srgb if row.swatch else "",
        "alarm": row.tone == "alarm",
    }


def _cost(order: Order) -> list[list[str]]:
    """The price's few figures: what the studio pays, and what the client is asked for."""
    from mockup.stock.quoting import quote

    return [[name, said] for name, said in _figures(order, quote(order, date.today()))]


def _figures(order: Order, quoted: Quote) -> Iterator[tuple[str, str]]:
    from mockup.stock.money import money

    studio = order.studio

    def said(amount: Any) -> str:
        return money(amount, studio.currency, studio.locale)

    minutes = sum(line.minutes for line in quoted.labour)
    yield "Material, as bought new", said(quoted.materials)
    yield f"Labour, {minutes:.0f} minutes", said(quoted.labour_cost)
    yield "Cost of both", said(quoted.cost)
    if quoted.unpriced:
        yield "No price in the book for", "; ".join(quoted.unpriced)
    else:
        yield "What the client is asked for", said(quoted.client.total)
