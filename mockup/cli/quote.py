"""``mockup quote``: the price, for the client and for the studio."""

from __future__ import annotations

from datetime import date, datetime
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
from mockup.worksheets.opening import paper_for, read_order

if TYPE_CHECKING:
    from mockup.render.listing import Listing
    from mockup.render.sheets.paper import Paper


@click.command()
@file_argument
@click.option(
    "-o",
    "--out",
    type=click.Path(path_type=Path),
    help="Where to write the client's PDF; by default <FILE>-quote.pdf beside FILE.",
)
@click.option(
    "--internal",
    type=click.Path(path_type=Path),
    help="Also write the studio's own page of cost and margin there.",
)
@click.option("--date", "issued", type=click.DateTime(["%Y-%m-%d"]), help="By default today.")
@where_options
def command(
    file: Path,
    out: Path | None,
    internal: Path | None,
    issued: datetime | None,
    **where: Any,
) -> None:
    """Price a piece or a job: a PDF for the client, and on demand a page that is not for them.

    Example: mockup quote samples/jobs/alder-weekend.toml --internal alder-cost.pdf
    """
    from mockup.stock.quoting import quote
    from mockup.worksheets.documents import Unpriced
    from mockup.worksheets.quote_sheet import (
        client_lines,
        client_listing,
        internal_listing,
        unpriced_words,
    )

    order = read_order(file, where["book"], where["colourway"])
    say_changed(order)
    on = issued.date() if issued else date.today()
    quoted, sheet = quote(order, on), paper_for(order, where["paper"])
    if internal:
        _write(internal, internal_listing(order, quoted, on), sheet)
    if quoted.unpriced:
        raise Unpriced(f"There is no quote for the client. {unpriced_words(quoted)}")
    for line in client_lines(order, quoted.client):
        click.echo(line)
    target = out or file.with_name(f"{order.job.stem}-quote.pdf")
    _write(target, client_listing(order, quoted.client, on), sheet)


def _write(out: Path, listing: Listing, paper: Paper) -> None:
    from mockup.render.sheets.listing_sheet import listing_document

    write_by_ending(out, {".pdf": lambda: pdf_of(listing_document(listing, paper, listing.sender))})
