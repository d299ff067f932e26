"""``mockup layout``: where every balloon lies."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from mockup.cli.showing import json_option, show_json

if TYPE_CHECKING:
    from mockup.piece.placed import Piece


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--unsettled", is_flag=True, help="Where the balloons are placed, before settling.")
@json_option
def command(file: Path, unsettled: bool, as_json: bool) -> None:
    """List the clusters along the frame, or with --json every balloon.

    Of a job file, also where each of its pieces stands.

    Example: mockup layout samples/ruby-thirty.toml
    """
    from mockup.cli.job_files import is_job_file
    from mockup.design.reading import read_design
    from mockup.piece.assemble import assemble
    from mockup.piece.layout import layout_data

    if is_job_file(file):
        from mockup.cli.job_check import lay_out_job

        lay_out_job(file, unsettled=unsettled, as_json=as_json)
        return
    piece = assemble(read_design(file))
    if as_json:
        show_json(layout_data(piece, unsettled=unsettled))
    elif piece.design.wall is not None:
        from mockup.piece.wall import row_lines

        for line in row_lines(piece, piece.design.wall):
            click.echo(line)
    else:
        show_marks(piece)


def show_marks(piece: Piece) -> None:
    """Where every cluster of a piece is tied, in the terminal."""
    from mockup.lengths import format_length
    from mockup.piece.placed import outward

    click.echo(f"{piece.design.title}: marks on the tube, measured from each section's middle")
    section = ""
    for cluster in outward(piece.clusters):
        if cluster.section != section:
            section = cluster.section
            click.echo(f"\n{section}")
        mark = format_length(abs(cluster.along), piece.design.unit)
        fill = format_length(cluster.diameter, piece.design.unit)
        strokes = f" ({cluster.strokes:g} strokes)" if cluster.strokes else ""
        name = piece.cluster_words(cluster.index).removeprefix(f"{section}, ")
        click.echo(
            f"  {name:<24} {mark:>10}  {cluster.kind:<6} {cluster.letters:<5} filled to "
            f"{fill}{strokes}"
        )
