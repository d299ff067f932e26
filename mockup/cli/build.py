"""``mockup build``: the sheet for whoever builds it."""

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
    "outs",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Where to write; .pdf for paper, .html for a phone. By default both, beside FILE.",
)
@where_options
def command(file: Path, outs: tuple[Path, ...], **where: Any) -> None:
    """A build sheet that leaves nothing to ask: kit, filling, tying, placing, fixing, times.

    Example: mockup build samples/jobs/alder-weekend.toml -o alder.pdf -o alder.html
    """
    from mockup.render.build_page import page_bytes
    from mockup.render.sheets.listing_sheet import listing_document
    from mockup.worksheets.build_sheet import build_listing

    order = read_order(file, where["book"], where["colourway"])
    say_changed(order)
    listing, sheet = build_listing(order), paper_for(order, where["paper"])
    beside = tuple(file.with_name(f"{order.job.stem}-build.{kind}") for kind in ("pdf", "html"))
    for out in outs or beside:
        write_by_ending(
            out,
            {
                ".pdf": lambda: pdf_of(listing_document(listing, sheet, order.studio.name)),
                ".html": lambda: page_bytes(listing),
            },
        )
