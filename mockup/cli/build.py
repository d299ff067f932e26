"""``mockup build``: the sheet for whoever builds it."""

from __future__ import annotations

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

    refuse_endings(outs, (".pdf", ".html"))
    refuse_twice(*outs)
    order = read_order(file, where["book"], where["colourway"])
    say_changed(order)
    paper = paper_for(order, where["paper"])
    beside = tuple(file.with_name(f"{order.job.stem}-build.{kind}") for kind in ("pdf", "html"))
    written = write_by_ending(
        outs or (() if as_json else beside),
        {
            ".pdf": lambda: pdf_of(build_document(order, paper)),
            ".html": lambda: build_page(order),
        },
    )
    if as_json:
        show_json(build_data(order, plan_of(order)) | {"written": written})
    else:
        say_written(written)
