"""``mockup new``: a piece file to start from."""

from __future__ import annotations

from pathlib import Path

import click

from mockup.lengths import Unit


@click.command()
@click.argument("name")
@click.option("--ring", default="30in", show_default=True, help="Outside diameter of the ring.")
@click.option("--numerals", default="30", show_default=True, help="The numerals inside it.")
@click.option("--unit", type=click.Choice(["in", "cm"]), default="in", show_default=True)
def command(name: str, ring: str, numerals: str, unit: Unit) -> None:
    """Write a first piece file, ready to check and draw. NAME is its title.

    Example: mockup new "Ruby turns thirty" --ring 30in --numerals 30
    """
    from mockup.design.starter import starter_name, starter_text
    from mockup.render.writing import write_new

    path = Path(starter_name(name))
    text = starter_text(name, ring=ring, numerals=numerals, unit=unit)
    write_new(path, text.encode("utf-8"))
    click.echo(f"Wrote {path}. Next: mockup check {path}")
