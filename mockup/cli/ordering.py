"""What the commands for stock, price and build share: their options and how they write."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.asking import OneOf
from mockup.cli.showing import json_option
from mockup.errors import CannotWrite

if TYPE_CHECKING:
    from mockup.render.record import Document
    from mockup.render.sheets.paper import Paper
    from mockup.stock.order import Order

Writers = Mapping[str, Callable[[], bytes]]
"""How each ending is written, by the ending with its dot."""

book_option = click.option(
    "--book",
    type=click.Path(path_type=Path),
    help="The studio book; by default the nearest studio.toml above FILE, or your own settings.",
)


def out_option(help_words: str, *, several: bool = False) -> Callable[[Any], Any]:
    """``-o``, given once as ``out`` or several times as ``outs``."""
    name = "outs" if several else "out"
    kind = click.Path(path_type=Path)
    return click.option("-o", "--out", name, type=kind, help=help_words, multiple=several)


def order_options(command: Callable[..., None]) -> Callable[..., None]:
    """What every command here takes: FILE, its book, its colourway, its paper, --json."""
    options = (
        click.argument("file", type=click.Path(path_type=Path)),
        book_option,
        click.option(
            "--colourway", default="", help="The colourway that is built; else the first colours."
        ),
        click.option("--paper", type=OneOf("A4", "letter"), help="By default after the unit."),
        json_option,
    )
    for option in options:
        command = option(command)
    return command


def opened(
    file: Path, outs: Sequence[Path], endings: Sequence[str], where: Mapping[str, Any]
) -> tuple[Order, Paper]:
    """The order in ``file`` and its paper, once every output can be written as its name asks.

    Says loudly, before all else, which pieces are no longer what was approved. Raises
    ``CannotWrite`` for an output that ends in none of ``endings`` or is named twice, and what
    reading raises.
    """
    from mockup.worksheets.opening import paper_for, read_order

    for out in outs:
        _refuse_ending(out, endings)
    _refuse_twice(outs)
    order = read_order(file, where["book"], where["colourway"])
    for sentence in order.changed:
        click.secho(sentence, fg="red", bold=True, err=True)
    return order, paper_for(order, where["paper"])


def beside(file: Path, ending: str) -> Path:
    """An output named after FILE, beside it.

    >>> beside(Path("jobs/alder.toml"), "quote.pdf").name
    'alder-quote.pdf'
    """
    return file.with_name(f"{file.name.removesuffix('.toml')}-{ending}")


def _refuse_ending(out: Path, endings: Sequence[str]) -> None:
    """Raise ``UnknownEnding`` for an output that no writer is for, before anything is made."""
    from mockup.render.writing import unknown_ending

    if out.suffix.lower() not in endings:
        raise unknown_ending(out, [ending.lstrip(".") for ending in endings])


def _refuse_twice(outs: Iterable[Path]) -> None:
    """Raise ``CannotWrite`` where two outputs are one file, of which one would be lost."""
    seen: set[Path] = set()
    for out in outs:
        if out.resolve() in seen:
            raise CannotWrite(f"{out}: is named for two outputs; give each a name of its own")
        seen.add(out.resolve())


def write_by_ending(outs: Iterable[Path], writers: Writers) -> list[str]:
    """Write what each output's ending asks for, whole or not at all; returns what was written."""
    from mockup.render.writing import write_whole

    written: list[str] = []
    for out in outs:
        write_whole(out, writers[out.suffix.lower()]())
        written.append(str(out))
    return written


def say_written(written: Iterable[str], *, err: bool = False) -> None:
    """A line for each file that was written; on stderr where stdout holds data alone."""
    for out in written:
        click.echo(f"Wrote {out}.", err=err)


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
