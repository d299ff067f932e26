"""``mockup approve``: keep the client's yes beside the piece."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from mockup.cli.showing import json_option, show_json
from mockup.errors import Fault, FaultsFound, printable

if TYPE_CHECKING:
    from mockup.design.model import Design


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--by", required=True, help="Who approved.")
@click.option("--colourway", default="", help="The colourway they chose.")
@click.option("--on", type=click.DateTime(["%Y-%m-%d"]), help="The day (2027-03-01); else today.")
@click.option("--note", default="", help="Their words, or yours.")
@json_option
def command(
    file: Path, *, by: str, colourway: str, on: datetime | None, note: str, as_json: bool
) -> None:
    """Keep an approval in the log beside the piece; nothing in the log is ever changed.

    Example: mockup approve ruby-thirty.toml --by "R. Alder" --colourway B
    """
    from mockup.design.approvals import Record, add_record
    from mockup.design.reading import read_design
    from mockup.piece.code import content
    from mockup.piece.revisions import standing

    design = read_design(file)
    way = _colourway(design, colourway)
    now = standing(design, file)
    code, log, revision = now.code, now.log, now.design.revision
    day = (on or datetime.now()).date().isoformat()
    record = Record("approved", code, revision, day, by, way, note, content(design))
    path = add_record(file, record)
    for fault in log.faults:
        click.echo(str(fault), err=True)
    if as_json:
        show_json(
            {
                "version": 1,
                "code": code,
                "revision": revision,
                "on": day,
                "by": by,
                "colourway": way,
            }
        )
    else:
        click.echo(
            f"Kept in {path.name}: {by} approved proof {code}, revision {revision}, on {day}."
        )


def _colourway(design: Design, asked: str) -> str:
    """The name as the log keeps it: nothing for the first colours, which the sheets call A."""
    from mockup.design.ways import named_way, ways
    from mockup.spelling import did_you_mean

    kept = named_way(design, asked)
    if kept is not None:
        return kept
    names = [way.name for way in ways(design)]
    if len(names) == 1:
        what, hint = "this piece has no colourways", "leave --colourway out"
    else:
        what = f"there is no colourway '{printable(asked)}'"
        hint = did_you_mean(asked, names)
    raise FaultsFound([Fault("--colourway", what, hint)])
