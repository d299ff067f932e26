"""``mockup studio``: the studio book."""

from __future__ import annotations

from pathlib import Path

import click

from mockup.errors import CannotWrite


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
    from mockup.design.studio_starter import starter_book
    from mockup.render.writing import write_whole

    if out.exists():
        raise CannotWrite(f"{out}: there is one already; it is left as it is")
    write_whole(out, starter_book().encode())
    click.echo(f"Wrote {out}. Next: fill in your bags and prices, then mockup studio show")


@command.command()
@click.argument("place", default=".", type=click.Path(path_type=Path))
def show(place: Path) -> None:
    """Which book is in force for the pieces in PLACE, and where each figure comes from.

    Example: mockup studio show samples/jobs
    """
    from mockup.design.studio_book import book_for, places
    from mockup.design.studio_reading import read_studio
    from mockup.design.studio_showing import shown_book

    folder = place if place.is_dir() else place.parent
    book = book_for(folder)
    if book is None:
        click.echo("No studio book is in force: the usual figures hold. It is looked for in")
        for each in places(folder):
            click.echo(f"  {each}")
    else:
        read_studio(book)
        click.echo(f"In force: {book}")
    rows = list(shown_book(book))
    wide = max(len(row.name) for row in rows)
    for row in rows:
        origin = row.origin.removeprefix(f"{book}:")
        said = origin if origin == row.origin else f"line {origin}"
        click.echo(f"  {row.name.ljust(wide)}  {row.value}  ({said})")
