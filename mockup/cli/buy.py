"""``mockup buy``: what to buy, at the least cost."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.ordering import (
    Writers,
    opened,
    order_options,
    out_option,
    pdf_of,
    say_written,
    write_by_ending,
)
from mockup.cli.showing import show_json
from mockup.errors import MockupError

if TYPE_CHECKING:
    from mockup.design.studio import TakenRow
    from mockup.render.sheets.paper import Paper
    from mockup.stock.buying import BuyList
    from mockup.stock.order import Order


class NoBook(MockupError):
    """Stock cannot be booked where there is no studio book."""


@click.command()
@order_options
@out_option("Also write it; .pdf, .xlsx or .csv by its ending. May be given often.", several=True)
@click.option(
    "--take",
    "booking",
    flag_value="take",
    help="Book what the shelf gives out of the studio book, once for each revision.",
)
@click.option("--put-back", "booking", flag_value="put back", help="Undo that.")
def command(
    file: Path, outs: tuple[Path, ...], booking: str | None, as_json: bool, **where: Any
) -> None:
    """What to buy for a piece or a job: needs, spares, the shelf, and the cheapest bags.

    Example: mockup buy samples/jobs/alder-weekend.toml -o alder-buy.xlsx
    """
    from mockup.stock.buying import buy_list
    from mockup.worksheets.as_data import buy_data, taken_data
    from mockup.worksheets.gauge_sheet import gauge_sheets

    order, paper = opened(file, outs, (".pdf", ".xlsx", ".csv"), where)
    bought, cards = buy_list(order.picking, order.studio), gauge_sheets(order, paper)
    if not as_json:
        _show(order, bought, cards)
    written = write_by_ending(outs, _writers(order, bought, cards, paper))
    rows = _book(order, booking) if booking else ()
    if as_json:
        booked = {"done": booking, "rows": [taken_data(row) for row in rows]} if booking else None
        show_json(buy_data(order, bought, cards) | {"written": written, "booked": booked})
        return
    say_written(written)
    if booking:
        _show_booked(order, booking, rows)


def _show(order: Order, bought: BuyList, cards: int) -> None:
    from mockup.worksheets.buy_sheet import buy_table, to_find, total

    click.echo(f"{order.job.title} ({order.code}): {order.picking.balloons:,} balloons\n")
    for line in buy_table(order, bought, cards):
        click.echo(line)
    click.echo(f"\nTotal {total(order, bought)}.")
    if bought.to_find:
        click.secho(to_find(bought), fg="red")


def _writers(order: Order, bought: BuyList, cards: int, paper: Paper) -> Writers:
    from mockup.stock.buy_csv import csv_bytes
    from mockup.stock.buy_rows import buy_rows
    from mockup.stock.buy_xlsx import xlsx_bytes
    from mockup.worksheets.documents import buy_document

    rows = list(buy_rows(bought, order.job.unit, cards))
    currency, banner = order.studio.currency, " ".join(order.changed)
    return {
        ".pdf": lambda: pdf_of(buy_document(order, paper)),
        ".xlsx": lambda: xlsx_bytes(rows, order.job.title, currency, banner),
        ".csv": lambda: csv_bytes(rows, currency),
    }


def _book(order: Order, booking: str) -> tuple[TakenRow, ...]:
    from mockup.stock.booking import Booking, put_back, take

    book = Path(order.studio.file)
    if not order.studio.file:
        raise NoBook("there is no studio book to book it out of; 'mockup studio new' writes one")
    single = order.job.single is not None
    what = Booking(order.job.title, order.code, order.revision, single)
    return take(book, what, order.picking) if booking == "take" else put_back(book, what)


def _show_booked(order: Order, booking: str, rows: tuple[TakenRow, ...]) -> None:
    done = "Booked out of" if booking == "take" else "Put back into"
    for row in rows:
        click.echo(f"  {row.count:g}  {row.material or f'{row.colour}, {row.finish}'}")
    click.echo(f"{done} {order.studio.file}, for revision {order.revision} of {order.job.title}.")
