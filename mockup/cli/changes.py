"""``mockup changes``: what is otherwise in a piece than in an earlier revision."""

from __future__ import annotations

from pathlib import Path

import click

from mockup.cli.asking import PAPER
from mockup.cli.showing import json_option, show_json
from mockup.errors import Fault, FaultsFound

MOST_REVISIONS = 99_999


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.argument("revisions", nargs=-1, metavar="[REV] [REV]")
@click.option(
    "-o",
    "--out",
    "outs",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Also draw both, the changed places marked: .pdf, .svg or .png.",
)
@click.option("--paper", type=PAPER)
@click.option("--dpi", default="150", show_default=True, help="Dots per inch of a PNG, 36 to 1200.")
@json_option
def command(
    file: Path,
    *,
    revisions: tuple[str, ...],
    outs: tuple[Path, ...],
    paper: str | None,
    dpi: str,
    as_json: bool,
) -> None:
    """What has changed since revision REV, in words; between two with a second REV.

    Without REV, since the last revision in the log that is not the piece as it is now.

    Example: mockup changes ruby-thirty.toml 1 -o changes.pdf
    """
    from mockup.cli.asking import whole
    from mockup.cli.changing import changes_document, compared, plain_data
    from mockup.cli.drawing import write_document
    from mockup.cli.proof_wishes import DPI
    from mockup.render.writing import format_of

    for out in outs:
        format_of(out)
    faults: list[Fault] = []
    asked = tuple(whole("REV", each, 1, MOST_REVISIONS, faults) for each in revisions)
    dots = whole("--dpi", dpi, *DPI, faults)
    if faults:
        raise FaultsFound(faults)
    found = compared(file, asked)
    for fault in found.faults:
        click.echo(str(fault), err=True)
    written: list[str] = []
    if outs:
        written, notes = write_document(changes_document(found, paper), outs, dots)
        for note in notes:
            click.echo(note, err=True)
    if as_json:
        show_json(plain_data(found, written))
        return
    click.echo(f"{found.title}: from {found.old.words} to {found.new.words}")
    for said in found.said or ("Nothing has changed.",):
        click.echo(f"  {said}")
    for name in written:
        click.echo(f"Wrote {name}.")
