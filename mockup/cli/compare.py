"""``mockup compare``: versions of a piece side by side."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.asking import PAPER
from mockup.cli.showing import json_option, show_json

if TYPE_CHECKING:
    from mockup.suggest.comparing import Row, Version

MOST = 12


@click.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--out",
    "outs",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Draw the sheet; .pdf, .svg, .png or .html by its ending. May be given several times.",
)
@click.option("--only", multiple=True, help="Only the options of these names.")
@click.option("--paper", type=PAPER)
@click.option("--dpi", default=150, show_default=True, type=click.IntRange(36, 1200))
@json_option
def command(files: tuple[Path, ...], as_json: bool, **asked: Any) -> None:
    """Compare several pieces, or one with the [[option]]s that its file lists.

    Example: mockup compare samples/ruby-thirty.toml samples/club-hundred.toml -o both.pdf
    """
    from mockup.cli.compare_writing import check_outputs, write_comparison
    from mockup.suggest.comparing import rows

    check_outputs(asked["outs"])
    versions = _versions(files, asked["only"])
    lines = rows(versions)
    if as_json:
        show_json(_data(versions, lines))
    else:
        for line in table_lines(versions, lines):
            click.echo(line)
    title = versions[0].piece.design.title if len(files) == 1 else "Pieces compared"
    for said in write_comparison(title, versions, lines, asked):
        click.echo(said, err=True)


def _versions(files: tuple[Path, ...], only: tuple[str, ...]) -> list[Version]:
    from mockup.piece.assemble import assemble
    from mockup.suggest.comparing import version
    from mockup.worksheets.expense import price_of

    named = list(_named(files, only))
    if len(named) > MOST:
        raise click.UsageError(f"{len(named)} versions are too many side by side: at most {MOST}.")
    return [version(name, assemble(each), price_of(file.parent)) for file, name, each in named]


def _named(files: tuple[Path, ...], only: tuple[str, ...]) -> Any:
    from mockup.design.options import AS_IT_IS, read_options
    from mockup.spelling import did_you_mean

    known: list[str] = []
    for file in files:
        for option in read_options(file):
            known.append(option.name)
            if not only or option.name in only:
                alone = option.name == AS_IT_IS and len(files) > 1
                own = option.design.title if alone else option.name
                yield file, own, option.design
    missing = [name for name in only if name not in known]
    if missing:
        raise click.UsageError(
            f"There is no option '{missing[0]}'; {did_you_mean(missing[0], known)}."
        )


def table_lines(versions: list[Version], lines: tuple[Row, ...]) -> list[str]:
    """The comparison for the terminal, in columns; a cell of several lines takes as many."""
    grid = [["", *(each.name for each in versions)]]
    for row in lines:
        marked = [
            f"{cell} ({row.best_word})" if best else cell
            for cell, best in zip(row.cells, row.best, strict=True)
        ]
        parts = [[row.label], *(cell.split("\n") for cell in marked)]
        for number in range(max(map(len, parts))):
            grid.append([own[number] if number < len(own) else "" for own in parts])
    widths = [max(len(line[column]) for line in grid) for column in range(len(grid[0]))]
    return [
        "  ".join(c.ljust(w) for c, w in zip(line, widths, strict=True)).rstrip() for line in grid
    ]


def _data(versions: list[Version], lines: tuple[Row, ...]) -> dict[str, Any]:
    return {
        "version": 1,
        "unit": "mm",
        "versions": [each.name for each in versions],
        "rows": [
            {
                "label": row.label,
                "cells": list(row.cells),
                "figures": [None if f is None else round(f, 4) for f in row.figures],
                "best": [place for place, best in enumerate(row.best) if best],
                "best_is": row.best_word,
            }
            for row in lines
        ],
        "failing": {
            each.name: [f.name for f in each.findings if f.verdict == "fails"] for each in versions
        },
    }
