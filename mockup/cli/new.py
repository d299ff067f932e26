"""``mockup new``: a piece file to start from."""

from __future__ import annotations

from pathlib import Path

import click

from mockup.cli.asking import UNIT
from mockup.lengths import Unit


@click.command()
@click.argument("name")
@click.option("--ring", help="Outside diameter of a ring.  [default: 30in]")
@click.option("--arch", help="Or how wide an arch is.")
@click.option("--column", help="Or how high a column is.")
@click.option("--heart", help="Or how wide a heart is.")
@click.option("--garland", help="Or the outside of a ring with mixed sizes over half of it.")
@click.option("--wall", help="Or how wide a wall is.")
@click.option("--numerals", help="The numerals inside a ring.  [default: 30]")
@click.option("--unit", type=UNIT, default="in", show_default=True)
def command(name: str, unit: Unit, numerals: str | None, **sizes: str | None) -> None:
    """Write a first piece file, ready to check and draw. NAME is its title.

    Example: mockup new "Ruby turns thirty" --ring 30in --numerals 30
    """
    from mockup.design.starter import starter_name
    from mockup.render.writing import write_new

    path = Path(starter_name(name))
    text = _text(name, unit, numerals, {key: size for key, size in sizes.items() if size})
    write_new(path, text.encode("utf-8"))
    click.echo(f"Wrote {path}. Next: mockup check {path}")


def _text(name: str, unit: Unit, numerals: str | None, sizes: dict[str, str]) -> str:
    """The file of the one frame that was asked for; a ring when none was."""
    from mockup.design.starter import begun_text, starter_text
    from mockup.design.starter_frames import BEGINNINGS
    from mockup.errors import Fault, FaultsFound

    if len(sizes) > 1:
        first, *others = (f"--{each}" for each in sizes)
        what = f"a piece has one frame, and {' and '.join((first, *others))} are asked for"
        raise FaultsFound([Fault(others[0], what, f"leave out all of them but {first}")])
    (frame, size) = next(iter(sizes.items()), ("ring", "30in"))
    if frame == "ring":
        wished = "30" if numerals is None else numerals
        return starter_text(name, ring=size, numerals=wished, unit=unit)
    return begun_text(name, BEGINNINGS[frame], size=size, numerals=numerals or "", unit=unit)
