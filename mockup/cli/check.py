"""``mockup check``: the findings of a piece."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from mockup.cli.showing import checks_fail, counted, json_option, show_findings, show_json


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@json_option
def command(file: Path, as_json: bool) -> None:
    """Does the piece nestle, mirror and alternate, and do the numerals fit?

    Ends with 0 when all holds, 1 when a check fails, 2 when the file has a fault.

    Example: mockup check samples/ruby-thirty.toml
    """
    from mockup.design.reading import read_design
    from mockup.piece.assemble import assemble
    from mockup.piece.findings import failing, find_all
    from mockup.piece.layout import findings_data

    piece = assemble(read_design(file))
    findings = find_all(piece)
    fails = failing(findings)
    if as_json:
        show_json(findings_data(findings))
    else:
        click.echo(f"{piece.design.title}: {counted(len(piece.balloons), 'balloon')}")
        show_findings(findings)
        click.echo(f"{checks_fail(len(fails))}." if fails else "All checks hold.")
    sys.exit(1 if fails else 0)
