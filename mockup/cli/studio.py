"""``mockup studio``: the studio book."""

from __future__ import annotations

from pathlib import Path

import click

from mockup.cli.showing import json_option, show_json
from mockup.errors import CannotWrite, MockupError


class NoPlace(MockupError):
    """A place whose studio book is asked for, and that does not exist."""


@click.group()
def command() -> None:
    """Your studio book: your own pumps, bags, prices and minutes.

    Example: mockup studio show samples/jobs
    """


@command.command()
@click.option(
    "-o",
    "--out",
    default="studio.toml",
    show_default=True,
    type=click.Path(path_type=Path),
    help="Where to write it.",
)
def new(out: Path) -> None:
    """Write a commented studio book to start from.

    Example: mockup studio new
    """
    from mockup.design.studio_book import BOOK
    from mockup.design.studio_starter import starter_book
    from mockup.render.writing import write_whole

    if out.exists():
        raise CannotWrite(f"{out}: there is one already; it is left as it is")
    write_whole(out, starter_book().encode())
    named = "" if out.name == BOOK else f" --book {out}"
    click.echo(f"Wrote {out}. Next: fill in your bags and prices, then mockup studio show{named}")
    if named:
        click.echo(f"A book is found by itself only as {BOOK}; name this one with{named}.")


@command.command()
@click.argument("place", default=".", type=click.Path(path_type=Path))
@click.option("--book", type=click.Path(path_type=Path), help="Another studio book.")
@json_option
def show(place: Path, book: Path | None, as_json: bool) -> None:
    """Which book is in force for the pieces in PLACE, and where each figure comes from.

    PLACE is a folder, or a piece or job file in it.

    Example: mockup studio show samples/jobs
    """
    from mockup.design.studio_book import book_for, places
    from mockup.design.studio_reading import read_studio
    from mockup.design.studio_showing import shown_book

    if not place.exists():
        raise NoPlace(f"{place}: there is no such folder or file; name one where pieces lie")
    folder = place if place.is_dir() else place.parent
    book = book or book_for(folder)
    if book is not None:
        read_studio(book)
    if as_json:
        show_json(
            {
                "version": 1,
                "file": str(book) if book else None,
                "looked_in": [str(each) for each in places(folder)],
                "figures": [
                    {"name": row.name, "value": row.value, "origin": row.origin}
                    for row in shown_book(book)
                ],
            }
        )
        return
    if book is None:
        click.echo("No studio book is in force: the usual figures hold. It is looked for in")
        for each in places(folder):
            click.echo(f"  {each}")
    else:
        click.echo(f"In force: {book}")
    rows = list(shown_book(book))
    wide = max(len(row.name) for row in rows)
    for row in rows:
        origin = row.origin.removeprefix(f"{book}:")
        said = origin if origin == row.origin else f"line {origin}"
        click.echo(f"  {row.name.ljust(wide)}  {row.value}  ({said})")
