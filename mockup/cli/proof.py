"""``mockup proof``: the true-scale colour proof."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from mockup.cli.showing import checks_fail, json_option, show_json


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--out",
    "outs",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Where to write; .pdf, .svg or .png by its ending. May be given several times.",
)
@click.option(
    "--paper",
    type=click.Choice(["A4", "A3", "letter", "tabloid"], False),
    help="By default the smallest that shows the piece well.",
)
@click.option("--portrait", "landscape", flag_value=False, default=None, type=bool)
@click.option("--landscape", "landscape", flag_value=True, default=None, type=bool)
@click.option("--scale", help="A scale such as 1:5; by default the largest that fits the sheet.")
@click.option("--letters", is_flag=True, help="Colour letters on the balloons.")
@click.option("--final", is_flag=True, help="Refuse to draw a piece that fails a check.")
@click.option("--dpi", default=150, show_default=True, type=click.IntRange(36, 1200))
@json_option
def command(file: Path, as_json: bool, **asked: Any) -> None:
    """Draw the proof to send to the client; by default FILE-proof.pdf beside the piece.

    Example: mockup proof samples/ruby-thirty.toml -o ruby.pdf
    """
    from mockup.cli.drawing import draw_proof

    report = draw_proof(file, asked)
    if as_json:
        show_json(report)
        return
    for written in report["written"]:
        click.echo(f"Wrote {written} (proof {report['code']}, scale {report['scale']}).")
    for said in report["notes"]:
        click.echo(said, err=True)
    if report["failing"]:
        fails = checks_fail(len(report["failing"]))
        click.echo(f"It is marked as a draft: {fails}. 'mockup check {file}' tells why.")
