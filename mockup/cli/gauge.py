"""``mockup gauge``: the sizing gauge at 1:1."""

from __future__ import annotations

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
from mockup.cli.showing import counted, show_json


@click.command()
@order_options
@out_option("Where to write the PDF; by default <FILE>-gauge.pdf beside it.")
def command(file: Path, out: Path | None, as_json: bool, **where: Any) -> None:
    """Holes at true size for every diameter a piece or a job is filled to, and a measuring strip.

    With --json every hole as data; then it writes only where -o says.

    Example: mockup gauge samples/jobs/alder-weekend.toml --paper A4
    """
    from mockup.stock.gauging import gauge_holes
    from mockup.worksheets.as_data import gauge_data
    from mockup.worksheets.documents import gauge_document

    outs = [out] if out else [] if as_json else [beside(file, "gauge.pdf")]
    order, paper = opened(file, outs, [".pdf"], where)
    holes, document = gauge_holes(order.designs), gauge_document(order, paper)
    written = write_by_ending(outs, {".pdf": lambda: pdf_of(document)})
    if as_json:
        show_json(gauge_data(order, holes, len(document.sheets)) | {"written": written})
        return
    say_written(written)
    found = f"{counted(len(holes), 'hole')} on {counted(len(document.sheets), 'page')}"
    click.echo(f"{found}. Print at 100 %.")
