"""``mockup palettes``: the colours at hand."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from mockup.cli.showing import json_option, show_json
from mockup.errors import Fault, FaultsFound

if TYPE_CHECKING:
    from mockup.colour.palettes import Palette


@click.command()
@click.argument("name", required=False)
@click.option(
    "-o", "--out", type=click.Path(path_type=Path), help="Draw a swatch sheet (.pdf ...)."
)
@json_option
def command(name: str | None, out: Path | None, as_json: bool) -> None:
    """Show the palettes in the terminal, or one by NAME; with -o, draw them as a swatch sheet.

    Example: mockup palettes harbour -o harbour.pdf
    """
    chosen = _chosen(name)
    if out is not None:
        _draw(chosen, out)
    elif as_json:
        show_json({"version": 1, "palettes": [_plain(palette) for palette in chosen]})
    else:
        for palette in chosen:
            _show(palette)


def _chosen(name: str | None) -> list[Palette]:
    from mockup.design.palette_files import load_palettes
    from mockup.spelling import did_you_mean

    palettes = load_palettes()
    if name is None:
        return [palettes[key] for key in sorted(palettes)]
    if name not in palettes:
        what = f"there is no palette '{name}'"
        raise FaultsFound([Fault("", what, did_you_mean(name, palettes))])
    return [palettes[name]]


def _plain(palette: Palette) -> dict[str, object]:
    colours = [{"name": c.name, "srgb": c.srgb, "finish": c.finish} for c in palette.colours]
    return {"name": palette.name, "says": palette.says, "colours": colours}


def _show(palette: Palette) -> None:
    from mockup.colour.srgb import parse_hex

    click.echo(f"{click.style(palette.name, bold=True)}: {palette.says}")
    for colour in palette.colours:
        swatch = click.style("    ", bg=parse_hex(colour.srgb))
        click.echo(f"  {swatch} {colour.name:<18} {colour.finish:<7} {colour.srgb}")
    click.echo()


def _draw(palettes: list[Palette], out: Path) -> None:
    from mockup.cli.drawing import write_document
    from mockup.render.sheets.swatches import swatch_document

    written, notes = write_document(swatch_document(palettes), [out])
    for path in written:
        click.echo(f"Wrote {path}.")
    for note in notes:
        click.echo(note, err=True)
