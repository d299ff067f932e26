"""The quote in words: one listing for the client, and another that the client must not see."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from mockup.lengths import format_length
from mockup.piece.placed import Piece
from mockup.render.listing import Column, Heading, Listing, Part, Row, Table, Words
from mockup.render.sheets.build_pictures import views_in_a_row
from mockup.stock.buy_csv import plain
from mockup.stock.money import ROUNDING, day, money, share
from mockup.stock.order import Order
from mockup.stock.quoting import ClientQuote, Quote
from mockup.stock.time_plan import WORDS
from mockup.worksheets.build_sheet import notes
from mockup.worksheets.buy_sheet import facts

INTERNAL = "INTERNAL: cost and margin. Not for the client."
_PAID = WORDS | {"drive": "Drive there and back", "take_down": "Take down"}
"""What is paid for, task by task: the plan of the day knows only the way there."""

_PICTURED = 4
"""More pieces than this would be too small to see side by side."""
VIEWS = (110.0, 85.0, 65.0, 45.0)
"""How tall the picture of a quote may be, mm: the first at which the quote takes fewest pages."""

_AMOUNTS = (Column("", 7), Column("Amount", 2, "end"))


def client_listing(
    order: Order, quoted: ClientQuote, issued: date, tall: float = VIEWS[0]
) -> Listing:
    """The quote for the client. It is made from ``ClientQuote`` alone, which holds no cost.

    ``tall`` is how high the picture of the pieces may be, mm.
    """
    return Listing(
        title=order.job.title,
        kind="Quote",
        client=order.job.client,
        facts=(
            ("Date", day(issued, order.studio.locale)),
            ("Holds until", day(quoted.valid_until, order.studio.locale)),
            *facts(order)[2:4],
            *facts(order)[:2],
        ),
        parts=tuple(_client_parts(order, quoted, tall)),
        banner=" ".join(each.tells for each in order.differences),
        about=f"{order.job.title}, {order.code}, revision {order.revision}",
        sender=", ".join((order.studio.name, *order.studio.contact)).strip(", "),
    )


def _client_parts(order: Order, quoted: ClientQuote, tall: float) -> Iterator[Part]:
    pieces = {piece.design.title: piece for piece, _ in order.pieces}
    yield views_in_a_row(list(pieces.values())[:_PICTURED], 175.0, tall)
    yield Heading("What is included")
    rows = tuple(
        Row((f"{n} ×", _included(piece, order, code)))
        for (piece, n), code in zip(order.pieces, order.proofs, strict=True)
    )
    yield Table((Column("", 0.6, "end"), Column("", 9)), rows)
    yield Words("Design, balloons, making, setting up and taking down are included.")
    yield Heading("Price", whole=True)
    yield Table(_AMOUNTS, tuple(_price_rows(order, quoted)))
    if order.studio.terms:
        yield Heading("Terms", joined=True)
        yield Words(order.studio.terms)
    yield Heading("Acceptance", joined=True)
    accepted = f"I accept quote {order.code}, revision {order.revision}"
    total = _money(order, quoted.total)
    yield Words(f"{accepted}: {total} in all.\n\nName, date and signature: " + "_" * 56)
    yield notes(order)


def _included(piece: Piece, order: Order, code: str) -> str:
    """One piece as the client knows it: its size, its balloons, its colours, its numerals."""
    unit, box, design = order.job.unit, piece.extent, piece.design
    size = " × ".join(format_length(mm, unit) for mm in (box.width, box.height, box.depth))
    used = dict.fromkeys(design.colours[balloon.letter].name for balloon in piece.balloons)
    numerals = f", foil numerals {design.panel.text}" if design.panel else ""
    return (
        f"{design.title}, proof {code}\n{size} (width × height × depth), "
        f"{len(piece.balloons)} balloons in {', '.join(used)}{numerals}"
    )


def _price_rows(order: Order, quoted: ClientQuote) -> Iterator[Row]:
    pricing = order.studio.pricing
    yield from (Row((line.name, _money(order, line.amount))) for line in quoted.lines)
    yield Row(("Sum", _money(order, quoted.net)), lead=True)
    if quoted.tax:
        rate = share(pricing.tax, order.studio.locale)
        yield Row((f"{pricing.tax_name} {rate}", _money(order, quoted.tax)))
    yield Row(("Total", _money(order, quoted.total)), lead=True)
    if quoted.deposit:
        rate = share(pricing.deposit, order.studio.locale)
        yield Row((f"Deposit with the order, {rate}", _money(order, quoted.deposit)))
        yield Row(("Balance", _money(order, quoted.balance)))


def _money(order: Order, amount: Decimal) -> str:
    return money(amount, order.studio.currency, order.studio.locale)


def client_lines(order: Order, quoted: ClientQuote) -> Iterator[str]:
    """The price for the terminal."""
    rows = list(_price_rows(order, quoted))
    wide = max(len(row.cells[0]) for row in rows)
    figures = max(len(row.cells[1]) for row in rows)
    yield from (f"  {row.cells[0].ljust(wide)}  {row.cells[1].rjust(figures)}" for row in rows)


def internal_listing(order: Order, quoted: Quote, issued: date) -> Listing:
    """The studio's own page: what the work costs, task by task, and what is left."""
    return Listing(
        title=order.job.title,
        kind="Cost and margin",
        client=order.job.client,
        facts=(("Date", day(issued, order.studio.locale)), *facts(order)),
        parts=tuple(_internal_parts(order, quoted)),
        banner=" ".join((INTERNAL, *order.changed)),
        about=f"{order.job.title}, {order.code}, revision {order.revision}. {INTERNAL}",
        sender=order.studio.name,
    )


