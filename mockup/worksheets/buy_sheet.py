"""The buy list in words: as a table in the terminal and as a sheet with boxes to tick."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from mockup.design.model import ColourUse
from mockup.lengths import Unit, format_length
from mockup.render.listing import Column, Heading, Listing, Notes, Part, Row, Table, Words
from mockup.render.sheets.cautions import cautions_for_stock
from mockup.stock.buy_csv import plain
from mockup.stock.buy_rows import GAUGE_SHEETS, fills
from mockup.stock.buying import BalloonLine, BuyList, FoilLine, MaterialLine
from mockup.stock.money import money
from mockup.stock.order import Order

Cells = tuple[str, ...]
TITLES: Cells = ("", "Needed", "Spares", "On hand", "To buy", "Buy", "Cost", "Left")


def buy_listing(order: Order, bought: BuyList, gauge_sheets: int) -> Listing:
    """The sheet to take to the shop."""
    return Listing(
        title=order.job.title,
        kind="Buy list",
        client=order.job.client,
        facts=facts(order),
        parts=tuple(_parts(order, bought, gauge_sheets)),
        banner=" ".join(order.changed),
        about=f"{order.job.title}, {order.code}, revision {order.revision}",
        sender=order.studio.name,
    )


def facts(order: Order) -> tuple[tuple[str, str], ...]:
    """What tells this job: its code, its revision, its day and its place."""
    from mockup.stock.money import day

    job = order.job
    return (
        ("Proof code" if order.job.single else "Job code", order.code),
        ("Revision", str(order.revision)),
        ("Event", day(job.event_date, order.studio.locale) if job.event_date else "not said"),
        ("Venue", job.venue or "not said"),
        ("Pieces", str(order.count)),
        ("Balloons", f"{order.picking.balloons:,}"),
        ("Colourway", order.colourway or "first colours"),
        ("Studio book", Path(order.studio.file).name or "none: usual figures"),
    )


def _parts(order: Order, bought: BuyList, gauge_sheets: int) -> Iterator[Part]:
    shares = (5.2, 1.5, 1.4, 1.7, 1.5, 5.4, 1.8, 1.3)
    columns = tuple(
        Column(title, part, "start" if place in (0, 5) else "end")
        for place, (title, part) in enumerate(zip(TITLES, shares, strict=True))
    )
    for heading, rows in _groups(order, bought, gauge_sheets):
        yield Heading(heading)
        yield Table(columns, tuple(rows), ticks=True, swatches=True)
    if bought.to_find:
        yield Words(to_find(bought), strong=True, tone="alarm")
    yield Table((Column("", 3), Column("", 1, "end")), (_total_row(order, bought),))
    yield Words(
        "The bags are the cheapest set that covers what is to buy; of equally cheap ones the set "
        "with the fewest left over. Tick a line when it lies in the basket.",
        tone="soft",
    )
    yield Notes(_cautions(order))


def _cautions(order: Order) -> tuple[str, ...]:
    """What balloons and foils call for where they are kept; no piece is laid out for it."""
    return cautions_for_stock(bool(order.picking.needs), bool(order.picking.foils))


def _total_row(order: Order, bought: BuyList) -> Row:
    return Row(("Total", total(order, bought)), lead=True)


def to_find(bought: BuyList) -> str:
    """How much nobody in the book sells."""
    return (
        f"To find: {bought.to_find:,} balloons or foils of kinds that no bag in the studio book "
        "covers. They are marked above and not in the total."
    )


def total(order: Order, bought: BuyList) -> str:
    """What all of it costs."""
    return money(bought.cost, order.studio.currency, order.studio.locale)


def _groups(order: Order, bought: BuyList, gauge_sheets: int) -> Iterator[tuple[str, list[Row]]]:
    unit = order.job.unit
    if bought.balloons:
        rows = [_balloon(order, line, unit) for line in bought.balloons]
        yield "Balloons", rows
    if bought.foils:
        yield "Foil numerals", [_foil(order, line, unit) for line in bought.foils]
    materials = [_material(order, line) for line in bought.materials]
    card = f"{gauge_sheets}"
    how = "print on card with 'mockup gauge'"
    yield "Other materials", [*materials, Row((GAUGE_SHEETS, card, "", "", card, how, "", ""))]


def _cost(order: Order, line: BalloonLine | FoilLine | MaterialLine) -> str:
    return money(line.cost, order.studio.currency, order.studio.locale) if line.cost else ""


def _balloon(order: Order, line: BalloonLine, unit: Unit) -> Row:
    kind = line.need.kind
    size = format_length(kind.size, unit)
    name = f"{size} {line.need.name}, {kind.finish}\nfilled: {fills(line, unit)}"
    bags = ", ".join(
        f"{one.number} × bag of {one.bag.count}" + _from(one.bag.supplier) for one in line.bags
    )
    return Row(
        cells=(
            name,
            f"{line.need.count:,}",
            f"{line.spares:,}",
            f"{line.on_hand:,}",
            f"{line.to_buy:,}",
            "TO FIND" if line.to_find else bags or "nothing: it is on hand",
            _cost(order, line),
            f"{line.left_over:,}",
        ),
        swatch=ColourUse("", line.need.name, line.need.srgb, kind.finish),
        tone="alarm" if line.to_find else "plain",
    )


def _from(supplier: str) -> str:
    return f" ({supplier})" if supplier else ""


def _foil(order: Order, line: FoilLine, unit: Unit) -> Row:
    kind = line.need.kind
    size = format_length(kind.height, unit)
    name = f"foil {kind.character}, {size} {line.need.name}, {kind.finish}"
    supplier = _from(line.offer.supplier) if line.offer else ""
    return Row(
        cells=(
            name,
            f"{line.need.count:,}",
            "",
            f"{line.on_hand:,}",
            f"{line.to_buy:,}",
            "TO FIND"
            if line.to_find
            else f"{line.to_buy}{supplier}"
            if line.to_buy
            else "nothing: it is on hand",
            _cost(order, line),
            "",
        ),
        swatch=ColourUse("", line.need.name, line.need.srgb, kind.finish),
        tone="alarm" if line.to_find else "plain",
    )


def _material(order: Order, line: MaterialLine) -> Row:
    own = line.material
    unit = f" {own.unit}" if own.unit else ""
    packs = f"{line.packs} × pack of {plain(own.pack)}{unit}" if own.pack != 1 else f"{line.packs}"
    return Row(
        cells=(
            own.name,
            f"{plain(line.needed)}{unit}",
            "",
            f"{plain(line.on_hand)}{unit}",
            f"{plain(line.needed - line.from_shelf)}{unit}",
            f"{packs}{_from(own.supplier)}" if line.packs else "nothing: it is on hand",
            _cost(order, line),
            f"{plain(line.left_over)}{unit}",
        )
    )


def buy_table(order: Order, bought: BuyList, gauge_sheets: int) -> Iterator[str]:
    """The same rows for the terminal, in columns."""
    groups = list(_groups(order, bought, gauge_sheets))
    lines = [tuple(_terminal(row)) for _, rows in groups for row in rows]
    widths = [max(map(len, column)) for column in zip(TITLES, *lines, strict=True)]
    yield "  " + _columns(TITLES, widths)
    for heading, rows in groups:
        yield heading
        for row in rows:
            yield "  " + _columns(tuple(_terminal(row)), widths)
            yield from (f"    {further}" for further in row.cells[0].splitlines()[1:])


def _terminal(row: Row) -> Iterator[str]:
    """The first line of each cell; the further lines of the first stand beneath it."""
    yield from (cell.partition("\n")[0] for cell in row.cells)


def _columns(cells: Cells, widths: list[int]) -> str:
    return "  ".join(
        cell.ljust(width) if place in (0, 5) else cell.rjust(width)
        for place, (cell, width) in enumerate(zip(cells, widths, strict=True))
    ).rstrip()
