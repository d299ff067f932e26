"""What the commands for stock, price and build share: their options and how they write."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.showing import json_option
from mockup.errors import CannotWrite

if TYPE_CHECKING:
    from mockup.render.record import Document
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
        click.option(
            "--paper", type=click.Choice(["A4", "letter"], False), help="By default after the unit."
        ),
        json_option,
    )
    for option in options:
        command = option(command)
    return command


def say_changed(order: Order) -> None:
    """Loudly, before all else: which pieces are no longer what was approved."""
    for sentence in order.changed:
        click.secho(sentence, fg="red", bold=True, err=True)


def refuse_endings(outs: Iterable[Path], endings: Iterable[str]) -> None:
    """Raise ``UnknownEnding`` for an output that no writer is for, before anything is made."""
    from mockup.render.writing import unknown_ending

    known = [ending.lstrip(".") for ending in endings]
    for out in outs:
        if out.suffix.lower().lstrip(".") not in known:
            raise unknown_ending(out, known)


def refuse_twice(*outs: Path | None) -> None:
    """Raise ``CannotWrite`` where two outputs are one file, of which one would be lost."""
    seen: set[Path] = set()
    for out in outs:
        if out is None:
            continue
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


def say_written(written: Iterable[str]) -> None:
    """A line for each file that was written."""
    for out in written:
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
