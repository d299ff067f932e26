"""``mockup quote``: the price, for the client and for the studio."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from typing import Any

import click

from mockup.cli.ordering import (
    order_options,
    out_option,
    pdf_of,
    refuse_endings,
    refuse_twice,
    say_changed,
    say_written,
    write_by_ending,
)
from mockup.cli.showing import show_json
from mockup.worksheets.opening import paper_for, read_order


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
    refuse_endings([*([out] if out else []), *own], [".pdf"])
    order = read_order(file, where["book"], where["colourway"])
    beside = file.with_name(f"{order.job.stem}-quote.pdf")
    outs = [out] if out else [] if as_json else [beside]
    refuse_twice(*outs, *own)
    say_changed(order)
    on = issued.date() if issued else date.today()
    paper = paper_for(order, where["paper"])
    kept = write_by_ending(own, {".pdf": lambda: pdf_of(cost_document(order, on, paper))})
    quoted = client_quote(order, on)
    written = write_by_ending(outs, {".pdf": lambda: pdf_of(quote_document(order, on, paper))})
    if as_json:
        show_json(quote_data(order, quoted) | {"written": written})
        return
    for line in client_lines(order, quoted):
        click.echo(line)
    say_written([*kept, *written])
