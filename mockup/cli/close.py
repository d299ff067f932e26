"""``mockup close``: how many clusters close a ring or fill a stretch of frame."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.asking import UNIT, OneOf
from mockup.cli.showing import counted, json_option, refuse_beside_file, show_json
from mockup.errors import Fault, FaultsFound

if TYPE_CHECKING:
    from mockup.design.wishes_closing import ClosingWish
    from mockup.suggest.closing import ClosingTable


_OF_THE_FILE = ("ring", "tube", "kind", "pump", "unit")


@click.command()
@click.argument("file", type=click.Path(path_type=Path), required=False)
@click.option("--ring", help="Outside diameter of the ring, such as 30in.")
@click.option("--tube", default="1/2in", show_default=True, help="Thickness of its tube.")
@click.option("--stretch", help="Instead of a ring: a length of frame, from knot to knot.")
@click.option(
    "--kind",
    type=OneOf("single", "pair", "trio", "quad", "five"),
    default="quad",
    show_default=True,
)
@click.option("--fill", "fills", multiple=True, help="Strokes or a size; may be given again.")
@click.option("--count", type=click.IntRange(2, 2000), help="The count you wish to have.")
@click.option("--period", type=click.IntRange(1, 100), help="Clusters after which colours repeat.")
@click.option("--squeeze", help="How hard clusters are pressed; usual 10%.")
@click.option("--pump", default="4 = 4 1/2in", show_default=True, help="Strokes = what they give.")
@click.option("--unit", type=UNIT, default="in", show_default=True)
@json_option
def command(file: Path | None, as_json: bool, **words: Any) -> None:
    """How many clusters of which fill close a ring, and how hard they must be pressed.

    Of a piece FILE (its frame, its whole ring's first cluster and colours), or of options. With
    --stretch, of a length of frame from the first knot to the last.

    Example: mockup close --ring 30in --kind quad --fill 4 --count 28
    """
    from mockup.design.wishes_closing import closing_wish
    from mockup.suggest.closing import closing_table

    wish = _of_file(file, words) if file is not None else closing_wish(words)
    table = closing_table(wish)
    if as_json:
        show_json(table.data())
    else:
        _show(wish, table)


def _of_file(file: Path, words: dict[str, Any]) -> ClosingWish:
    from mockup.design.reading import read_design
    from mockup.design.wishes_closing import closing_wish_of
    from mockup.piece.assemble import frame_of

    refuse_beside_file(_OF_THE_FILE)
    design = read_design(file)
    if not design.sections:
        what = "there is no section whose clusters could close the frame"
        raise FaultsFound([Fault(str(file), what, "write --kind and --fill with --ring instead")])
    frame = frame_of(design)
    return closing_wish_of(design, frame.length, closed=frame.closed, words=words)


def _show(wish: ClosingWish, table: ClosingTable) -> None:
    from mockup.lengths import format_length

    round_it = format_length(wish.length, wish.unit)
    where = "once round" if wish.closed else "from knot to knot"
    click.echo(f"{round_it} {where}, {wish.kind}s, usual squeeze {wish.squeeze:.0%}\n")
    wide = max(10, *(len(table.pressed_words(row)) for row in table.rows))
    head = (
        f"  {'fill':<22} {'clusters':>8}  {'pressed by':>{wide}}  fill that is exact at the usual"
    )
    click.echo(head)
    for row in table.rows:
        mark = "  <- closes best" if row.best else "  <- wished" if row.wished else ""
        click.echo(
            f"  {row.fill.words(wish.unit):<22} {row.count:>8}  "
            f"{table.pressed_words(row):>{wide}}  "
            f"{table.exact_words(row)}{mark}"
        )
    for said in table.says:
        click.echo(said)
    if any(row.gap for row in table.rows):
        click.echo("\nGaps are what lies open between one cluster and the next.")
    click.echo(f"\n{table.step_words} The best takes {counted(table.balloons, 'balloon')}.")
