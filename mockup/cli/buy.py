"""``mockup buy``: what to buy, at the least cost."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.ordering import (
    file_argument,
    pdf_of,
    say_changed,
    where_options,
    write_by_ending,
)
from mockup.errors import MockupError
from mockup.worksheets.opening import paper_for, read_order

if TYPE_CHECKING:
    from mockup.stock.buying import BuyList
    from mockup.stock.order import Order


class NoBook(MockupError):
    """Stock cannot be booked where there is no studio book."""


@click.command()
@file_argument
@click.option(
    "-o",
    "--out",
    "outs",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Also write it; .pdf, .xlsx or .csv by its ending. May be given several times.",
)
@where_options
@click.option(
    "--take",
    "booking",
    flag_value="take",
    help="Book what the shelf gives out of the studio book, once for each revision.",
)
@click.option("--put-back", "booking", flag_value="put back", help="Undo that.")
def command(file: Path, outs: tuple[Path, ...], booking: str | None, **where: Any) -> None:
    """What to buy for a piece or a job: needs, spares, the shelf, and the cheapest bags.

    Example: mockup buy samples/jobs/alder-weekend.toml -o alder-buy.xlsx
    """
    from mockup.stock.buying import buy_list
    from mockup.worksheets.buy_sheet import buy_table, to_find, total
    from mockup.worksheets.gauge_sheet import gauge_sheets

    order = read_order(file, where["book"], where["colourway"])
    bought = buy_list(order.picking, order.studio)
    say_changed(order)
    click.echo(f"{order.job.title} ({order.code}): {order.picking.balloons:,} balloons\n")
    cards = gauge_sheets(order, paper_for(order, where["paper"]))
    for line in buy_table(order, bought, cards):
        click.echo(line)
    click.echo(f"\nTotal {total(order, bought)}.")
    if bought.to_find:
        click.secho(to_find(bought), fg="red")
    for out in outs:
        _write(out, order, bought, cards, where["paper"])
    if booking:
        _book(order, booking)


def _write(out: Path, order: Order, bought: BuyList, cards: int, paper: str | None) -> None:
    from mockup.render.sheets.listing_sheet import listing_document
    from mockup.stock.buy_csv import csv_bytes
    from mockup.stock.buy_rows import buy_rows
    from mockup.stock.buy_xlsx import xlsx_bytes
    from mockup.worksheets.buy_sheet import buy_listing

    rows = list(buy_rows(bought, order.job.unit, cards))
    currency, banner = order.studio.currency, " ".join(order.changed)
    sheet = paper_for(order, paper)
    write_by_ending(
        out,
        {
            ".pdf": lambda: pdf_of(
                listing_document(buy_listing(order, bought, cards), sheet, order.studio.name)
            ),
            ".xlsx": lambda: xlsx_bytes(rows, order.job.title, currency, banner),
            ".csv": lambda: csv_bytes(rows, currency),
        },
    )


def _book(order: Order, booking: str) -> None:
    from mockup.stock.booking import Booking, put_back, take

    book = Path(order.studio.file)
    if not order.studio.file:
        raise NoBook("there is no studio book to book it out of; 'mockup studio new' writes one")
    what = Booking(order.job.title, order.code, order.revision)
    rows = take(book, what, order.picking) if booking == "take" else put_back(book, what)
    done = "Booked out of" if booking == "take" else "Put back into"
    for row in rows:
        click.echo(f"  {row.count:g}  {row.material or f'{row.colour}, {row.finish}'}")
    click.echo(f"{done} {book}, for revision {what.revision} of {what.title}.")
