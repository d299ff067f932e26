"""What the commands for stock, price and build share: which files they read and how they write."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

from mockup.errors import CannotWrite

if TYPE_CHECKING:
    from mockup.render.record import Document
    from mockup.stock.order import Order

file_argument = click.argument("file", type=click.Path(path_type=Path))
book_option = click.option(
    "--book",
    type=click.Path(path_type=Path),
    help="The studio book; by default the nearest studio.toml above FILE, or your own settings.",
)
paper_option = click.option(
    "--paper", type=click.Choice(["A4", "letter"], False), help="By default after the unit."
)


colourway_option = click.option(
    "--colourway", default="", help="The colourway that is built; the first colours without it."
)


def where_options(command: Callable[..., None]) -> Callable[..., None]:
    """The options that every command here has: its book, its colourway, its paper."""
    return book_option(colourway_option(paper_option(command)))


def say_changed(order: Order) -> None:
    """Loudly, before all else: which pieces are no longer what was approved."""
    for sentence in order.changed:
        click.secho(sentence, fg="red", bold=True, err=True)


def write_by_ending(out: Path, writers: Mapping[str, Callable[[], bytes]]) -> None:
    """Write what the output's ending asks for, whole or not at all."""
    from mockup.render.writing import write_whole

    make = writers.get(out.suffix.lower())
    if make is None:
        known = ", ".join(writers)
        raise CannotWrite(f"{out}: it ends in none of {known}; end it in one of them")
    write_whole(out, make())
    click.echo(f"Wrote {out}.")


def pdf_of(document: Document) -> bytes:
    """The document as PDF by the best way this machine has; what is amiss is told on stderr."""
    from mockup.render.record import Text, walk
    from mockup.render.routes import make_pdf
    from mockup.render.text import missing

    made = make_pdf(document)
    if made.note:
        click.echo(made.note, err=True)
    texts = {
        (item.text, item.weight)
        for sheet in document.sheets
        for item in walk(sheet.items)
        if isinstance(item, Text)
    }
    lacking = sorted({character for text, weight in texts for character in missing(text, weight)})
    if lacking:
        click.echo(
            f"The font has no shape for {', '.join(lacking[:8])}: they show as boxes.", err=True
        )
    return made.data
