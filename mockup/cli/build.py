"""``mockup build``: the sheet for whoever builds it."""

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
from mockup.cli.showing import show_json


@click.command()
@order_options
@out_option(
    "Where to write; .pdf for paper, .html for a phone. By default both, beside FILE.", several=True
)
def command(file: Path, outs: tuple[Path, ...], as_json: bool, **where: Any) -> None:
    """A build sheet that leaves nothing to ask: kit, filling, tying, placing, fixing, times.

    With --json the same as data; then it writes only the files that -o names.

    Example: mockup build samples/jobs/alder-weekend.toml -o alder.pdf -o alder.html
    """
    from mockup.worksheets.as_data import build_data
    from mockup.worksheets.build_times import plan_of
    from mockup.worksheets.documents import build_document, build_page

    usual = () if as_json else (beside(file, "build.pdf"), beside(file, "build.html"))
    outs = outs or usual
    order, paper = opened(file, outs, (".pdf", ".html"), where)
    written = write_by_ending(
        outs,
        {
            ".pdf": lambda: pdf_of(build_document(order, paper)),
            ".html": lambda: build_page(order),
        },
    )
    if as_json:
        show_json(build_data(order, plan_of(order)) | {"written": written})
    else:
        say_written(written)
