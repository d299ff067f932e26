"""``mockup suggest``: the best designs that hold, or a proof that none does."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.asking import PAPER
from mockup.cli.showing import json_option, show_json

if TYPE_CHECKING:
    from mockup.design.model import Design
    from mockup.design.wishes import Wishes
    from mockup.suggest.comparing import Version
    from mockup.suggest.searching import Outcome, Progress

_WIDTH = 28


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--out",
    "outs",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Draw the designs side by side; .pdf, .svg, .png or .html. May be given several times.",
)
@click.option("--best", type=click.IntRange(1, 12), help="How many designs; over the file's wish.")
@click.option("--at-most", type=click.IntRange(100, 1_000_000), help="Look at a sample only.")
@click.option("--cores", type=click.IntRange(1, 64), help="Processes; all cores by default.")
@click.option("--no-rings", is_flag=True, help="Do not look for a larger ring when none fits.")
@click.option("--paper", type=PAPER)
@click.option("--dpi", default=150, show_default=True, type=click.IntRange(36, 1200))
@json_option
def command(file: Path, as_json: bool, **asked: Any) -> None:
    """Find the best designs: keep what FILE fixes, vary what its [wishes] leave open.

    On rings and arcs. How many clusters a side and how they are filled always vary, and how they
    are turned unless the file or 'turns' in [wishes] says it; 'end_caps', 'places' and
    'alike = false' there open the rest.

    Ends with 0 when a design holds, 1 when none does. Ctrl-C ends with the best so far.

    Example: mockup suggest samples/wishes-hundred.toml -o hundred.pdf
    """
    from mockup.cli.compare_writing import check_outputs
    from mockup.cli.suggest_showing import answer_data, show_answer
    from mockup.design.wishes import read_wishes

    check_outputs(asked["outs"])
    design, wishes = read_wishes(file)
    wishes = replace(wishes, best=asked["best"] or wishes.best)
    outcome = _found(file, design, wishes, asked)
    larger = _larger(file, design, wishes, outcome, asked)
    if as_json:
        show_json(answer_data(design, wishes, outcome, larger))
    else:
        show_answer(design, wishes, outcome, larger)
    _draw(design, wishes, outcome, larger, asked)
    sys.exit(0 if outcome.best else 1)


def _found(file: Path, design: Design, wishes: Wishes, asked: dict[str, Any]) -> Outcome:
    from mockup.suggest.contradictions import refuse_contradictions
    from mockup.suggest.searching import suggested
    from mockup.suggest.space import space_of
    from mockup.worksheets.expense import price_of

    price = price_of(file.parent)
    refuse_contradictions(design, wishes, space_of(design, wishes), price)
    with _bar() as progress:
        return suggested(
            design,
            wishes,
            price,
            cores=_cores(asked),
            at_most=asked["at_most"],
            progress=progress,
        )


def _cores(asked: dict[str, Any]) -> int:
    return int(asked["cores"] or min(8, os.cpu_count() or 1))


def _larger(
    file: Path, design: Design, wishes: Wishes, outcome: Outcome, asked: dict[str, Any]
) -> list[tuple[float, Outcome]]:
    """Rings tried one after another until one works, where none fits the file's own."""
    wanted = not outcome.best and not outcome.stopped and not asked["no_rings"]
    if not wanted or design.frame.kind != "ring":
        return []
    from mockup.suggest.answers import ring_sizes
    from mockup.suggest.searching import in_rings
    from mockup.worksheets.expense import price_of

    tried: list[tuple[float, Outcome]] = []
    sizes, price = ring_sizes(design, wishes), price_of(file.parent)
    bounds = {"cores": _cores(asked), "at_most": asked["at_most"]}
    for outside, one in in_rings(design, wishes, price, sizes, **bounds):
        tried.append((outside, one))
        if one.best or one.stopped:
            break
    return tried


@contextmanager
def _bar() -> Iterator[Progress | None]:
    """A bar on stderr where a person watches; it is wiped at the end."""
    if not sys.stderr.isatty():
        yield None
        return

    def show(looked_at: int, total: int, found: int) -> None:
        full = _WIDTH * looked_at // max(1, total)
        bar = "█" * full + "·" * (_WIDTH - full)
        click.echo(f"\r{bar} {looked_at:,} of {total:,}, {found} found ", err=True, nl=False)

    try:
        yield show
    finally:
        click.echo("\r" + " " * 72 + "\r", err=True, nl=False)


def _draw(
    design: Design,
    wishes: Wishes,
    outcome: Outcome,
    larger: list[tuple[float, Outcome]],
    asked: dict[str, Any],
) -> None:
    """The designs that hold, or those of the smallest larger ring in which some do."""
    if not asked["outs"]:
        return
    from mockup.cli.compare_writing import write_comparison
    from mockup.lengths import format_length
    from mockup.suggest.answers import beats
    from mockup.suggest.comparing import rows

    ring = ""
    if not outcome.best and larger:
        outside, outcome = larger[-1]
        ring = f"In a {format_length(outside, design.unit)} ring, "
    if not outcome.best:
        names = " and ".join(out.name for out in asked["outs"])
        click.echo(f"There is no design to draw: {names} was not written.", err=True)
        return
    about = f"{ring}ranked by {wishes.rank}, from {outcome.total:,} designs that the wishes allow"
    versions = _versions(outcome)
    says = [beats(outcome, n, wishes, design.unit) for n in range(len(versions))]
    wish = {**asked, "says": says, "about": about[0].upper() + about[1:]}
    for said in write_comparison(design.title, versions, rows(versions), wish):
        click.echo(said, err=True)


def _versions(outcome: Outcome) -> list[Version]:
    from mockup.piece.visible import visible_shares
    from mockup.suggest.comparing import Version

    return [
        Version(str(n), each.piece, each.findings, visible_shares(each.piece), each.expense)
        for n, each in enumerate(outcome.best, start=1)
    ]
