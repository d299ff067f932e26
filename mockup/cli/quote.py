"""``mockup quote``: the price, for the client and for the studio."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from typing import Any

import click

from mockup.cli.ordering import (
    beside,
    opened,
    order_options,
    out_option,
    pdf_of,
    say_written,
    write_by_ending,
)
from mockup.cli.showing import show_json


@click.command()
@order_options
@out_option("Where to write the client's PDF; by default <FILE>-quote.pdf beside FILE.")
@click.option(
    "--internal",
    type=click.Path(path_type=Path),
    help="Also write the studio's own page of cost and margin there.",
)
@click.option("--date", "issued", type=click.DateTime(["%Y-%m-%d"]), help="By default today.")
def command(
    file: Path,
    out: Path | None,
    internal: Path | None,
    issued: datetime | None,
    as_json: bool,
    **where: Any,
) -> None:
    """Price a piece or a job: a PDF for the client, and on demand a page that is not for them.

    With --json the client's price as data, which holds no cost; then it writes only where -o and
    --internal say.

    Example: mockup quote samples/jobs/alder-weekend.toml --internal alder-cost.pdf
    """
    from mockup.worksheets.as_data import quote_data
    from mockup.worksheets.documents import client_quote, cost_document, quote_document
    from mockup.worksheets.quote_sheet import client_lines

    own = [internal] if internal else []
    outs = [out] if out else [] if as_json else [beside(file, "quote.pdf")]
    order, paper = opened(file, [*outs, *own], [".pdf"], where)
    on = issued.date() if issued else date.today()
    kept = write_by_ending(own, {".pdf": lambda: pdf_of(cost_document(order, on, paper))})
    say_written(kept, err=as_json)
    quoted = client_quote(order, on)
    written = write_by_ending(outs, {".pdf": lambda: pdf_of(quote_document(order, on, paper))})
    if as_json:
        show_json(quote_data(order, quoted) | {"written": written})
        return
    for line in client_lines(order, quoted):
        click.echo(line)
    say_written(written)
