"""``mockup approve``: keep the client's yes beside the piece."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from mockup.cli.showing import checks_fail, json_option, show_json
from mockup.errors import Fault, FaultsFound, MockupError, printable

if TYPE_CHECKING:
    from datetime import date

    from mockup.design.model import Design

_FIRST_YEAR = 2000


class NotApprovable(MockupError):
    """An approval of a piece whose checks fail."""

    exit_code = 1


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--by", required=True, help="Who approved.")
@click.option("--colourway", default="", help="The colourway they chose, where there are several.")
@click.option("--proof", "signed", default="", help="The code on the sheet that was signed.")
@click.option("--on", help="The day (2027-03-01); else today.")
@click.option("--note", default="", help="Their words, or yours.")
@click.option("--even-so", is_flag=True, help="Keep it although a check fails.")
@json_option
def command(
    file: Path,
    *,
    by: str,
    colourway: str,
    signed: str,
    on: str | None,
    note: str,
    even_so: bool,
    as_json: bool,
) -> None:
    """Keep an approval in the log beside the piece; nothing in the log is ever changed.

    The log is FILE's name with .approvals.jsonl; a .lock beside it lets two programs take turns.

    With --proof it is kept only where the signed sheet shows the piece as the file has it now.

    Example: mockup approve ruby-thirty.toml --by "R. Alder" --proof CA8C6DF3
    """
    from mockup.design.approvals import Record, add_counted, log_path
    from mockup.design.reading import read_design
    from mockup.piece.code import content
    from mockup.piece.revisions import standing

    faults: list[Fault] = []
    who, when = _name(by, faults), _day(on, faults)
    if faults:
        raise FaultsFound(faults)
    design = read_design(file)
    way, shown = _colourway(design, colourway)
    now = standing(design, file)
    _refuse_another(signed, now.code, file)
    fails = _refuse_failing(design, file, even_so)
    kept = Record("approved", now.code, 1, when.isoformat(), who, way, note, content(design))
    record = add_counted(file, kept)
    for fault in now.log.faults:
        click.echo(str(fault), err=True)
    if as_json:
        told = {"code": record.code, "revision": record.revision, "on": record.on, "by": who}
        show_json({"version": 1, **told, "colourway": way, "failing": fails})
        return
    what = f"colourway {printable(shown)} of " if shown else ""
    click.echo(
        f"Kept in {log_path(file).name}: {printable(who)} approved {what}proof {record.code}, "
        f"revision {record.revision}, on {record.on}."
    )
    if fails:
        click.echo(f"Kept although {checks_fail(len(fails))}: {', '.join(fails)}.")


def _name(by: str, faults: list[Fault]) -> str:
    if not any(character.isprintable() and not character.isspace() for character in by):
        faults.append(Fault("--by", "names nobody", "write who approved, such as 'R. Alder'"))
    return by.strip()


def _day(on: str | None, faults: list[Fault]) -> date:
    """The day of the approval: a day ahead is let through, for it may be tomorrow elsewhere."""
    from datetime import datetime, timedelta

    from mockup.cli.asking import day

    today = datetime.now().date()
    given = day("--on", on, faults) or today
    if given > today + timedelta(days=1):
        faults.append(Fault("--on", f"{given} is still to come", "write the day of the approval"))
    if given.year < _FIRST_YEAR:
        faults.append(Fault("--on", f"{given} is long past", "write the day of the approval"))
    return given


def _refuse_another(signed: str, code: str, file: Path) -> None:
    """A sheet that was signed must show the piece as it is now."""
    told = signed.strip().upper()
    if not told or told == code:
        return
    what = f"the signed sheet is proof {printable(told)}, and {file.name} is now proof {code}"
    instead = "send them this proof, or approve the file as it was when that sheet was drawn"
    raise FaultsFound([Fault("--proof", what, instead)])


def _refuse_failing(design: Design, file: Path, even_so: bool) -> list[str]:
    """The names of the checks that fail; raises ``NotApprovable`` unless they are let be."""
    from mockup.piece.assemble import assemble
    from mockup.piece.findings import failing, find_all

    fails = list(dict.fromkeys(each.name for each in failing(find_all(assemble(design)))))
    if fails and not even_so:
        raise NotApprovable(
            f"{file.name}: {checks_fail(len(fails))} ({', '.join(fails)}), so it is a draft and "
            "nothing was kept; mend it, or say --even-so to keep the approval as it is"
        )
    return fails


def _colourway(design: Design, asked: str) -> tuple[str, str]:
    """The name as the log keeps it, nothing for the first colours; and as the sheets show it."""
    from mockup.design.ways import named_way, ways
    from mockup.spelling import did_you_mean

    names = [way.name for way in ways(design)]
    kept = named_way(design, asked)
    if kept is not None and (asked or len(names) == 1):
        return kept, kept or names[0]
    if len(names) == 1:
        what, hint = "this piece has no colourways", "leave --colourway out"
    elif not asked:
        listed = ", ".join(names)
        what, hint = f"this piece has several colourways: {listed}", "say which was approved"
    else:
        what = f"there is no colourway '{printable(asked)}'"
        hint = did_you_mean(asked, names)
    raise FaultsFound([Fault("--colourway", what, hint)])
