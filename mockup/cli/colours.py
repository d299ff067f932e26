"""``mockup colours``: orders of colours, colours told apart, and a colour that is short."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.showing import json_option, show_json
from mockup.errors import Fault, FaultsFound

if TYPE_CHECKING:
    from mockup.design.model import Design
    from mockup.piece.placed import Piece


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--palette", help="Choose the colours from this palette; one of the file's without.")
@click.option("--short", multiple=True, help="A letter and by how many it is short: A=6.")
@click.option("--at-hand", multiple=True, help="How many more of a letter there are: B=10.")
@click.option("--most", default=8, show_default=True, type=click.IntRange(1, 200))
@json_option
def command(file: Path, as_json: bool, **asked: Any) -> None:
    """Orders of colours that keep mirror and alternation, fewest to buy first.

    Also the colours of the palette that are told apart best by every eye; and with --short, the
    fewest clusters to change so that symmetry holds.

    Example: mockup colours samples/ruby-thirty.toml --short A=6
    """
    from mockup.cli.colours_answers import Short, answers, show
    from mockup.design.reading import read_design
    from mockup.piece.assemble import assemble

    design = read_design(file)
    if design.wall is not None:
        what = "a wall has no other orders of colours: every balloon is a cell of its map"
        form = "change [wall], and see two versions side by side with 'mockup compare'"
        raise FaultsFound([Fault(design.where(design.wall.path), what, form)])
    short, spare = (_counts(design, name, asked[name]) for name in ("short", "at_hand"))
    piece: Piece = assemble(design)
    data = answers(piece, file.parent, asked["palette"], Short(short, spare), asked["most"])
    if as_json:
        show_json(data)
    else:
        show(data)


def _counts(design: Design, option: str, words: tuple[str, ...]) -> dict[str, int]:
    """``A=6`` as a letter of the design and a number."""
    where, counts = f"--{option.replace('_', '-')}", {}
    for text in words:
        letter, _, figure = (part.strip() for part in text.partition("="))
        if letter not in design.colours:
            known = ", ".join(design.colours)
            raise FaultsFound([Fault(where, f"'{letter}' is no letter", f"use {known}")])
        if not (figure.isascii() and figure.isdigit() and 0 < int(figure) <= 100_000):
            raise FaultsFound([Fault(where, f"'{text}' has no number", f"write {letter}=6")])
        counts[letter] = int(figure)
    return counts
