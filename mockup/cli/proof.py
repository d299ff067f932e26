"""``mockup proof``: the true-scale colour proof."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from mockup.cli.asking import PAPER, OneOf
from mockup.cli.showing import checks_fail, json_option, show_json


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--out",
    "outs",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Where to write; .pdf, .html, .svg or .png by its ending. May be given several times.",
)
@click.option(
    "--paper",
    type=PAPER,
    help="By default the smallest that shows the piece well.",
)
@click.option("--portrait", is_flag=True, help="The sheet stands; by default by the piece.")
@click.option("--landscape", is_flag=True, help="The sheet lies.")
@click.option("--scale", help="A scale such as 1:5; by default the largest that fits the sheet.")
@click.option("--views", default="front", show_default=True, help="front, side, plan: with commas.")
@click.option(
    "--figure",
    type=OneOf("person", "table"),
    help="For scale: 1.70 m tall, or 30 in (75 cm).",
)
@click.option("--both-units", is_flag=True, help="Inches and centimetres.")
@click.option("--letters", is_flag=True, help="Colour letters on the balloons.")
@click.option("--grey", is_flag=True, help="As a black-and-white printer shows it, with letters.")
@click.option(
    "--seen-as",
    type=OneOf("deutan", "protan", "tritan"),
    help="As an eye without green, red or blue cones sees it.",
)
@click.option(
    "--studio", default="", help="Your studio's name, on every sheet; the studio book's without it."
)
@click.option("--reply-to", default="", help="The address that the HTML page's reply goes to.")
@click.option("--issued", help="The day printed (2027-03-01).")
@click.option("--font", type=click.Path(path_type=Path), help="Letter it with this TTF or OTF.")
@click.option("--bold-font", type=click.Path(path_type=Path), help="And this one for bold.")
@click.option("--final", is_flag=True, help="For the client: no failing check; keeps a revision.")
@click.option("--dpi", default="150", show_default=True, help="Dots per inch of a PNG, 36 to 1200.")
@json_option
def command(file: Path, as_json: bool, **asked: Any) -> None:
    """Draw the proof to send to the client; by default FILE-proof.pdf beside the piece.

    A piece with colourways gets a page of each and one with all of them. An .html is one file to
    send: it opens on a phone, and its reply says what is approved. A job file gives one document
    with the proof of each of its pieces; where it has a setting, its elevation is the first page,
    at the scale asked for where that fits its paper.

    Example: mockup proof samples/ruby-thirty.toml -o ruby.pdf -o ruby.html
    """
    from mockup.cli.drawing import draw_proof
    from mockup.cli.job_files import is_job_file
    from mockup.cli.job_proof import about, draw_job

    report = (draw_job if is_job_file(file) else draw_proof)(file, asked)
    if as_json:
        show_json(report)
        return
    for written in report["written"]:
        click.echo(f"Wrote {written} ({about(report)}).")
    for said in report["notes"]:
        click.echo(said, err=True)
    if report["failing"]:
        fails = checks_fail(len(report["failing"]))
        click.echo(f"It is marked as a draft: {fails}. 'mockup check {file}' tells why.")
