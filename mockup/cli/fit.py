"""``mockup fit``: do these numerals fit that ring?"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.asking import UNIT
from mockup.cli.showing import json_option, refuse_beside_file, show_json

if TYPE_CHECKING:
    from mockup.design.model import Design
    from mockup.piece.placed import Piece

_CRESCENT = "From the middle outward: strokes or sizes, the end pair last ('3, 2, 2, end 1')."


@click.command()
@click.argument("file", type=click.Path(path_type=Path), required=False)
@click.option("--ring", help="Outside diameter of the ring, such as 24in.")
@click.option("--numerals", help="The numerals, such as 100.")
@click.option("--height", help="The height they are named by (flat), such as 13in.")
@click.option("--measured", is_flag=True, help="The height was measured on filled numerals.")
@click.option("--crescent", default="", help=f"Top and bottom alike. {_CRESCENT}")
@click.option("--top", help="The top crescent, where it differs.")
@click.option("--bottom", help="The bottom crescent, where it differs.")
@click.option("--tube", default="1/2in", show_default=True, help="Thickness of the ring's tube.")
@click.option("--size", default="5in", show_default=True, help="Nominal size of the balloons.")
@click.option("--gap", default="1/2in", show_default=True, help="Between the numerals.")
@click.option("--inside", is_flag=True, help="Numerals inside the ring, not in front of it.")
@click.option("--pump", default="4 = 4 1/2in", show_default=True, help="Strokes = what they give.")
@click.option("--unit", type=UNIT, default="in", show_default=True)
@json_option
def command(file: Path | None, as_json: bool, **words: Any) -> None:
    """Do the numerals fit the opening? Of a piece FILE, or of a ring described in options.

    Ends with 0 when they fit, 1 when they do not.

    Example: mockup fit --ring 24in --numerals 100 --height 13in --crescent "3, 2, 2, end 1"
    """
    from mockup.piece.assemble import assemble

    piece = assemble(_design(file, words))
    if piece.fit is None:
        raise click.UsageError("This piece has no numerals: add a [panel] to it.")
    _show(piece, as_json=as_json)
    sys.exit(0 if piece.fit.verdict in ("clear", "tucks") else 1)


def _show(piece: Piece, *, as_json: bool) -> None:
    from mockup.piece.findings.numerals import numerals_fit
    from mockup.piece.layout import VERSION, fit_data

    if as_json and piece.fit is not None:
        show_json({"version": VERSION, "unit": "mm"} | fit_data(piece.fit))
        return
    for finding in numerals_fit(piece):
        click.echo(f"{'Yes' if finding.verdict == 'holds' else 'No'}. {finding.says}")
        if finding.remedy:
            click.echo(f"To mend: {finding.remedy}.")
        else:
            click.echo(_largest(piece))


def _largest(piece: Piece) -> str:
    from mockup.lengths import format_length

    if piece.fit is None:
        return ""
    unit, filled = piece.design.unit, piece.fit.largest_height
    named = filled / (1 - piece.design.limits.foil_shrink)
    return (
        f"The largest of these that fit stand {format_length(filled, unit)} filled "
        f"(named about {format_length(named, unit)})."
    )


def _design(file: Path | None, words: dict[str, Any]) -> Design:
    if file is not None:
        from mockup.design.reading import read_design

        refuse_beside_file(words)
        return read_design(file)
    lacking = [f"--{name}" for name in ("ring", "numerals", "height") if not words[name]]
    if lacking:
        raise click.UsageError(
            f"Name a piece file, or describe the ring: {', '.join(lacking)} missing."
        )
    return _wished(words)


def _wished(words: dict[str, Any]) -> Design:
    from mockup.design.wish import Wish, design_from_wish, pump_from_words

    return design_from_wish(
        Wish(
            ring=words["ring"],
            numerals=words["numerals"],
            height=words["height"],
            top=words["crescent"] if words["top"] is None else words["top"],
            bottom=words["crescent"] if words["bottom"] is None else words["bottom"],
            tube=words["tube"],
            size=words["size"],
            gap=words["gap"],
            measured=words["measured"],
            place="inside" if words["inside"] else "in front",
            unit=words["unit"],
            pump=pump_from_words(words["pump"]),
        )
    )