def _internal_parts(order: Order, quoted: Quote) -> Iterator[Part]:
    if quoted.unpriced:
        yield Words(unpriced_words(quoted), strong=True, tone="alarm")
    yield Heading("Materials", "as bought new, spares included")
    yield Table(_AMOUNTS, tuple(_material_rows(order, quoted)))
    yield Heading("Labour", f"{_money(order, order.studio.pricing.hourly)} an hour")
    columns = (Column("Task", 7), Column("Minutes", 2, "end"), Column("Cost", 2, "end"))
    yield Table(columns, tuple(_labour_rows(order, quoted)))
    yield Heading("Price of the work")
    yield Table(_AMOUNTS, tuple(_work_rows(order, quoted)))
    yield Heading("What the client is asked for")
    yield Table(_AMOUNTS, tuple(_price_rows(order, quoted.client)))
    yield Words(
        f"Rounding: {ROUNDING}; tax once, on the sum. The drive is paid there and back; delivery "
        "is its fee, and each mile or kilometre of the way there once. Hire and delivery are "
        "charged as they stand in the studio book and carry no mark-up. What lies on the shelf is "
        "priced as bought new.",
        tone="soft",
    )


def unpriced_words(quoted: Quote) -> str:
    """What the price leaves out."""
    return (
        "No price in the studio book, so left out here: "
        f"{'; '.join(quoted.unpriced)}. Add the bags or foils to the book."
    )


def _material_rows(order: Order, quoted: Quote) -> Iterator[Row]:
    for line in quoted.bought.balloons:
        bags = ", ".join(f"{one.number} × bag of {one.bag.count}" for one in line.bags)
        size = format_length(line.need.kind.size, order.job.unit)
        name = f"{size} {line.need.name}, {line.need.kind.finish}: {bags or 'no price'}"
        yield Row((name, _money(order, line.cost)))
    for foil in quoted.bought.foils:
        name = f"{foil.need.count} × foil {foil.need.kind.character} in {foil.need.name}"
        yield Row((name, _money(order, foil.cost)))
    for own in quoted.bought.materials:
        yield Row((f"{own.packs} × {own.material.name}", _money(order, own.cost)))
    yield Row(("Materials", _money(order, quoted.materials)), lead=True)


def _labour_rows(order: Order, quoted: Quote) -> Iterator[Row]:
    for line in quoted.labour:
        words = _PAID[line.task]
        yield Row((words, plain(line.minutes), _money(order, line.cost)))
    minutes = sum((line.minutes for line in quoted.labour), Decimal(0))
    yield Row(("Labour", plain(minutes), _money(order, quoted.labour_cost)), lead=True)


def _work_rows(order: Order, quoted: Quote) -> Iterator[Row]:
    pricing, locale = order.studio.pricing, order.studio.locale
    rule = "no mark-up"
    if pricing.margin is not None:
        rule = f"by a margin of {share(pricing.margin, locale)}"
    elif pricing.markup is not None:
        rule = f"by a mark-up of {share(pricing.markup, locale)}"
    yield Row(("Cost: materials and labour", _money(order, quoted.cost)))
    yield Row((f"Price of the work, {rule}", _money(order, quoted.work)))
    left = share(round(quoted.margin, 3), locale)
    yield Row(
        (f"Left when the cost is paid ({left} of the price)", _money(order, quoted.gain)), lead=True
    )
