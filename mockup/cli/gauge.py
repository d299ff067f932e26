"""``mockup gauge``: the sizing gauge at 1:1."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from mockup.cli.ordering import (
    file_argument,
    pdf_of,
    say_changed,
    where_options,
    write_by_ending,
)
from mockup.worksheets.opening import paper_for, read_order


@click.command()
@file_argument
@click.option(
    "-o",
    "--out",
    type=click.Path(path_type=Path),
    help="Where to write the PDF; by default <FILE>-gauge.pdf beside it.",
)
@where_options
def command(file: Path, out: Path | None, **where: Any) -> None:
    """Holes at true size for every diameter a piece or a job is filled to, and a measuring strip.

    Example: mockup gauge samples/jobs/alder-weekend.toml --paper A4
    """
    from mockup.render.sheets.gauge import gauge_document
    from mockup.worksheets.gauge_sheet import gauge_words, holes_of

    order = read_order(file, where["book"], where["colourway"])
    say_changed(order)
    holes = holes_of(order)
    document = gauge_document(holes, paper_for(order, where["paper"]), gauge_words(order))
    target = out or file.with_name(f"{order.job.stem}-gauge.pdf")
    write_by_ending(target, {".pdf": lambda: pdf_of(document)})
    click.echo(f"{len(holes)} holes on {len(document.sheets)} pages. Print at 100 %.")
