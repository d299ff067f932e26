"""``mockup check``: the findings of a piece."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.showing import checks_fail, counted, json_option, show_findings, show_json

if TYPE_CHECKING:
    from mockup.piece.revisions import Standing


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
    from mockup.piece.revisions import standing

    now = standing(read_design(file), file)
    piece = assemble(now.design)
    findings = find_all(piece)
    fails = failing(findings)
    if as_json:
        from mockup.piece.layout import findings_data

        show_json(findings_data(findings) | {"approval": _approval_data(now)})
    else:
        click.echo(f"{piece.design.title}: {counted(len(piece.balloons), 'balloon')}")
        show_findings(findings)
        click.echo(f"{checks_fail(len(fails))}." if fails else "All checks hold.")
    for said in _approval_words(now):
        click.echo(said, err=True)
    sys.exit(1 if fails else 0)


def _approval_words(now: Standing) -> Iterator[str]:
    """Lines of the log that are damaged, and what has changed since the last approval."""
    from mockup.piece.revisions import record_words

    yield from map(str, now.log.faults)
    if now.outdated:
        yield (
            f"Changed since {record_words(now.outdated)} (proof {now.outdated.code}); "
            f"the file is now proof {now.code}:"
        )
        yield from (f"  {said}" for said in now.changed())


def _approval_data(now: Standing) -> dict[str, Any]:
    """The same as plain data."""
    record = now.approved or now.outdated
    kept = {
        "by": record.by if record else "",
        "on": record.on if record else "",
        "revision": record.revision if record else None,
        "code": record.code if record else "",
    }
    return {
        "code": now.code,
        "revision": now.design.revision,
        "approved": kept if record else None,
        "holds": now.approved is not None,
        "changes": now.changed(),
        "faults": [str(fault) for fault in now.log.faults],
    }
